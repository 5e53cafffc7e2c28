package table

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const header = `# title: A table
# edition: first
# unit: mm
# held: as printed
# errata: none known
# note: anything
# source book | published | A Book | 1999
# source head | from memory | A Standard | | recalled
`

type entry struct {
	name     string
	diameter units.Length
	pitch    float64
	starts   int
	ref      source.Ref
}

func decode(r *Row) entry {
	e := entry{name: r.Text("name"), diameter: As(r, "diameter", units.Millimetres.Parse), ref: r.Ref(), starts: r.Int("starts")}
	if r.Has("pitch") {
		e.pitch = r.Float("pitch")
	}
	return e
}

func read(text string) ([]entry, error) {
	rows, _, err := Read(fstest.MapFS{"t.csv": {Data: []byte(text)}}, "t.csv", decode)
	return rows, err
}

func TestRead(t *testing.T) {
	rows, err := read(header + "name,diameter,pitch,starts,source,locator\nM3,3.000,0.50,1,book,p. 12\n# note: half way\n\"#4\",2.845,,1,head,\n")
	if err != nil {
		t.Fatal(err)
	}
	want := []entry{
		{"M3", units.MM(3), 0.5, 1, source.Ref{Kind: source.Published, Title: "A Book", Edition: "1999", Locator: "p. 12"}},
		{"#4", units.MM(2.845), 0, 1, source.Ref{Kind: source.FromMemory, Title: "A Standard", Note: "recalled"}},
	}
	if len(rows) != 2 || rows[0] != want[0] || rows[1] != want[1] {
		t.Errorf("got %+v", rows)
	}
}

// Rows from one place share their source; others have their own.
func TestRefs(t *testing.T) {
	rows, _, err := Read(fstest.MapFS{"t.csv": {Data: []byte(header + "n,source,locator\n1,book,p. 1\n2,book,p. 1\n3,book,p. 2\n4,head,\n")}}, "t.csv",
		func(r *Row) source.Refs { r.Int("n"); return r.Refs() })
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []source.Ref{
		{Kind: source.Published, Title: "A Book", Edition: "1999", Locator: "p. 1"},
		{Kind: source.Published, Title: "A Book", Edition: "1999", Locator: "p. 1"},
		{Kind: source.Published, Title: "A Book", Edition: "1999", Locator: "p. 2"},
		{Kind: source.FromMemory, Title: "A Standard", Note: "recalled"},
	} {
		if rows[i].Len() != 1 || rows[i].First() != want {
			t.Errorf("row %d: %v, want %v", i+1, rows[i], want)
		}
	}
}

// Cells are split as encoding/csv splits them.
func TestSplit(t *testing.T) {
	for _, line := range []string{
		"a,b,c", "a,,c", ",", "a", `"a,b",c`, `"#4",1`, `"say ""a"", b",""`, `"",""""`, `a b , c`, `"1/4"" x 40",1`,
	} {
		want, err := csv.NewReader(strings.NewReader(line)).Read()
		for i := range want {
			want[i] = strings.TrimSpace(want[i])
		}
		if got, ok := split(nil, line); err != nil || !ok || !slices.Equal(got, want) {
			t.Errorf("%s: %q, %v; want %q, %v", line, got, ok, want, err)
		}
	}
}

func FuzzSplit(f *testing.F) {
	f.Add(`a,"b ""c"", d",e`)
	f.Fuzz(func(t *testing.T, line string) {
		if line == "" || strings.ContainsAny(line, "\r\n") {
			return
		}
		want, err := csv.NewReader(strings.NewReader(line)).Read()
		for i := range want {
			want[i] = strings.TrimSpace(want[i])
		}
		if got, ok := split(nil, line); ok != (err == nil) || ok && !slices.Equal(got, want) {
			t.Errorf("%q: %q, %v; want %q, %v", line, got, ok, want, err)
		}
	})
}

func TestComplaints(t *testing.T) {
	const columns = "name,diameter,pitch,starts,source,locator\n"
	for _, test := range []struct{ name, text, want string }{
		{"no title", strings.Replace(header, "# title: A table\n", "", 1) + columns + "a,1,1,1,book,p. 1\n", `t.csv:1": the header does not say "title"`},
		{"title twice", "# title: B\n" + header + columns + "a,1,1,1,book,p. 1\n", "t.csv:2\": title given twice"},
		{"odd comment", "# colour: red\n" + header + columns + "a,1,1,1,book,p. 1\n", `t.csv:1": comment "colour" is none of`},
		{"odd kind", strings.Replace(header, "published", "hearsay", 1) + columns + "a,1,1,1,book,p. 1\n", "t.csv:7\": source: kind \"hearsay\": unknown"},
		{"source cut short", header + "# source x | published\n" + columns + "a,1,1,1,book,p. 1\n", "t.csv:9\": source: want KEY"},
		{"source twice", header + "# source book | published | B | 1\n" + columns + "a,1,1,1,book,p. 1\n", `t.csv:9": source "book"`},
		{"no locator column", header + "name,diameter,pitch,starts,source\na,1,1,1,book\n", `no column "locator"`},
		{"column twice", header + "name,name,diameter,pitch,starts,source,locator\n", `name "name" is blank or given twice`},
		{"unused column", header + "name,diameter,pitch,starts,colour,source,locator\na,1,1,1,red,book,p. 1\n", `column "colour" is in the table but nothing reads it`},
		{"missing column", header + "name,pitch,starts,source,locator\na,1,1,book,p. 1\n", `t.csv:10": no column "diameter"`},
		{"blank cell", header + columns + ",1,1,1,book,p. 1\n", `t.csv:10": column "name" is blank`},
		{"not a number", header + columns + "a,1,1e3,1,book,p. 1\n", `t.csv:10": column "pitch": "1e3" is not a decimal number`},
		{"infinite", header + columns + "a,1,inf,1,book,p. 1\n", `"inf" is not a decimal number`},
		{"not whole", header + columns + "a,1,1,1.5,book,p. 1\n", `t.csv:10": column "starts": "1.5" is not a whole number`},
		{"not a length", header + columns + "a,1/0,1,1,book,p. 1\n", `t.csv:10": column "diameter": units: length "1/0 mm"`},
		{"unknown source", header + columns + "a,1,1,1,boook,p. 1\n", `t.csv:10": source "boook" is not declared`},
		{"no locator", header + columns + "a,1,1,1,book,\n", `t.csv:10": no locator for published source "book"`},
		{"ragged", header + columns + "a,1,1\n", `t.csv:10": cells: 3, where the table has 6 columns`},
		{"quote inside", header + columns + "a\"b,1,1,1,book,p. 1\n", `t.csv:10": a quote that does not go round`},
		{"quote left open", header + columns + "\"a,1,1,1,book,p. 1\n", `t.csv:10": a quote that does not go round`},
		{"text behind a quote", header + columns + "\"a\"b,1,1,1,book,p. 1\n", `t.csv:10": a quote that does not go round`},
		{"no rows", header + columns, "no rows"},
		{"empty", header, "no columns"},
	} {
		if _, err := read(test.text); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v; want %q", test.name, err, test.want)
		}
	}
	if _, err := read(header + columns + "a,x,1,1,book,p. 1\nb,1,1,x,book,p. 1\n"); err == nil || strings.Count(err.Error(), "\n") != 1 {
		t.Errorf("both problems must be named: %v", err)
	}
	if _, _, err := Read(fstest.MapFS{}, "none.csv", decode); err == nil {
		t.Error("a file that is not there is no error")
	}
}

// What cannot be made of a row is told by file and line, whether a cell of it was bad or
// its maker panics of a sound one.
func TestPanicOfARow(t *testing.T) {
	pitch := func(r *Row) units.Length {
		r.Text("name")
		return units.Inch(1 / r.Float("tpi"))
	}
	for cell, want := range map[string]string{"x20": "tpi", "0": "not a finite number"} {
		text := header + "name,tpi,source,locator\na,32,book,\nb," + cell + ",book,\n"
		_, _, err := Read(fstest.MapFS{"t.csv": {Data: []byte(text)}}, "t.csv", pitch)
		if err == nil || strings.Count(err.Error(), "\n") != 0 || !strings.Contains(err.Error(), "t.csv:11") || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", cell, err)
		}
	}
}
