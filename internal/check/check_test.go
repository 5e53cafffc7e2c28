package check

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

// A recorder is a test whose failures are looked at.
type recorder struct {
	testing.TB
	errors, logs []string
	cleanup      []func()
}

type fatal struct{}

func (r *recorder) Helper()           {}
func (r *recorder) Cleanup(f func())  { r.cleanup = append(r.cleanup, f) }
func (r *recorder) Log(args ...any)   { r.logs = append(r.logs, fmt.Sprint(args...)) }
func (r *recorder) Error(args ...any) { r.errors = append(r.errors, fmt.Sprint(args...)) }
func (r *recorder) Errorf(f string, args ...any) {
	r.errors = append(r.errors, fmt.Sprintf(f, args...))
}
func (r *recorder) Logf(f string, args ...any) { r.logs = append(r.logs, fmt.Sprintf(f, args...)) }
func (r *recorder) Fatal(args ...any)          { r.Error(args...); panic(fatal{}) }
func (r *recorder) Fatalf(f string, args ...any) {
	r.Errorf(f, args...)
	panic(fatal{})
}

// record runs f in a module that holds the given files below testdata.
func record(t *testing.T, files map[string]string, f func(testing.TB)) *recorder {
	t.Helper()
	dir := t.TempDir()
	files["../go.mod"] = "module x\n"
	for name, text := range files {
		path := filepath.Join(dir, "testdata", name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	inner := filepath.Join(dir, "pkg", "sub")
	if err := os.MkdirAll(inner, 0o777); err != nil {
		t.Fatal(err)
	}
	t.Chdir(inner)
	r := &recorder{TB: t}
	func() {
		defer func() {
			if v := recover(); v != nil && v != (fatal{}) {
				panic(v)
			}
		}()
		f(r)
		for _, c := range r.cleanup {
			c()
		}
	}()
	return r
}

func expect(t *testing.T, name string, got []string, want string) {
	t.Helper()
	text := strings.Join(got, "\n")
	if want == "" && text != "" || want != "" && !strings.Contains(text, want) {
		t.Errorf("%s: got %q, want %q", name, text, want)
	}
}

const sources = "key,title\nbook,A Book\n"

func TestFile(t *testing.T) {
	const columns = "id,name,value,source,locator,how\n"
	compare := func(got float64) func(testing.TB) {
		return func(t testing.TB) {
			for r := range Open(t, "p/f.csv").Rows() {
				r.Compare("value", got)
			}
		}
	}
	for _, test := range []struct {
		name, text string
		f          func(testing.TB)
		errors     string
		logs       string
	}{
		{"within half of the last place", "a,x,1.20,book,p. 1,read\n", compare(1.2049), "", "p/f.csv: 1 values in 1 rows compared (1 read), largest difference 0.0049 of 0.005 allowed (a value)"},
		{"beyond it", "a,x,1.20,book,p. 1,read\n", compare(1.2051), "p/f.csv: a: value = 1.2051, printed 1.20 (book, p. 1), tolerance 0.005", ""},
		{"not a number", "a,x,1.20,book,p. 1,read\n", func(t testing.TB) {
			var zero float64
			compare(zero / zero)(t)
		}, "value = NaN", ""},
		{"no source", "a,x,1,,p. 1,read\n", compare(1), `a: source "" is not in sources.csv`, ""},
		{"unknown source", "a,x,1,boook,p. 1,read\n", compare(1), `source "boook" is not in sources.csv`, ""},
		{"practice needs none", "a,x,1,,,practice\n", compare(1), "", "(1 practice)"},
		{"no locator", "a,x,1,book,,read\n", compare(1), "the locator does not say where", ""},
		{"memory has none", "a,x,1,book,,memory\n", compare(1), "", "(1 memory)"},
		{"how unknown", "a,x,1,book,p. 1,heard\n", compare(1), `how "heard" is none of`, ""},
		{"id twice", "a,x,1,book,p. 1,read\na,x,1,book,p. 1,read\n", compare(1), `id "a" is blank or given twice`, ""},
		{"fewer than wanted", "a,x,1,book,p. 1,read\n", func(t testing.TB) {
			for r := range Open(t, "p/g.csv").Rows() {
				r.Compare("value", 1)
			}
		}, "p/g.csv: only 1 rows were compared, and rows.csv wants 2", "p/g.csv: 1 values"},
		{"nothing compared", "a,x,1,book,p. 1,read\n", func(t testing.TB) { Open(t, "p/f.csv") }, "nothing was compared", ""},
		{"skipped", "a,x,1,book,p. 1,read\nb,x,1,book,p. 1,read\n", func(t testing.TB) {
			for r := range Open(t, "p/f.csv").Rows() {
				if r.ID == "a" {
					r.Skip("a misprint")
				} else {
					r.Equal("name", "x")
				}
			}
		}, "", "1 not compared: a misprint"},
		{"text differs", "a,x,1,book,p. 1,read\n", func(t testing.TB) {
			for r := range Open(t, "p/f.csv").Rows() {
				r.Equal("name", "y")
			}
		}, `name = "y", printed "x"`, ""},
		{"no such column", "a,x,1,book,p. 1,read\n", func(t testing.TB) {
			for r := range Open(t, "p/f.csv").Rows() {
				r.Text("colour")
			}
		}, `no column "colour"`, ""},
	} {
		r := record(t, map[string]string{"sources.csv": sources, "rows.csv": "file,least\np/f.csv,1\np/g.csv,2\n",
			"p/f.csv": columns + test.text, "p/g.csv": columns + test.text}, test.f)
		expect(t, test.name, r.errors, test.errors)
		if test.logs != "" {
			expect(t, test.name, r.logs, test.logs)
		}
	}
}

func TestHalfLastPlace(t *testing.T) {
	for printed, want := range map[string]float64{"12": 0.5, "12.3": 0.05, "-0.120": 0.0005, "2.5e-05": 0.05e-5} {
		if got := HalfLastPlace(printed); got < want*0.999999 || got > want*1.000001 {
			t.Errorf("%s: %g, want %g", printed, got, want)
		}
	}
}

func TestErrata(t *testing.T) {
	const text = "id,package,quantity,printed,right,why,source,locator\ne,p,a length,1.25,1.35,a slip,book,p. 1\nother,q,a length,1,2,a slip,book,p. 1\n"
	for _, test := range []struct {
		name     string
		computed map[string]float64
		want     string
	}{
		{"right", map[string]float64{"e": 1.351}, ""},
		{"the misprint", map[string]float64{"e": 1.25}, "right value 1.35"},
		{"not computed", nil, "e: nothing computes it"},
		{"not listed", map[string]float64{"e": 1.35, "f": 1}, "f is computed but not listed for p"},
	} {
		r := record(t, map[string]string{"sources.csv": sources, "errata.csv": text}, func(t testing.TB) { Errata(t, "p", test.computed) })
		expect(t, test.name, r.errors, test.want)
	}
	r := record(t, map[string]string{"sources.csv": sources, "errata.csv": text}, func(t testing.TB) { Errata(t, "none", nil) })
	expect(t, "no errata", r.errors, "lists nothing for none")
}

func TestTables(t *testing.T) {
	shipped := func(title string) fstest.MapFS {
		return fstest.MapFS{"tables/t.csv": {Data: []byte("# title: T\n# edition: 1\n# unit: mm\n# held: read\n# errata: none\n# source book | published | " + title + " | 1999\n")}}
	}
	for _, test := range []struct {
		name, pattern, title, want string
	}{
		{"right", "tables/*.csv", "A Book", ""},
		{"other title", "tables/*.csv", "Another Book", `sources.csv has "A Book"`},
		{"no table", "nowhere/*.csv", "A Book", "no tables match"},
	} {
		r := record(t, map[string]string{"sources.csv": sources}, func(t testing.TB) { Tables(t, shipped(test.title), test.pattern) })
		expect(t, test.name, r.errors, test.want)
	}
}
