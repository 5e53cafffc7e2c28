package hole_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// Before a 6 mm reamer 5.7 mm, before a 1/4 in one 6.1 mm, and never below 5.56
// mm; 15/64 in is inside the rule of a text of 1914.
func ExampleReamingFor() {
	gunmetal, _ := material.Lookup("gunmetal")
	for _, reamer := range []units.Length{units.MM(6), units.InchFraction(1, 4)} {
		holes, err := hole.ReamingFor(reamer, gunmetal)
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, h := range holes {
			if h.Rule != "carbide-tipped" {
				fmt.Printf("%v, %s: %s to %s, never below %s\n", reamer, h.Rule, h.Min.Text(units.Millimetres, 2),
					h.Max.Text(units.Millimetres, 2), h.NeverBelow.Text(units.Millimetres, 2))
			}
		}
		fmt.Println("15/64 in by the usual stock:", holes[2].Contains(units.InchFraction(15, 64)))
	}
	// Output:
	// 6 mm, trade-training: 5.65 mm to 5.75 mm, never below 5.21 mm
	// 6 mm, machine reamer: 5.75 mm to 5.87 mm, never below 5.21 mm
	// 6 mm, usual stock: 5.60 mm to 5.75 mm, never below 5.21 mm
	// 15/64 in by the usual stock: false
	// 6.35 mm, trade-training: 6.00 mm to 6.10 mm, never below 5.56 mm
	// 6.35 mm, machine reamer: 6.10 mm to 6.22 mm, never below 5.56 mm
	// 6.35 mm, usual stock: 5.95 mm to 6.10 mm, never below 5.56 mm
	// 15/64 in by the usual stock: true
}

// What each rule leaves, at both ends of its sizes as printed, and not a hair above.
func TestReamingStock(t *testing.T) {
	f := check.Open(t, "speeds/hole/reaming.csv")
	for r := range f.Rows() {
		unit, err := units.ParseLengthUnit(r.Text("unit"))
		if err != nil {
			t.Fatal(err)
		}
		left := func(reamer units.Length) (low, high float64) {
			holes, err := hole.ReamingFor(reamer, metal("brass"))
			if err != nil {
				t.Fatalf("%s: %v: %v", r.ID, reamer, err)
			}
			for _, h := range holes {
				if h.Rule == r.Text("rule") {
					return reamer.Sub(h.Max).In(unit) - r.Float("oversize"), reamer.Sub(h.Min).In(unit) - r.Float("oversize")
				}
			}
			return math.NaN(), math.NaN() // the rule is not for that size
		}
		for _, end := range []string{"from", "to"} {
			low, high := left(units.MustLength(r.Text(end) + " " + r.Text("unit")))
			r.Compare("low", low)
			r.Compare("high", high)
		}
		if r.Has("ends") {
			above := units.MustLength(r.Text("to") + " " + r.Text("unit")).Add(units.Micron(1))
			if low, high := left(above); math.Abs(low-r.Float("low")) < 1e-9 || math.Abs(high-r.Float("high")) < 1e-9 {
				t.Errorf("%s: %v to %v also at %v", r.ID, low, high, above)
			}
		}
	}
}

func TestReamingFor(t *testing.T) {
	aluminium, err := hole.ReamingFor(units.MM(10), metal("aluminium"))
	if err != nil || aluminium[0].Min != units.MM(9.5) || aluminium[0].Max != units.MM(9.65) {
		t.Errorf("aluminium: %+v, %v", aluminium, err)
	}
	for _, d := range []units.Length{units.Length{}, units.MM(-6), units.MM(0.5), units.MM(120)} {
		if _, err := hole.ReamingFor(d, metal("brass")); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", d, err)
		}
	}
	if _, err := aluminium[0].Drills(gauge.Set{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no drills: %v", err)
	}
	if _, err := hole.ReamingFor(units.MM(6), material.Material{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no material: %v", err)
	}
	for _, name := range []string{"paper", "nitrile rubber"} {
		if _, err := hole.ReamingFor(units.MM(6), metal(name)); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := hole.ReamingFor(units.MM(6), material.Material{Name: "unobtainium"}); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("unobtainium: %v", err)
	}
	// Bands join without a gap: every size from 1 to 100 mm has the default rule
	// first, and every hole is below its reamer and in order.
	for um := 1000; um <= 100_000; um += 50 {
		reamer := units.Micron(float64(um))
		holes, err := hole.ReamingFor(reamer, metal("mild steel"))
		if err != nil || len(holes) == 0 || holes[0].Rule != "trade-training" {
			t.Fatalf("%v: %+v, %v", reamer, holes, err)
		}
		for _, h := range holes {
			if h.Min.Cmp(h.Max) > 0 || h.Max.Cmp(reamer) >= 0 {
				t.Fatalf("%v: %+v", reamer, h)
			}
		}
	}
}

// metal returns a material by its name.
func metal(name string) material.Material {
	m, err := material.Lookup(name)
	if err != nil {
		panic(err)
	}
	return m
}
