package main

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/mistake"
)

// A change is one mistake: a part of a file and what stands there instead.
type change struct {
	mistake.Place
	at       int    // the place in the file
	text     string // of the line
	was, now string
	what     string // as in "< into <="
	draw     string // puts the changes of a package in order for a sample
}

func (c change) String() string { return fmt.Sprintf("%s:%d %s", c.File, c.Line, c.what) }

// overlay writes the file with the mistake, and what tells the compiler of it.
func (c change) overlay(scratch string) (string, error) {
	text, err := os.ReadFile(filepath.FromSlash(c.File))
	if err != nil {
		return "", err
	}
	changed := string(text[:c.at]) + c.now + string(text[c.at+len(c.was):])
	original, errPath := filepath.Abs(filepath.FromSlash(c.File))
	other, list := filepath.Join(scratch, "changed.go"), filepath.Join(scratch, "overlay.json")
	data, errJSON := json.Marshal(map[string]any{"Replace": map[string]string{original: other}})
	return list, errors.Join(errPath, errJSON, os.MkdirAll(scratch, 0o777),
		os.WriteFile(other, []byte(changed), 0o666), os.WriteFile(list, data, 0o666))
}

// A reader collects the mistakes that can be made in a file.
type reader struct {
	name  string
	text  []byte
	fset  *token.FileSet
	all   []change
	twice map[string]int // how often a line had a change that reads the same
	skip  map[ast.Node]bool
	in    *ast.FuncDecl // the function that is being read
}

// mistakes returns all that can be made in the files of a package, its tests left out.
func mistakes(p *mistake.Package) ([]change, error) {
	var all []change
	for _, name := range p.Files {
		if name == "" {
			continue
		}
		r := &reader{name: p.Folder + "/" + name, fset: token.NewFileSet()}
		r.twice, r.skip = map[string]int{}, map[ast.Node]bool{}
		var err error
		if r.text, err = os.ReadFile(filepath.FromSlash(r.name)); err != nil {
			return nil, err
		}
		syntax, err := parser.ParseFile(r.fset, r.name, r.text, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		for _, d := range syntax.Decls {
			r.in, _ = d.(*ast.FuncDecl)
			ast.Inspect(d, r.visit)
		}
		all = append(all, r.all...)
	}
	return all, nil
}

var neighbours = map[token.Token][]token.Token{
	token.LSS: {token.LEQ, token.GEQ}, token.LEQ: {token.LSS, token.GTR},
	token.GTR: {token.GEQ, token.LEQ}, token.GEQ: {token.GTR, token.LSS},
	token.EQL: {token.NEQ}, token.NEQ: {token.EQL}, token.LAND: {token.LOR}, token.LOR: {token.LAND},
	token.ADD: {token.SUB}, token.SUB: {token.ADD}, token.MUL: {token.QUO}, token.QUO: {token.MUL},
	token.REM: {token.MUL}, token.ADD_ASSIGN: {token.SUB_ASSIGN}, token.SUB_ASSIGN: {token.ADD_ASSIGN},
	token.MUL_ASSIGN: {token.QUO_ASSIGN}, token.QUO_ASSIGN: {token.MUL_ASSIGN},
	token.INC: {token.DEC}, token.DEC: {token.INC},
}

func (r *reader) visit(n ast.Node) bool {
	if r.skip[n] {
		return false
	}
	switch n := n.(type) {
	case *ast.BinaryExpr:
		r.operator(n.OpPos, n.Op)
	case *ast.AssignStmt:
		r.operator(n.TokPos, n.Tok)
	case *ast.IncDecStmt:
		r.operator(n.TokPos, n.Tok)
	case *ast.UnaryExpr:
		if n.Op == token.NOT || n.Op == token.SUB {
			r.add(n.OpPos, n.Op.String(), "", n.Op.String()+" dropped")
		}
	case *ast.BasicLit:
		r.constant(n)
	case *ast.CallExpr:
		// What room is made beforehand changes nothing.
		if f, ok := n.Fun.(*ast.Ident); ok && f.Name == "make" && len(n.Args) > 1 {
			r.skip[n.Args[len(n.Args)-1]] = len(n.Args) == 3 || isMap(n.Args[0])
		}
	case *ast.FuncDecl:
		r.early(n)
	}
	return true
}

func isMap(n ast.Expr) bool {
	_, ok := n.(*ast.MapType)
	return ok
}

func (r *reader) operator(at token.Pos, op token.Token) {
	for _, now := range neighbours[op] {
		r.add(at, op.String(), now.String(), op.String()+" into "+now.String())
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
	if now != "" {
		r.add(n.ValuePos, n.Value, now, n.Value+" into "+now)
	}
}

// early lets a function return zero values, unless it does nothing else.
func (r *reader) early(f *ast.FuncDecl) {
	if f.Body == nil || f.Type.Results == nil || len(f.Body.List) == 0 || zeroAnyhow(f.Body) {
		return
	}
	var names, declared []string
	for _, field := range f.Type.Results.List {
		of := string(r.text[r.offset(field.Type.Pos()):r.offset(field.Type.End())])
		for range max(1, len(field.Names)) {
			name := "none" + strconv.Itoa(len(names))
			names = append(names, name)
			declared = append(declared, "var "+name+" "+of)
		}
	}
	now := "{" + strings.Join(declared, "; ") + "; return " + strings.Join(names, ", ") + ";"
	r.add(f.Body.Lbrace, "{", now, f.Name.Name+" returns zero values")
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

func (r *reader) offset(at token.Pos) int { return r.fset.Position(at).Offset }

func (r *reader) add(at token.Pos, was, now, what string) {
	where := r.fset.Position(at)
	offset := where.Offset
	start, end := bytes.LastIndexByte(r.text[:offset], '\n')+1, bytes.IndexByte(r.text[offset:], '\n')
	line := strings.TrimSpace(string(r.text[start : offset+cmp.Or(max(end, 0), len(r.text)-offset)]))
	key := r.name + "\n" + line + "\n" + what
	r.twice[key]++
	sum := sha256.Sum256([]byte(key + strconv.Itoa(r.twice[key])))
	place := mistake.Place{File: r.name, Line: where.Line, Column: where.Column}
	if r.in != nil {
		place.First, place.Last = r.fset.Position(r.in.Pos()).Line, r.fset.Position(r.in.End()).Line
	}
	r.all = append(r.all, change{place, offset, line, was, now, what, hex.EncodeToString(sum[:])})
}
