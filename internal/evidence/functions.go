package evidence

import (
	"errors"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// Functions are the exported functions and methods of a package that compute: how
// many there are, and how many have an Example that prints, an Example or a test with
// printed figures that calls them, and are told in the proof page to have none.
type Functions struct {
	All, Example, Check, NoPrint int
	WithoutExample, Neither      []string // names, sorted
}

// simple names what computes nothing, or is tested for every type in one way.
var simple = []string{
	"String", "MarshalText", "UnmarshalText", "MarshalJSON", "GobEncode", "GobDecode", "Error", "Unwrap", "Is", "IsZero",
	"Validate", "Check", "In", "Finite", "Recalled", "Contains", "Wrap",
}

// reads begin the names of what reads or writes text, and is tested by what it refuses.
var reads = regexp.MustCompile(`^(Parse|Read|Write)([A-Z]|$)`)

// readFunctions reads the code of a package.
func readFunctions(module fs.FS, folder string) (Functions, error) {
	fset := token.NewFileSet()
	var names []string
	var tests []*ast.File
	entries, err := fs.ReadDir(module, folder)
	if err != nil {
		return Functions{}, err
	}
	for _, entry := range entries {
		if path.Ext(entry.Name()) != ".go" {
			continue
		}
		name := path.Join(folder, entry.Name())
		text, err := fs.ReadFile(module, name)
		if err != nil {
			return Functions{}, err
		}
		file, err := parser.ParseFile(fset, name, text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return Functions{}, err
		}
		if strings.HasSuffix(name, "_test.go") {
			tests = append(tests, file)
		} else {
			names = append(names, computing(file)...)
		}
	}
	f := Functions{All: len(names)}
	examples, compares := exampleNames(tests), comparesWith(tests)
	noPrint, err := noPrints(module, folder)
	if err != nil {
		return Functions{}, err
	}
	slices.Sort(names)
	for _, name := range names {
		_, last, method := strings.Cut(name, "_")
		if !method {
			last = name
		}
		example, book := false, false
		for _, have := range examples {
			if rest, ok := strings.CutPrefix(have, name); ok && (rest == "" || rest[0] == '_') {
				example = true
				// ExampleX_source is a worked example of a book.
				book = book || len(rest) > 1 && unicode.IsLower(rune(rest[1]))
			}
		}
		told := noPrint[last] || noPrint[strings.ReplaceAll(name, "_", ".")]
		if example {
			f.Example++
		} else {
			f.WithoutExample = append(f.WithoutExample, strings.ReplaceAll(name, "_", "."))
		}
		switch {
		case book || compares[last]:
			f.Check++
		case told:
			f.NoPrint++
		default:
			f.Neither = append(f.Neither, strings.ReplaceAll(name, "_", "."))
		}
	}
	return f, nil
}

// computing returns the functions of a file, a method as Type_Method, without those that
// list what there is or hand out a part of what they are given.
func computing(file *ast.File) []string {
	var names []string
	for _, decl := range file.Decls {
		f, ok := decl.(*ast.FuncDecl)
		if !ok || !f.Name.IsExported() || slices.Contains(simple, f.Name.Name) || reads.MatchString(f.Name.Name) {
			continue
		}
		if f.Recv == nil && f.Type.Params.NumFields() == 0 || f.Body == nil || !works(f.Body) {
			continue
		}
		name := f.Name.Name
		if f.Recv != nil {
			of := receiver(f.Recv.List[0].Type)
			if !ast.IsExported(of) {
				continue
			}
			name = of + "_" + name
		}
		names = append(names, name)
	}
	return names
}

// works reports whether a body calls anything or calculates.
func works(body *ast.BlockStmt) (does bool) {
	ast.Inspect(body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			does = true
		case *ast.BinaryExpr:
			does = does || slices.Contains([]token.Token{token.ADD, token.SUB, token.MUL, token.QUO, token.REM}, n.Op)
		case *ast.UnaryExpr:
			does = does || n.Op == token.SUB
		}
		return !does
	})
	return does
}

func receiver(n ast.Expr) string {
	switch n := n.(type) {
	case *ast.StarExpr:
		return receiver(n.X)
	case *ast.IndexExpr:
		return receiver(n.X)
	case *ast.Ident:
		return n.Name
	}
	return ""
}

// exampleNames returns the examples that print, without the word Example.
func exampleNames(tests []*ast.File) []string {
	var names []string
	for _, example := range doc.Examples(tests...) {
		if example.Output != "" {
			names = append(names, example.Name)
		}
	}
	return names
}

// opens stands among the names of a function that opens a file of printed figures.
const opens = "check.Open"

// comparesWith returns what the tests that open a file of printed figures name, they
// or the functions beside them that they call; one of those may be what opens it.
func comparesWith(tests []*ast.File) map[string]bool {
	names := map[string]map[string]bool{} // by function of the tests
	for _, file := range tests {
		for _, decl := range file.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok && f.Body != nil {
				used := map[string]bool{}
				ast.Inspect(f.Body, func(n ast.Node) bool {
					switch n := n.(type) {
					case *ast.Ident:
						used[n.Name] = true
					case *ast.SelectorExpr:
						if of, ok := n.X.(*ast.Ident); ok && of.Name == "check" && (n.Sel.Name == "Open" || n.Sel.Name == "Errata") {
							used[opens] = true
						}
					}
					return true
				})
				names[f.Name.Name] = used
			}
		}
	}
	all := map[string]bool{}
	for test, used := range names {
		if !strings.HasPrefix(test, "Test") {
			continue
		}
		of := map[string]bool{}
		if follow(names, used, of); of[opens] {
			maps.Copy(all, of)
		}
	}
	return all
}

// follow adds names, and those of the functions among them.
func follow(functions map[string]map[string]bool, used, all map[string]bool) {
	for name := range used {
		if all[name] {
			continue
		}
		all[name] = true
		if inner, ok := functions[name]; ok {
			follow(functions, inner, all)
		}
	}
}

var quoted = regexp.MustCompile("`([A-Za-z0-9.]+)`")

// noPrints returns the functions that the proof page of a package, if it has one, says
// to have no published check: those in back quotes in a paragraph, or below a heading,
// that says "no print found".
func noPrints(module fs.FS, folder string) (map[string]bool, error) {
	names := map[string]bool{}
	text, err := fs.ReadFile(module, path.Join("testdata", folder, "README.md"))
	if errors.Is(err, fs.ErrNotExist) {
		return names, nil
	}
	section, paragraph := false, false
	for line := range strings.Lines(string(text)) {
		says := strings.Contains(strings.ToLower(line), "no print found")
		switch {
		case strings.HasPrefix(line, "#"):
			section, paragraph = says, false
		case strings.TrimSpace(line) == "":
			paragraph = false
		case says:
			paragraph = true
		}
		if section || paragraph {
			for _, m := range quoted.FindAllStringSubmatch(line, -1) {
				names[m[1]] = true
			}
		}
	}
	return names, err
}
