package assembly_test

import (
	"encoding"
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A piston of 18 mm with soft packing. (Invented.)
func ExamplePistonRule() {
	r, err := assembly.PistonRule(units.MM(18), assembly.SoftPacking, material.Iron)
	if err != nil {
		fmt.Println(err)
		return
	}
	band, err := r.Allowance(units.MM(18))
	fmt.Printf("%s: %.3f to %.3f mm, %v\n", r.Name, band.Min.MM(), band.Max.MM(), err)
	// Output:
	// soft packed or with an O-ring: 0.051 to 0.102 mm, <nil>
}

func TestPistonRule(t *testing.T) {
	for _, test := range []struct {
		bore    float64
		packing assembly.Packing
		piston  material.Family
		low, hi float64 // thou at the bore of an inch, or in all
	}{
		{25.4, assembly.MetalRings, material.Iron, 1, 2}, {25.4, assembly.MetalRings, material.Bronze, 1.5, 2},
		{25.4, assembly.MetalRings, material.Brass, 1.5, 2}, {25.4, assembly.MetalRings, material.Aluminium, 2, 3},
		{25.4, assembly.SoftPacking, material.Steel, 2, 4}, {25.4, assembly.ORing, 0, 2, 4}, {12.7, assembly.ORing, 0, 1, 2}, {12.8, assembly.ORing, 0, 2, 4},
	} {
		r, err := assembly.PistonRule(units.MM(test.bore), test.packing, test.piston)
		if err != nil {
			t.Fatal(test, err)
		}
		band, err := r.Allowance(units.Inch(1))
		if err != nil || r.Topic != "piston" || band.Min != units.Thou(test.low) || band.Max != units.Thou(test.hi) {
			t.Errorf("%+v: %s, %v, %v", test, r.Name, band, err)
		}
	}
	for _, bad := range []struct {
		bore    float64
		packing assembly.Packing
		want    error
	}{{0, assembly.ORing, units.ErrOutOfRange}, {20, 0, units.ErrUnknown}, {20, assembly.MetalRings, units.ErrUnknown}} {
		if _, err := assembly.PistonRule(units.MM(bad.bore), bad.packing, material.Steel); !errors.Is(err, bad.want) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
	for _, p := range assembly.Packings() {
		if back, err := assembly.ParsePacking(p.String()); err != nil || back != p {
			t.Error(p, back, err)
		}
	}
}

// H9/d9 at 20 mm, 0.065 to 0.169 mm, is looser than any rule, 0.020 to 0.102 mm;
// what a rule asks for is not.
func TestCheckPiston(t *testing.T) {
	for _, test := range []struct {
		least, most float64
		said        bool
	}{{0.065, 0.169, true}, {0.01, 0.05, true}, {0.0508, 0.1016, false}, {0.021, 0.1, false}} {
		list, err := assembly.CheckPiston(units.MM(20), fits.Band{Min: units.MM(test.least), Max: units.MM(test.most)})
		if err != nil || (len(list) > 0) != test.said || test.said && list[0].Code != assembly.OutsidePistonRules {
			t.Errorf("%+v: %v, %v", test, list, err)
		}
	}
	if _, err := assembly.CheckPiston(units.MM(-1), fits.Band{}); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}

func TestPackingText(t *testing.T) {
	for _, p := range append(assembly.Packings(), 0) {
		text, err := p.MarshalText()
		back := assembly.ORing
		if err != nil || back.UnmarshalText(text) != nil || back != p {
			t.Errorf("%v: %q, %v, back %v", p, text, err, back)
		}
	}
	var bad encoding.TextMarshaler = assembly.Packing(9)
	if text, err := bad.MarshalText(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("%q, %v", text, err)
	}
}

// A piston of 20 mm to H9/d9, by whatever it is packed with.
func ExampleCheckPiston() {
	said, err := assembly.CheckPiston(units.MM(20), fits.Band{Min: units.MM(0.065), Max: units.MM(0.169)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(said[0].Severity, said[0].Text)
	// Output:
	// caution A clearance of 0.065 mm (2.56 thou) to 0.169 mm (6.65 thou) is outside all rules of practice for a piston in this bore, 0.020 mm (0.79 thou) to 0.102 mm (4.00 thou).
}
