package keys_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/valvechest/valvechest/fits/keys"
	"github.com/valvechest/valvechest/units"
)

// What is accepted, at its ends and a picometre beyond.
func TestEdges(t *testing.T) {
	one := units.Picometres(1)
	pin := func(length units.Length) error { _, err := keys.PinFor("3", length); return err }
	shaft := func(shaft units.Length) error { _, err := keys.PinsFor(shaft, shaft.Scale(2)); return err }
	hub := func(hub units.Length) error { _, err := keys.PinsFor(units.MM(10), hub); return err }
	screw := func(shaft units.Length) error { _, err := keys.DimpleFor("M3", shaft); return err }
	for name, tt := range map[string]struct {
		ask       func(units.Length) error
		least, to units.Length
	}{
		"length of a pin":   {pin, units.MM(6), units.MM(100)},
		"shaft of a pin":    {shaft, units.MM(4), units.MM(25)},
		"hub of a pin":      {hub, units.MM(12), units.MM(80)},
		"shaft of a dimple": {screw, units.MM(6), units.MM(100)},
	} {
		for at, want := range map[units.Length]bool{
			tt.least: true, tt.least.Sub(one): false, tt.to: true, tt.to.Add(one): false,
		} {
			if err := tt.ask(at); (err == nil) != want {
				t.Errorf("%s %v: %v", name, at, err)
			}
		}
	}
}

// The drill of a thick inch pin may be a fraction or a letter: #4 of 1/2 in is 0.2396 in
// at its small end, below which B, 0.238 in, is the next (drill chart).
func TestLetterDrill(t *testing.T) {
	if pin, err := keys.PinFor("#4", units.Inch(0.5)); err != nil || pin.Drill.Name != "B" {
		t.Errorf("%v, %v", pin.Drill, err)
	}
}

// What a pin is called: a metric one by its small end and its length in millimetres.
func TestPinsOf(t *testing.T) {
	pins, err := keys.PinsFor(units.MM(12), units.MM(25))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range pins {
		names = append(names, p.Name)
	}
	// A quarter of 12 mm is 3: 3 at the small end and 3.48 at 24 mm are 3.24 in the
	// middle, 2.5 and 2.98 are 2.74. In inches 0.125 in less 0.75/96 is 2.977 mm.
	if got := strings.Join(names, ", "); got != "3 x 24, #3/0 x 3/4 in" {
		t.Error(got)
	}
}

// Rows that no key has are complained of.
func TestBadRows(t *testing.T) {
	const head = "# title: t\n# edition: 1\n# unit: mm\n# held: as typed\n# errata: none\n# source trade | common practice | |\n"
	keyRow := "standard,unit,over,to,width,height,shaft_depth,hub_depth,source,locator\nx,mm,%s,trade,\n"
	pointRow := "screw,diameter,point,source,locator\nM3,%s,trade,\n"
	for _, tt := range []struct {
		row, cells string
		ok         bool
	}{
		{keyRow, "6,8,2,2,1.2,1.0", true},
		{keyRow, "8,8,2,2,1.2,1.0", false},
		{keyRow, "6,8,0,2,1.2,1.0", false},
		{keyRow, "6,8,6,2,1.2,1.0", false},
		{keyRow, "6,8,2,2,0,1.0", false},
		{keyRow, "6,8,2,2,1.2,0", false},
		{pointRow, "3,1.4", true},
		{pointRow, "3,0", false},
		{pointRow, "3,3", false},
	} {
		read := keys.ReadKeyRows
		if tt.row == pointRow {
			read = keys.ReadPointRows
		}
		files := fstest.MapFS{"t.csv": {Data: []byte(head + fmt.Sprintf(tt.row, tt.cells))}}
		if err := read(files, "t.csv"); (err == nil) != tt.ok {
			t.Errorf("%s: %v", tt.cells, err)
		}
	}
}

func TestNothing(t *testing.T) {
	for name, ask := range map[string]func() error{
		"no shaft in a dimple": func() error { _, err := keys.DimpleFor("M3", units.Length{}); return err },
		"no shaft":             func() error { _, err := keys.PinsFor(units.Length{}, units.MM(20)); return err },
		"no hub":               func() error { _, err := keys.PinsFor(units.MM(10), units.Length{}); return err },
	} {
		if ask() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
