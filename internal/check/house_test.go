package check_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/valvechest/valvechest/internal/check"
)

const module = "github.com/valvechest/valvechest/"

// uses lists what each package of the library may import, from low to high.
// Whoever may import a package may import what that one may, and everybody may
// import internal/fault, internal/names, internal/show and internal/table above
// units. Packages that are not named here do not exist.
var uses = []struct{ packages, may string }{
	{"units eccentric/internal/kernel", ""},
	{"internal/fault", "units"},
	{"internal/names internal/sheet internal/inch", "internal/fault"},
	{"internal/show internal/mistake", ""},
	{"units/source", "internal/names"},
	{"units/finding internal/table", "units/source internal/show"},
	{"internal/check", "internal/table"},
	{"units/gauge units/material units/steam units/figure", "units/finding internal/table"},
	{"thread fits speeds gasket", "units/gauge units/material units/steam"},
	{"eccentric", "units/finding internal/table eccentric/internal/kernel"},
	{"eccentric/spread eccentric/setting", "eccentric"},
	{"thread/wires thread/strength thread/screwcut", "thread"},
	{"thread/alike", "thread/wires thread/strength"},
	{"fits/assembly fits/keys", "fits"},
	{"speeds/hole speeds/cutting speeds/dividing speeds/holding speeds/setting", "speeds"},
	{"eccentric/indicator", "eccentric units/steam speeds/holding"},
	{"eccentric/marking", "eccentric speeds/holding speeds/setting"},
	{"eccentric/marking/casting", "speeds/holding"},
	{"eccentric/diagnosis", "eccentric/spread eccentric/indicator"},
	{"eccentric/diagnosis/symptom", "eccentric/diagnosis"},
	{"eccentric/diagram", "eccentric/spread eccentric/setting eccentric/indicator internal/sheet"},
	{"gasket/dial gasket/cover gasket/seal", "gasket"},
	{"gasket/joint", "gasket thread/strength"},
	{"gasket/template", "gasket internal/sheet"},
	{"internal/engine", "thread fits/assembly speeds gasket/cover eccentric/spread eccentric/setting eccentric/diagnosis/symptom"},
	{"internal/book", "units/finding internal/sheet internal/inch"},
	{"internal/cli", "internal/book"},
	{"internal/evidence", "internal/book internal/table"},
	{"internal/pages", "internal/engine internal/cli thread/alike thread/screwcut fits/assembly fits/keys eccentric/marking eccentric/marking/casting eccentric/diagram speeds/hole " +
		"speeds/cutting speeds/dividing speeds/holding speeds/setting gasket/dial gasket/cover gasket/seal gasket/joint gasket/template"},
}

// libraries says where packages of other modules may be imported.
var libraries = map[string]string{
	"github.com/shopspring/decimal":    "units",
	"codeberg.org/go-pdf/fpdf":         "internal/sheet",
	"codeberg.org/go-fonts/liberation": "internal/sheet",
	"github.com/pelletier/go-toml":     "internal/engine",
	"gonum.org/v1/gonum": "fits/assembly speeds eccentric eccentric/spread eccentric/indicator eccentric/diagnosis " +
		"eccentric/marking eccentric/marking/casting gasket gasket/cover gasket/template",
}

// Imports run downwards only, and every package stands where the plan has it.
func TestImports(t *testing.T) {
	allowed := map[string]map[string]bool{}
	for _, row := range uses {
		may := map[string]bool{}
		for used := range strings.FieldsSeq(row.may) {
			if allowed[used] == nil {
				t.Fatalf("%s is used before it is in the plan", used)
			}
			may[used] = true
			maps.Copy(may, allowed[used])
		}
		for pkg := range strings.FieldsSeq(row.packages) {
			allowed[pkg] = may
		}
	}
	seen := 0
	for dir, files := range sources(t) {
		pkg := filepath.ToSlash(dir)
		may, known := allowed[pkg]
		program := strings.HasPrefix(pkg, "examples/") || strings.HasPrefix(pkg, ".ci/")
		if !known && !program && pkg != "." {
			t.Errorf("package %s has no place in the plan", pkg)
		}
		for _, f := range files {
			for _, spec := range f.syntax.Imports {
				path := strings.Trim(spec.Path.Value, `"`)
				own, inside := strings.CutPrefix(path, module)
				switch {
				case inside && !program && !may[own]:
					t.Errorf("%s imports %s, which does not lie below it", f.name, own)
				case !inside && strings.Contains(strings.Split(path, "/")[0], ".") && !libraryFor(path, pkg):
					t.Errorf("%s imports %s, which has another place", f.name, path)
				}
				seen++
			}
		}
	}
	if seen < 300 {
		t.Errorf("only %d imports were looked at", seen)
	}
}

func libraryFor(path, pkg string) bool {
	for library, places := range libraries {
		if strings.HasPrefix(path, library) {
			return slices.Contains(strings.Fields(places), pkg)
		}
	}
	return false
}

// One type for one idea: findings, their severity and unreadable text.
func TestOneTypeEach(t *testing.T) {
	homes := map[string][]string{"Severity": nil, "Finding": nil, "ParseError": nil, "ArgumentError": nil, "Refs": nil, "Ref": nil}
	for dir, files := range sources(t) {
		for _, f := range files {
			ast.Inspect(f.syntax, func(n ast.Node) bool {
				if spec, ok := n.(*ast.TypeSpec); ok {
					if _, one := homes[spec.Name.Name]; one && !embedsFinding(spec) {
						homes[spec.Name.Name] = append(homes[spec.Name.Name], filepath.ToSlash(dir))
					}
				}
				return true
			})
		}
	}
	want := map[string]string{
		"Severity": "units/finding", "Finding": "units/finding", "ParseError": "units", "ArgumentError": "units",
		"Refs": "units/source", "Ref": "units/source",
	}
	for name, places := range homes {
		if !slices.Equal(places, []string{want[name]}) {
			t.Errorf("type %s is declared in %v, want %s alone", name, places, want[name])
		}
	}
}

// embedsFinding reports whether a type is a finding with more to say.
func embedsFinding(spec *ast.TypeSpec) bool {
	s, ok := spec.Type.(*ast.StructType)
	if !ok {
		return false
	}
	for _, field := range s.Fields.List {
		if x, ok := field.Type.(*ast.SelectorExpr); ok && len(field.Names) == 0 && x.Sel.Name == "Finding" {
			return true
		}
	}
	return false
}

// A code means one thing: no two packages declare the same, and all are words
// with hyphens.
func TestCodes(t *testing.T) {
	word := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	homes := map[string]string{}
	for _, c := range codes(t) {
		if !word.MatchString(c.code) {
			t.Errorf("%s: code %s is %q", c.file, c.name, c.code)
		}
		dir := filepath.ToSlash(filepath.Dir(c.file))
		if other, double := homes[c.code]; double {
			t.Errorf("code %q is declared in %s and in %s", c.code, other, dir)
		}
		homes[c.code] = dir
	}
	t.Logf("%d codes", len(homes))
}

// A declared code is a constant of type finding.Code.
type declaredCode struct{ file, name, code string }

// codes returns the codes that the packages declare.
func codes(t *testing.T) []declaredCode {
	t.Helper()
	var all []declaredCode
	for _, files := range sources(t) {
		for _, f := range files {
			ast.Inspect(f.syntax, func(n ast.Node) bool {
				spec, ok := n.(*ast.ValueSpec)
				if !ok {
					return true
				}
				if of, ok := spec.Type.(*ast.SelectorExpr); !ok || of.Sel.Name != "Code" {
					return true
				}
				for i, name := range spec.Names {
					code := strings.Trim(spec.Values[i].(*ast.BasicLit).Value, `"`)
					all = append(all, declaredCode{f.name, name.Name, code})
				}
				return true
			})
		}
	}
	return all
}

// told matches a text in a line of code: what a person reads may be longer.
var told = regexp.MustCompile(`"(\\.|[^"\\])*"|` + "`[^`]*`")

const (
	widest  = 120 // characters of a line, texts left out
	longest = 600 // lines of a test file
)

// Lines fit a page, texts apart; test files are not endless, and doc.go holds the package
// comment alone.
func TestLayout(t *testing.T) {
	for _, files := range sources(t) {
		for _, f := range files {
			if filepath.Base(f.name) == "doc.go" && len(f.syntax.Decls) > 0 {
				t.Errorf("%s holds code", f.name)
			}
		}
	}
	walk(t, func(name string, text []byte) {
		lines := slices.Collect(strings.Lines(string(text)))
		test := strings.HasSuffix(name, "_test.go")
		if test && len(lines) > longest {
			t.Errorf("%s has %d lines; at most %d", name, len(lines), longest)
		}
		for i, line := range lines {
			if n := utf8.RuneCountInString(told.ReplaceAllString(line, `""`)); !test && n > widest+1 {
				t.Errorf("%s:%d has %d characters; at most %d", name, i+1, n-1, widest)
			}
		}
	})
}

// A number that is shown with its sign goes through fault.Signed, as a format with
// a sign shows +0.0 and -0.0.
func TestSignedNumbers(t *testing.T) {
	signed := regexp.MustCompile(`%[0-9]*\+[0-9.]*[defgEG]`)
	walk(t, func(name string, text []byte) {
		if verb := signed.Find(text); verb != nil && !strings.HasSuffix(name, "_test.go") {
			t.Errorf("%s: %s; use fault.Signed", name, verb)
		}
	})
}

type sourceFile struct {
	name   string
	syntax *ast.File
}

// sources returns the parsed files that are not tests, by directory.
func sources(t *testing.T) map[string][]sourceFile {
	t.Helper()
	files := map[string][]sourceFile{}
	walk(t, func(name string, text []byte) {
		if strings.HasSuffix(name, "_test.go") {
			return
		}
		syntax, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution|parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Dir(name)] = append(files[filepath.Dir(name)], sourceFile{name, syntax})
	})
	return files
}

// walk calls do with every Go file, by its path from the root of the module.
func walk(t *testing.T, do func(name string, text []byte)) {
	t.Helper()
	root := os.DirFS(check.Path(t, ".."))
	err := fs.WalkDir(root, ".", func(name string, entry fs.DirEntry, err error) error {
		if err == nil && name == ".ci" { // has a module of its own
			return fs.SkipDir
		}
		if err != nil || entry.IsDir() || !strings.HasSuffix(name, ".go") {
			return err
		}
		text, err := fs.ReadFile(root, name)
		do(name, text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
