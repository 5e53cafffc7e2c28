package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strconv"
	"strings"
)

// A change is one mistake: a part of a file and what stands there instead.
type change struct {
	file     string // from the module's root, with slashes
	line, at int    // its number, and the place in the file
	text     string // of the line
	was, now string
	what     string // as in "< into <="
	draw     string // puts the changes of a package in order for a sample
	alone    bool   // it cannot be switched on and off, and is compiled by itself
}

func (c *change) String() string { return fmt.Sprintf("%s:%d %s", c.file, c.line, c.what) }

// An edit is what makes mistakes of a file that can be switched on and off.
type edit struct {
	at, takes int // the place in the file, and how many bytes are replaced
	put       string
	closes    bool // it ends what stands before it
}

// file is one of a package's, with its edits in the order in which they were made.
type file struct {
	name   string
	text   []byte
	syntax *ast.File
	edits  []edit
}

// A reader collects the mistakes that can be made in a package. Each is known by its
// place in the list, and switched by it.
type reader struct {
	*source
	all   []*change
	file  *file
	alone map[string]bool // lines whose mistakes cannot be switched, as file:number
	twice map[string]int  // how often a line had a change that reads the same
	skip  map[ast.Node]bool
	fixed map[ast.Node]bool       // constants by the language, such as those of a const block
	as    map[ast.Expr]types.Type // what an operand of a constant expression is part of
}

// read lists the mistakes of the package and edits its files.
func (s *source) read(alone map[string]bool) []*change {
	r := &reader{source: s, alone: alone, twice: map[string]int{}, skip: map[ast.Node]bool{},
		fixed: map[ast.Node]bool{}, as: map[ast.Expr]types.Type{}}
	for _, r.file = range s.files {
		r.file.edits = nil
		ast.Inspect(r.file.syntax, r.visit)
	}
	return r.all
}

func (r *reader) visit(n ast.Node) bool {
	if n == nil || r.skip[n] {
		return false
	}
	switch n := n.(type) {
	case *ast.GenDecl:
		if n.Tok == token.CONST || n.Tok == token.TYPE {
			r.fix(n)
		}
	case *ast.ArrayType:
		r.fix(n)
	case *ast.KeyValueExpr:
		if _, ok := n.Key.(*ast.BasicLit); ok {
			r.fixed[n.Key] = true
		}
	case *ast.ParenExpr:
		if r.as[n] != nil {
			r.as[n.X] = r.as[n]
		}
	case *ast.BinaryExpr:
		r.binary(n)
	case *ast.AssignStmt:
		r.assign(n)
	case *ast.IncDecStmt:
		name, now := "mistakeStep", "--"
		if n.Tok == token.DEC {
			name, now = "mistakeBack", "++"
		}
		if id, ok := r.add(n, n.TokPos, n.Tok.String(), now); ok {
			r.put(n.TokPos, 2, true, " += %s[%s](%d)", name, r.typeName(n.X), id)
		}
	case *ast.UnaryExpr:
		r.unary(n)
	case *ast.BasicLit:
		r.constant(n)
	case *ast.CallExpr:
		// What room is made beforehand changes nothing.
		if f, ok := n.Fun.(*ast.Ident); ok && f.Name == "make" && len(n.Args) > 1 {
			_, isMap := n.Args[0].(*ast.MapType)
			r.skip[n.Args[len(n.Args)-1]] = len(n.Args) == 3 || isMap
		}
	case *ast.FuncDecl:
		r.early(n)
	}
	return true
}

// fix notes that what stands below a node must be constant.
func (r *reader) fix(n ast.Node) {
	ast.Inspect(n, func(n ast.Node) bool {
		if n != nil {
			r.fixed[n] = true
		}
		return true
	})
}

var neighbours = map[token.Token][]token.Token{
	token.LSS: {token.LEQ, token.GEQ}, token.LEQ: {token.LSS, token.GTR},
	token.GTR: {token.GEQ, token.LEQ}, token.GEQ: {token.GTR, token.LSS},
	token.EQL: {token.NEQ}, token.NEQ: {token.EQL}, token.LAND: {token.LOR}, token.LOR: {token.LAND},
	token.ADD: {token.SUB}, token.SUB: {token.ADD}, token.MUL: {token.QUO}, token.QUO: {token.MUL}, token.REM: {token.MUL},
	token.ADD_ASSIGN: {token.SUB_ASSIGN}, token.SUB_ASSIGN: {token.ADD_ASSIGN},
	token.MUL_ASSIGN: {token.QUO_ASSIGN}, token.QUO_ASSIGN: {token.MUL_ASSIGN},
}

// functions are those of switches.txt for an operator.
var functions = map[token.Token]string{
	token.LSS: "Lss", token.LEQ: "Leq", token.GTR: "Gtr", token.GEQ: "Geq", token.LAND: "And", token.LOR: "Or",
	token.ADD: "Add", token.SUB: "Sub", token.MUL: "Mul", token.QUO: "Quo", token.REM: "Rem",
	token.ADD_ASSIGN: "Add", token.SUB_ASSIGN: "Sub", token.MUL_ASSIGN: "Mul", token.QUO_ASSIGN: "Quo",
}

func (r *reader) binary(n *ast.BinaryExpr) {
	constant := r.info.Types[n].Value != nil
	for _, x := range []ast.Expr{n.X, n.Y} {
		if constant && r.numeric(n) {
			r.as[x] = r.typeOf(n)
		}
	}
	comparison := map[token.Token]bool{token.EQL: true, token.NEQ: true, token.LAND: true, token.LOR: true,
		token.LSS: true, token.LEQ: true, token.GTR: true, token.GEQ: true}[n.Op]
	if !comparison && !r.numeric(n) {
		return
	}
	var ids []string
	switched := true
	for _, now := range neighbours[n.Op] {
		id, ok := r.add(n, n.OpPos, n.Op.String(), now.String())
		ids = append(ids, strconv.Itoa(id))
		switched = switched && ok
	}
	if !switched || len(ids) == 0 {
		return
	}
	if n.Op == token.EQL || n.Op == token.NEQ {
		r.put(n.Pos(), 0, false, "((")
		r.put(n.End(), 0, true, ") != mistake(%s))", ids[0])
		return
	}
	of, lazy, end := "", "", ")"
	switch {
	case n.Op == token.LAND || n.Op == token.LOR:
		lazy, end = "func() bool { return ", "})"
	case constant:
		of = "[" + r.typeName(n) + "]"
	}
	r.put(n.Pos(), 0, false, "mistake%s%s(%s, ", functions[n.Op], of, strings.Join(ids, ", "))
	r.put(n.OpPos, len(n.Op.String()), true, ",")
	if lazy != "" {
		r.put(n.Y.Pos(), 0, false, "%s", lazy)
	}
	r.put(n.End(), 0, true, "%s", end)
}

func (r *reader) assign(n *ast.AssignStmt) {
	for _, now := range neighbours[n.Tok] {
		if !r.numeric(n.Lhs[0]) {
			return
		}
		if id, ok := r.add(n, n.TokPos, n.Tok.String(), now.String()); ok {
			left := r.file.text[r.offset(n.Lhs[0].Pos()):r.offset(n.Lhs[0].End())]
			r.put(n.TokPos, 2, true, "= mistake%s(%d, %s, ", functions[n.Tok], id, left)
			r.put(n.End(), 0, true, ")")
		}
	}
}

func (r *reader) unary(n *ast.UnaryExpr) {
	if n.Op != token.NOT && n.Op != token.SUB {
		return
	}
	r.as[n.X] = r.typeOf(n)
	id, ok := r.add(n, n.OpPos, n.Op.String(), "")
	switch {
	case !ok:
	case n.Op == token.NOT:
		r.put(n.OpPos, 1, false, "((!")
		r.put(n.End(), 0, true, ") != mistake(%d))", id)
	default:
		r.put(n.OpPos, 1, false, "mistakeNeg[%s](%d, ", r.typeName(n), id)
		r.put(n.End(), 0, true, ")")
	}
}

// constant changes a digit, as one that is mistyped, and makes a small whole number
// one more.
func (r *reader) constant(n *ast.BasicLit) {
	if n.Kind != token.INT && n.Kind != token.FLOAT {
		return
	}
	now := ""
	if v, err := strconv.Atoi(n.Value); err == nil && v < 10 {
		now = strconv.Itoa(v + 1)
	} else {
		mantissa, _, _ := strings.Cut(strings.ToLower(n.Value), "e")
		if strings.HasPrefix(mantissa, "0x") {
			return
		}
		digits := strings.Count(mantissa, "") - 1 - strings.Count(mantissa, ".") - strings.Count(mantissa, "_")
		sum := sha256.Sum256([]byte(n.Value))
		k := int(sum[0]) % digits
		for i := range mantissa {
			if mantissa[i] == '.' || mantissa[i] == '_' {
				continue
			}
			if k--; k < 0 {
				now = n.Value[:i] + string('0'+(n.Value[i]-'0'+1+sum[1]%9)%10) + n.Value[i+1:]
				break
			}
		}
	}
	if n.Kind == token.INT && len(now) > 1 && now[0] == '0' { // which is no number, or an octal one
		now = strconv.Itoa(1+int(n.Value[0]-'0')%9) + now[1:]
	}
	if id, ok := r.add(n, n.ValuePos, n.Value, now); ok {
		r.put(n.Pos(), len(n.Value), false, "mistakeConst[%s](%d, %s, %s)", r.typeName(n), id, n.Value, now)
	}
}

// early lets a function return zero values, unless it does nothing else.
func (r *reader) early(f *ast.FuncDecl) {
	if f.Body == nil || f.Type.Results == nil || len(f.Body.List) == 0 || zeroAnyhow(f.Body) {
		return
	}
	var names, declared []string
	for _, field := range f.Type.Results.List {
		of := r.file.text[r.offset(field.Type.Pos()):r.offset(field.Type.End())]
		for range max(1, len(field.Names)) {
			name := "none" + strconv.Itoa(len(names))
			names = append(names, name)
			declared = append(declared, fmt.Sprintf("var %s %s", name, of))
		}
	}
	body := fmt.Sprintf("%s; return %s", strings.Join(declared, "; "), strings.Join(names, ", "))
	id, ok := r.add(f.Name, f.Body.Lbrace, "{", "{"+body+";")
	r.all[id].what = f.Name.Name + " returns zero values"
	if ok {
		r.put(f.Body.Lbrace, 1, false, "{if mistake(%d) {%s}; ", id, body)
	}
}

// zeroAnyhow reports whether a body is a return of nothing but zero values.
func zeroAnyhow(body *ast.BlockStmt) bool {
	only, ok := body.List[0].(*ast.ReturnStmt)
	if !ok {
		return false
	}
	for _, result := range only.Results {
		switch x := result.(type) {
		case *ast.Ident:
			if x.Name != "nil" && x.Name != "false" {
				return false
			}
		case *ast.BasicLit:
			if x.Value != "0" && x.Value != `""` {
				return false
			}
		case *ast.CompositeLit:
			if len(x.Elts) > 0 {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// add lists a mistake, and reports whether it can be switched.
func (r *reader) add(n ast.Node, at token.Pos, was, now string) (id int, switched bool) {
	what := was + " into " + now
	if now == "" {
		what = was + " dropped"
	}
	where := r.fset.Position(at)
	start, end := bytes.LastIndexByte(r.file.text[:where.Offset], '\n')+1, bytes.IndexByte(r.file.text[where.Offset:], '\n')
	if end < 0 {
		end = len(r.file.text) - where.Offset
	}
	text := strings.TrimSpace(string(r.file.text[start : where.Offset+end]))
	key := r.file.name + "\n" + text + "\n" + what
	r.twice[key]++
	sum := sha256.Sum256([]byte(key + strconv.Itoa(r.twice[key])))
	c := &change{
		file: r.file.name, line: where.Line, at: where.Offset, text: text, was: was, now: now, what: what,
		draw: hex.EncodeToString(sum[:]), alone: r.fixed[n],
	}
	for line := r.fset.Position(n.Pos()).Line; line <= r.fset.Position(n.End()).Line; line++ {
		c.alone = c.alone || r.alone[place(r.file.name, line)]
	}
	r.all = append(r.all, c)
	return len(r.all) - 1, !c.alone
}

func place(file string, line int) string { return file + ":" + strconv.Itoa(line) }

func (r *reader) put(at token.Pos, takes int, closes bool, format string, values ...any) {
	r.file.edits = append(r.file.edits, edit{r.offset(at), takes, fmt.Sprintf(format, values...), closes})
}

func (r *reader) offset(at token.Pos) int { return r.fset.Position(at).Offset }

// typeOf is the type of an expression; that of an operand of a constant expression is
// the whole's.
func (r *reader) typeOf(n ast.Expr) types.Type {
	if t := r.as[n]; t != nil {
		return t
	}
	return r.info.TypeOf(n)
}

func (r *reader) numeric(n ast.Expr) bool {
	switch t := r.typeOf(n).Underlying().(type) {
	case *types.Basic:
		return t.Info()&types.IsNumeric != 0
	case *types.Interface: // of a type parameter
		return true
	}
	return false
}

func (r *reader) typeName(n ast.Expr) string {
	return types.TypeString(types.Default(r.typeOf(n)), func(p *types.Package) string {
		if p == r.types {
			return ""
		}
		return p.Name()
	})
}
