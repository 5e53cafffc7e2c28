package material

import (
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
)

// A row that cannot be is refused by its reader, on both sides of what is accepted.
func TestRows(t *testing.T) {
	check.Cells(t, tables, "density", readFigure, "value", []string{"0", "-1", ""}, []string{"0.001"})
	check.Cells(t, tables, "density", readFigure, "low", []string{"7000"}, nil)
	const head = "# title: t\n# edition: e\n# unit: u\n# held: h\n# errata: none\n# source s | common practice | |\n" +
		"material,condition,value,low,high,source,locator\n"
	for cells, refused := range map[string]bool{
		"2,1,3": false, "1,1,3": false, "3,1,3": false, "0.99,1,3": true, "3.01,1,3": true, ",1,3": false, ",1,1": false, ",3,1": true, ",0,1": true, "2,1,": true,
	} {
		files := fstest.MapFS{"t.csv": {Data: []byte(head + "brass,," + cells + ",s,\n")}}
		if _, _, err := table.Read(files, "t.csv", readFigure); (err != nil) != refused {
			t.Errorf("value, low and high of %s: %v", cells, err)
		}
	}
}

// Every family has its text, and back; expansions are used from -80 to 300 degrees C,
// our own choice.
func TestFamilyText(t *testing.T) {
	for _, f := range append(Families(), 0) {
		text, err := f.MarshalText()
		back := Steel
		if err != nil || back.UnmarshalText(text) != nil || back != f || (len(text) == 0) != (f == 0) {
			t.Errorf("%v: %q, %v", f, text, err)
		}
	}
	if from, to := ExpansionFrom.Celsius(), ExpansionTo.Celsius(); math.Abs(from+80) > 1e-9 || math.Abs(to-300) > 1e-9 {
		t.Errorf("%v to %v degrees C", from, to)
	}
}

// A wrong name is told what has one of its words of three letters and more.
func TestNearNames(t *testing.T) {
	for name, want := range map[string]bool{"red bronze": true, "an alloy": true, "zn": false, "xy zinc": true, "ptf": false, "the fkm": true, "hold on": false} {
		_, err := Lookup(name)
		if err == nil || strings.Contains(err.Error(), "near it") != want {
			t.Errorf("%s: %v", name, err)
		}
	}
}
