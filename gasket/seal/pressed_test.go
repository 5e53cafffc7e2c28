package seal_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// Jointing of 0.25 mm under 8.3 MPa.
func ExamplePressedFor() {
	jointing, err1 := material.Lookup("jointing without asbestos")
	all, err2 := seal.PressedFor(jointing)
	least, most, err3 := all[0].Thickness(units.MM(0.25), 8.3*units.Megapascal)
	fmt.Println(least.Text(units.Millimetres, 2), "to", most.Text(units.Millimetres, 2), err1, err2, err3)
	// Output: 0.21 mm to 0.25 mm <nil> <nil> <nil>
}

func TestPressed(t *testing.T) {
	jointing, err1 := material.Lookup("jointing without asbestos")
	paper, err2 := material.Lookup("paper")
	all, err3 := seal.PressedFor(jointing)
	if err1 != nil || err2 != nil || err3 != nil || len(all) == 0 {
		t.Fatal(all, err1, err2, err3)
	}
	// As read: 7 to 17 % by ASTM F36J, whose load is 34.5 MPa (5000 psi).
	p := all[0]
	if p.Min != 0.07 || p.Max != 0.17 || p.Under.In(units.PSI) < 4995 || p.Under.In(units.PSI) > 5010 || p.Refs.Len() != 2 {
		t.Errorf("%v", p)
	}
	// at the very load of the test, and of the thickest sheet
	if least, most, err := p.Thickness(units.MM(10), p.Under); err != nil || least != units.MM(8.3) || most != units.MM(10) {
		t.Errorf("%v to %v, %v", least, most, err)
	}
	_, err := seal.PressedFor(paper)
	check.Refuses(t, "paper", err, units.ErrUnknown, "jointing without asbestos")
	for name, tt := range map[string]struct {
		sheet  float64
		stress units.Pressure
	}{"no sheet": {0, 1e6}, "thick": {11, 1e6}, "no load": {1, 0}, "beyond the test": {1, 34.6e6}} {
		_, _, err := p.Thickness(units.MM(tt.sheet), tt.stress)
		check.Refuses(t, name, err, units.ErrOutOfRange, "accepted")
	}
}
