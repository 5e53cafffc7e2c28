package check_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// Every function that the table of the package comment names is there, and every
// package of the library is named.
func TestDocTable(t *testing.T) {
	t.Chdir(check.Path(t, ".."))
	data, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	page := string(data)
	rows, start := 0, 0
	for line := range strings.Lines(page) {
		line, ok := strings.CutPrefix(strings.TrimRight(line, "\n"), "//\t")
		switch {
		case !ok:
			continue
		case start == 0: // the head of the table
			if start = strings.Index(line, "package"); start < 0 {
				t.Fatal("no head to the table")
			}
			continue
		case len(line) < start || line[start-1] != ' ':
			t.Fatalf("%q does not keep to the columns", line)
		}
		rows++
		folder, functions, _ := strings.Cut(line[start:], " ")
		exported := exportedIn(t, folder)
		for name := range strings.SplitSeq(functions, ",") {
			if name = strings.TrimSpace(name); !exported[name] {
				t.Errorf("package %s has no %s", folder, name)
			}
		}
	}
	if rows < 30 {
		t.Errorf("only %d rows in the table", rows)
	}
	for _, pattern := range []string{"*", "*/*"} {
		packages, err := filepath.Glob(pattern + "/doc.go")
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range packages {
			folder := filepath.ToSlash(filepath.Dir(file))
			if !strings.HasPrefix(folder, "internal") && folder != "units/source" && !strings.Contains(page, " "+folder+" ") {
				t.Errorf("package %s is not on the page", folder)
			}
		}
	}
}

// exportedIn returns the functions of a package and, behind the name of their
// type and a stop, its methods.
func exportedIn(t *testing.T, folder string) map[string]bool {
	t.Helper()
	files, err := filepath.Glob(folder + "/*.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("package %s: no files, %v", folder, err)
	}
	names := map[string]bool{}
	for _, file := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range parsed.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			name := f.Name.Name
			if f.Recv != nil {
				of := f.Recv.List[0].Type
				if pointer, ok := of.(*ast.StarExpr); ok {
					of = pointer.X
				}
				if id, ok := of.(*ast.Ident); ok {
					name = id.Name + "." + name
				}
			}
			names[name] = true
		}
	}
	return names
}
