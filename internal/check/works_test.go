package check

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

// A shipped table and the path it lies at, from the root of the module.
type shipped struct {
	path   string
	header table.Header
	keys   map[string]bool // sources of its rows
}

// lists are the files below testdata that hold no figures.
var lists = map[string]bool{"sources.csv": true, "cases.csv": true, "rows.csv": true, "unwitnessed.csv": true}

// Every check file has a least number of rows, and no other has.
func TestRows(t *testing.T) {
	least := leastRows(t)
	for _, name := range csvFiles(t, "testdata") {
		if lists[name] || measured(name) {
			continue
		}
		rows := read(t, name)
		if _, how := rows[0]["how"]; !how {
			continue
		}
		if n := least[name]; n == 0 || n > len(rows) {
			t.Errorf("rows.csv: %s has %d rows, and at least %d are wanted", name, len(rows), n)
		}
		delete(least, name)
	}
	for name := range least {
		t.Errorf("rows.csv: %s is no file of checks", name)
	}
}

// measured reports whether a file holds what the checks came to, and no figures.
func measured(name string) bool { return strings.HasPrefix(name, "internal/evidence/") }

// TestWorks holds testdata/sources.csv, the headers of the shipped tables, the
// rows of the checks and the works that the code names in literals of source.Ref
// against each other: keys in order and used, and one edition and one kind of a
// work wherever it is named.
func TestWorks(t *testing.T) {
	used := map[string]bool{}
	readIn := map[string]string{} // source -> file with rows of it that were read
	for _, name := range csvFiles(t, "testdata") {
		if lists[name] || measured(name) {
			continue
		}
		for _, cells := range read(t, name, "source") {
			used[cells["source"]] = true
			if cells["how"] == "read" {
				readIn[cells["source"]] = name
			}
			if cells["source"] == "gnu-units" && (cells["how"] != "computed" || !strings.HasPrefix(cells["locator"], "units -t ")) {
				t.Errorf("%s: %s: a run of the program is a peer, what its file lists is no source", name, cells["id"])
			}
		}
	}

	works := read(t, "sources.csv", "key", "kind", "title", "edition", "note")
	editions := map[string]string{}
	kinds := map[string]source.Kind{}
	keysOf := map[string][]string{} // by title
	last := ""
	for _, cells := range works {
		key, title := cells["key"], cells["title"]
		if key <= last {
			t.Errorf("sources.csv: %q does not sort after %q", key, last)
		}
		last = key
		editions[key] = cells["edition"]
		kind, err := source.ParseKind(cells["kind"])
		if err != nil {
			t.Errorf("sources.csv: %s: %v", key, err)
		}
		kinds[key] = kind
		if name := readIn[key]; kind == source.FromMemory && name != "" {
			t.Errorf("sources.csv: %s is from memory, and %s says of a row of it that it was read", key, name)
		}
		keysOf[title] = append(keysOf[title], key)
	}

	for _, s := range shippedTables(t) {
		for key, ref := range s.header.Sources {
			used[key] = true
			if key == "gnu-units" {
				t.Errorf("%s: what the file of a program lists is no source", s.path)
			}
			if ref.Edition != editions[key] {
				t.Errorf("%s: source %s: edition %q, sources.csv has %q", s.path, key, ref.Edition, editions[key])
			}
			if kinds[key] != ref.Kind {
				t.Errorf("%s: source %s is %v here and %v in sources.csv", s.path, key, ref.Kind, kinds[key])
			}
			if !s.keys[key] {
				t.Errorf("%s: source %s: no row comes from it", s.path, key)
			}
			if held := s.header.Held; ref.Kind == source.FromMemory && !strings.Contains(held, "recalled") {
				t.Errorf("%s: rows of %s are from memory, and held does not say that any are recalled: %q", s.path, key, held)
			}
		}
	}

	named := namedRefs(t)
	for _, ref := range named {
		known := false
		for _, key := range keysOf[ref.title] {
			used[key] = true
			known = known || ref.kind == kinds[key] && (ref.edition == "" || ref.edition == editions[key])
		}
		if !known {
			t.Errorf("%s: %v source %q, %q: sources.csv has no such title, edition and kind", ref.dir, ref.kind, ref.title, ref.edition)
		}
	}
	if len(named) < 20 {
		t.Errorf("only %d literals of source.Ref that name a work were found", len(named))
	}

	for _, cells := range works {
		if key := cells["key"]; !used[key] {
			t.Errorf("sources.csv: %q: nothing uses it", key)
		}
	}
}

// A namedRef is a literal of source.Ref that names a work.
type namedRef struct {
	dir            string
	kind           source.Kind
	title, edition string
}

// kindNames are the kinds of works that must be listed. A work that a derived
// value leans on is named for orientation and need not be.
var kindNames = map[string]source.Kind{
	"Published": source.Published, "FromMemory": source.FromMemory, "Unreviewed": source.Unreviewed,
}

// namedRefs returns the literals of works of those kinds.
func namedRefs(t *testing.T) []namedRef {
	t.Helper()
	var refs []namedRef
	for dir, files := range goFiles(t) {
		texts := constants(files)
		for _, file := range files {
			ast.Inspect(file, func(n ast.Node) bool {
				literal, ok := n.(*ast.CompositeLit)
				if !ok || !isRef(literal.Type) {
					return true
				}
				ref := namedRef{dir: dir}
				for _, e := range literal.Elts {
					pair, ok := e.(*ast.KeyValueExpr)
					if !ok {
						continue
					}
					switch name, _ := pair.Key.(*ast.Ident); name.Name {
					case "Kind":
						if s, ok := pair.Value.(*ast.SelectorExpr); ok {
							ref.kind = kindNames[s.Sel.Name]
						}
					case "Title":
						ref.title = text(pair.Value, texts)
					case "Edition":
						ref.edition = text(pair.Value, texts)
					}
				}
				if ref.kind != 0 {
					refs = append(refs, ref)
				}
				return true
			})
		}
	}
	return refs
}

func root(t *testing.T) string { return filepath.Dir(Path(t, "")) }

// csvFiles returns the CSV files below a directory of the module, from it.
func csvFiles(t *testing.T, dir string) []string {
	t.Helper()
	var names []string
	err := fs.WalkDir(os.DirFS(filepath.Join(root(t), dir)), ".", func(path string, _ fs.DirEntry, err error) error {
		if strings.HasSuffix(path, ".csv") {
			names = append(names, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func shippedTables(t *testing.T) []shipped {
	t.Helper()
	var tables []shipped
	for _, path := range csvFiles(t, ".") {
		dir, name := filepath.Split(path)
		if filepath.Base(dir) != "tables" {
			continue
		}
		header, err := table.ReadHeader(os.DirFS(filepath.Join(root(t), dir)), name)
		if err != nil {
			t.Error(err)
		}
		s := shipped{path, header, map[string]bool{}}
		for _, cells := range read(t, filepath.Join("..", path), "source") {
			s.keys[cells["source"]] = true
		}
		tables = append(tables, s)
	}
	if len(tables) == 0 {
		t.Fatal("no shipped tables were found")
	}
	return tables
}

// goFiles returns the files that are not tests, by directory.
func goFiles(t *testing.T) map[string][]*ast.File {
	t.Helper()
	files := map[string][]*ast.File{}
	walkGo(t, func(path string) {
		if strings.HasSuffix(path, "_test.go") {
			return
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Dir(path)] = append(files[filepath.Dir(path)], file)
	})
	return files
}

// walkGo calls do with the path of every Go file of the module.
func walkGo(t *testing.T, do func(path string)) {
	t.Helper()
	err := filepath.WalkDir(root(t), func(path string, _ fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".go") {
			do(path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// constants returns the constants of a package that are text.
func constants(files []*ast.File) map[string]string {
	texts := map[string]string{}
	for _, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			if spec, ok := n.(*ast.ValueSpec); ok && len(spec.Names) == len(spec.Values) {
				for i, name := range spec.Names {
					if s := text(spec.Values[i], nil); s != "" {
						texts[name.Name] = s
					}
				}
			}
			return true
		})
	}
	return texts
}

func text(e ast.Expr, constants map[string]string) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, _ := strconv.Unquote(e.Value)
		return s
	case *ast.Ident:
		return constants[e.Name]
	}
	return ""
}

func isRef(e ast.Expr) bool {
	s, ok := e.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	x, ok := s.X.(*ast.Ident)
	return ok && x.Name == "source" && s.Sel.Name == "Ref"
}
