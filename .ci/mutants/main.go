// Command mutants puts one mistake at a time into the code of packages and runs
// their tests, which must fail. Each mistake is a comparison or an operator turned
// into its neighbour, such as < into <= and + into -. The tree is not touched: the
// compiler is given the changed file in place of the other. A mistake that does
// not compile is not counted. It lists the mistakes that no test finds, which may
// be ones that change nothing, and ends with 1 when more than the given share lives.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

var neighbours = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
	token.EQL: token.NEQ, token.NEQ: token.EQL, token.LAND: token.LOR, token.LOR: token.LAND,
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL,
}

// A mistake is an operator of a file in place of another.
type mistake struct {
	file     string
	at       token.Position
	was, now token.Token
}

func main() {
	every := flag.Int("every", 40, "`number`: one mistake of so many is tried")
	lives := flag.Float64("lives", 0.35, "`share` of the mistakes that may live")
	flag.Parse()
	tried, lived := 0, 0
	for _, folder := range flag.Args() {
		all, err := mistakes(folder)
		if err != nil {
			fail(err)
		}
		for i := *every / 2; i < len(all); i += *every {
			found, compiles, err := tell(folder, all[i])
			if err != nil {
				fail(err)
			}
			if !compiles {
				continue
			}
			if tried++; !found {
				lived++
				fmt.Printf("lives: %s: %v into %v\n", all[i].at, all[i].was, all[i].now)
			}
		}
	}
	fmt.Printf("%d mistakes, %d found, %d live\n", tried, tried-lived, lived)
	if tried == 0 || float64(lived) > *lives*float64(tried) {
		os.Exit(1)
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, "mutants:", err)
	os.Exit(2)
}

// mistakes returns all that can be made in the files of a folder, its tests left out.
func mistakes(folder string) ([]mistake, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.go"))
	var all []mistake
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		fset := token.NewFileSet()
		syntax, err := parser.ParseFile(fset, file, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		ast.Inspect(syntax, func(n ast.Node) bool {
			if op, ok := n.(*ast.BinaryExpr); ok {
				if now, ok := neighbours[op.Op]; ok {
					all = append(all, mistake{file, fset.Position(op.OpPos), op.Op, now})
				}
			}
			return true
		})
	}
	return all, err
}

// tell reports whether the tests of a package fail with a mistake in it, and
// whether it compiles with it.
func tell(folder string, m mistake) (found, compiles bool, err error) {
	scratch, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return false, false, err
	}
	defer os.RemoveAll(scratch)
	text, err := os.ReadFile(m.file)
	if err != nil {
		return false, false, err
	}
	end := m.at.Offset + len(m.was.String())
	changed := string(text[:m.at.Offset]) + m.now.String() + string(text[end:])
	original, errPath := filepath.Abs(m.file)
	other, list := filepath.Join(scratch, "changed.go"), filepath.Join(scratch, "overlay.json")
	data, errJSON := json.Marshal(map[string]any{"Replace": map[string]string{original: other}})
	errs := errors.Join(errPath, errJSON, os.WriteFile(other, []byte(changed), 0o666), os.WriteFile(list, data, 0o666))
	if errs != nil {
		return false, false, errs
	}
	if exec.Command("go", "build", "-overlay", list, folder).Run() != nil {
		return false, false, nil
	}
	test := exec.Command("go", "test", "-overlay", list, "-count=1", "-short", "-timeout=5m", folder)
	return test.Run() != nil, true, nil
}
