package evidence_test

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/evidence"
	"github.com/valvechest/valvechest/units/source"
)

// testdata/EVIDENCE.md is what the source of this module has to show.
func TestPage(t *testing.T) {
	report, err := evidence.Read(os.DirFS(filepath.Dir(check.Path(t, "."))))
	if err != nil {
		t.Fatal(err)
	}
	check.Kept(t, "EVIDENCE.md", report.Markdown())
}

// small is a module with one table of three numbers, two works and a check of each sort.
func small() fstest.MapFS {
	const columns = "id,size,source,locator,how\n"
	files := map[string]string{
		"peg/peg.go": "package peg\n\nfunc Size(n int) int { return 2 * n }\n\nfunc Room(n int) int { return n - 1 }\n\nfunc Told(n int) int { return Size(n) }\n\n" +
			"type Peg struct{ n int }\n\nfunc (p Peg) Length() int { return -p.n }\n\nfunc (Peg) String() string { return \"\" }\n\n" +
			"func (p Peg) Number() int { return p.n }\n\nfunc Pegs() []Peg { return make([]Peg, 3) }\n\nfunc ParsePeg(text string) int { return len(text) }\n",
		"peg/peg_test.go": "package peg\n\nfunc TestSizes(t *testing.T) { f := check.Open(t, \"peg/second.csv\"); use(t, f) }\n\n" +
			"func use(t *testing.T, f *check.File) { Size(1) }\n\nfunc TestOther(t *testing.T) { Room(2) }\n\n" +
			"func ExamplePeg_Length_handbook() {\n\tfmt.Println(Peg{}.Length())\n\t// Output: 3\n}\n\nfunc ExampleRoom() { Room(2) }\n",
		"peg/tables/pegs.csv": "# title: Pegs\n# edition: 1\n# unit: mm\n# held: some recalled\n# errata: none\n" +
			"# source old | published | The Handbook | 1\n# source head | from memory | A Standard |\n" +
			"name,size,shape,source,locator\nA,1.5,round 1,old,p. 1\nB,2 1/2,,old,p. 2\nC,3,,head,\n",
		"testdata/sources.csv":              "key,kind,title,edition,note\nold,published,The Handbook,1,\nnew,published,The Handbook,2,\nother,published,Another,1,\n",
		"testdata/peg/README.md":            "# Pegs\n\nNo print found: `Told`, and the\nbooks.\n\nRest: `Room`.\n",
		"testdata/peg/second.csv":           "# checks: peg/tables/pegs.csv\n" + columns + "A,1.5,new,p. 1,read\nB,2.5,other,p. 2,read\nC,3,new,p. 3,read\nD,3,,,practice\nE,4,other,p. 3,read\n",
		"testdata/peg/sums.csv":             "# checks: formula\n" + columns + "A,1.5,old,p. 1,read\nB,2.5,other,run,computed\n",
		"testdata/peg/silent.csv":           columns + "A,1.5,old,p. 1,read\n",
		"testdata/unwitnessed.csv":          "table,rows,column,looked_in\npeg/tables/pegs.csv,A..B,size,books\n",
		evidence.CellsFile:                  "of,all,tried,found\npeg/tables/pegs.csv,3,2,1\n",
		evidence.CodeFile:                   "of,all,tried,found\npeg,30,10,9\n",
		evidence.ComparedFile:               "file,column,left_out,largest,at,wide\npeg/second.csv,size,E,0.5,B,1\npeg/silent.csv,size,,0,A,0\npeg/sums.csv,size,,0.75,A,0\n",
		"internal/other/tables/nothing.txt": "",
	}
	module := fstest.MapFS{}
	for name, text := range files {
		module[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return module
}

func TestCounts(t *testing.T) {
	report, err := evidence.Read(small())
	if err != nil {
		t.Fatal(err)
	}
	if len(report.Packages) != 1 || len(report.Open) != 0 || report.Unwitnessed != 1 {
		t.Fatalf("%+v", report)
	}
	p := report.Packages[0]
	if cells := map[source.Kind]int{source.Published: 2, source.FromMemory: 1}; !maps.Equal(p.Cells, cells) || p.Unwitnessed != 2 {
		t.Errorf("cells %v, unwitnessed %d", p.Cells, p.Unwitnessed)
	}
	// A is read in a later edition of its own work, C in print where the table recalls it.
	want := p
	want.Figures[evidence.SameWork], want.Figures[evidence.OtherWork], want.Figures[evidence.Formula] = 1, 2, 1
	want.Figures[evidence.Program], want.Figures[evidence.Recalled], want.Figures[evidence.Undeclared] = 1, 1, 1
	if p.Figures != want.Figures || p.Largest != 0.75 || p.At != "sums.csv, A, size" || p.Wide != 1 {
		t.Errorf("figures %v, largest %v at %s, %d wide", p.Figures, p.Largest, p.At, p.Wide)
	}
	f := p.Functions
	if f.All != 4 || f.Example != 1 || f.Check != 2 || f.NoPrint != 1 || strings.Join(f.Neither, " ") != "Room" ||
		strings.Join(f.WithoutExample, " ") != "Room Size Told" {
		t.Errorf("functions %+v", f)
	}
	if p.CellsFound != 0.5 || p.CellsTried != 2 || p.Code.Share() != 0.9 {
		t.Errorf("mistakes %v of %d, %+v", p.CellsFound, p.CellsTried, p.Code)
	}
}

func TestContradictions(t *testing.T) {
	for _, test := range []struct{ name, file, text, want string }{
		{"table", evidence.UnwitnessedFile, "table,rows,column,looked_in\npeg/tables/dowels.csv,*,size,books\n", "is no shipped table"},
		{"row", evidence.UnwitnessedFile, "table,rows,column,looked_in\npeg/tables/pegs.csv,A..Z,size,books\n", `no row "A..Z"`},
		{"column", evidence.UnwitnessedFile, "table,rows,column,looked_in\npeg/tables/pegs.csv,*,width,books\n", `no column "width"`},
		{"works", evidence.UnwitnessedFile, "table,rows,column,looked_in\npeg/tables/pegs.csv,*,size,\n", "a blank cell"},
		{"lines", evidence.UnwitnessedFile,
			"table,rows,column,looked_in\n" + strings.Repeat("peg/tables/pegs.csv,A,size,books\n", 601), "at most 600"},
		{"checks", "testdata/peg/sums.csv", "# checks: peg/tables/dowels.csv\nid,size,source,locator,how\n", "dowels.csv is no shipped table"},
		{"found", evidence.CodeFile, "of,all,tried,found\npeg,30,10,11\n", "more found than tried"},
		{"package", evidence.CodeFile, "of,all,tried,found\npog,30,10,9\n", "is no package"},
	} {
		module := small()
		module[test.file] = &fstest.MapFile{Data: []byte(test.text)}
		if _, err := evidence.Read(module); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v; want %q", test.name, err, test.want)
		}
	}
	open := small()
	open["testdata/peg/second.csv"] = &fstest.MapFile{Data: []byte("id,size,source,locator,how\n")}
	open[evidence.UnwitnessedFile] = &fstest.MapFile{Data: []byte("table,rows,column,looked_in\n")}
	if report, err := evidence.Read(open); err != nil || len(report.Open) != 1 || report.Open[0] != "peg/tables/pegs.csv size" {
		t.Errorf("nothing is said of a column: %v, %v", report, err)
	}
}

// A number is a decimal number, a fraction or a mixed number in a column of numbers.
func TestReadTable(t *testing.T) {
	table, err := evidence.ReadTable(small(), "peg/tables/pegs.csv")
	if err != nil || len(table.Cells) != 3 {
		t.Fatalf("%+v, %v", table, err)
	}
	for _, c := range table.Cells {
		if got := string(table.Text[c.At : c.At+len(c.Text)]); got != c.Text || table.Columns[c.Column] != "size" {
			t.Errorf("%q at the place of %q", got, c.Text)
		}
	}
	if _, err := evidence.ReadTable(small(), "peg/tables/dowels.csv"); err == nil {
		t.Error("a table that is not there was read")
	}
}

// What is measured anew takes the place of what was measured of the same.
func TestKeep(t *testing.T) {
	t.Chdir(t.TempDir())
	const name = "kept.csv"
	old := []evidence.Measure{{Of: "b", All: 3, Tried: 2, Found: 1}, {Of: "c", All: 9, Tried: 9, Found: 9}}
	now := []evidence.Measure{{Of: "a", All: 1}, {Of: "b", All: 8, Tried: 4, Found: 4}}
	for _, measures := range [][]evidence.Measure{old, now} {
		if err := evidence.Keep(name, measures); err != nil {
			t.Fatal(err)
		}
	}
	text, err := fs.ReadFile(os.DirFS("."), name)
	if want := "of,all,tried,found\nb,8,4,4\nc,9,9,9\n"; err != nil || string(text) != want {
		t.Errorf("%q, %v; want %q", text, err, want)
	}
	// One in eight of the first, all of the second: 8 of 17 and 9 of 17.
	if got := evidence.Whole([]evidence.Measure{{All: 8, Tried: 8, Found: 1}, {All: 9, Tried: 1, Found: 1}}); got != 10.0/17 {
		t.Error(got)
	}
}
