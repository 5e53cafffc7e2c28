package fits_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"pgregory.net/rapid"
)

// "A thou per inch" is what everybody gives as the clearance of a crankshaft.
// On a shaft of 3/8 in it asks for 0.375 thou, which neither reamer nor
// micrometer of a small shop can hold; the close running fit of the standard
// takes what a reamer gives.
func ExampleChoose_crankshaft() {
	rules, _ := fits.Rules("bearing")
	low, _, _ := rules[0].At(units.Inch(0.375))
	fmt.Printf("%s: %.3f thou (%s)\n", rules[0].Name, low.Thou(), rules[0].Ref)

	best, err := fits.Choose(units.MM(9.5), fits.Band{Low: units.Thou(0.5), High: units.Thou(2)}, fits.HoleBasis)
	if err != nil {
		fmt.Println(err)
		return
	}
	c := best[0]
	fmt.Printf("%s, %s: %.1f to %.1f thou\n", c.Fit, c.Name, c.Result.MinClearance.Thou(), c.Result.MaxClearance.Thou())

	fit, _ := fits.ParseFit("H7/f7")
	r, _ := fit.At(units.MM(9.5))
	fmt.Printf("%s: %.0f to %.0f um, %.1f to %.1f thou\n", fit, r.MinClearance.Micron(), r.MaxClearance.Micron(), r.MinClearance.Thou(), r.MaxClearance.Thou())
	shaft, err := r.Shaft.RoundInward(units.MM(0.01))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("with a micrometer that reads 0.01 mm: %s to %s, %.0f of %.0f um lost\n", shaft.Min, shaft.Max, shaft.Lost.Micron(), r.Shaft.Tolerance().Micron())
	// Output:
	// a thou per inch: 0.375 thou (Plain bearing clearance, article of an electric-motor repair association, 2016, list)
	// H8/f7, close running: 0.5 to 2.0 thou
	// H7/f7: 13 to 43 um, 0.5 to 1.7 thou
	// with a micrometer that reads 0.01 mm: 9.48 mm to 9.48 mm, 15 of 15 um lost
}

// A ground bar of 10 mm h8 is to run with 0.02 to 0.06 mm of clearance, and
// these reamers are in the drawer. (Invented drawer.)
func ExampleReaming() {
	drawer, err := gauge.ParseSet("9.5 mm, 10 mm, 3/8 in, 25/64 in, 10.02 mm, 10.5 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	h8, _ := fits.ParseClass("h8")
	bar, _ := h8.At(units.MM(10))
	best, err := fits.Reaming{Reamers: drawer, Shaft: bar, Clearance: fits.Band{Low: units.MM(0.02), High: units.MM(0.06)}}.Choose()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range best[:2] {
		fmt.Printf("%s: %s fit, %s to %s, %s outside\n", c.Reamer.Name, c.Result.Kind, c.Result.MinClearance, c.Result.MaxClearance, c.Outside)
	}
	// Output:
	// 10.02 mm: clearance fit, 0.02 mm to 0.06 mm, 0 mm outside
	// 10 mm: clearance fit, 0 mm to 0.037 mm, 0.02 mm outside
}

func TestPreferredFits(t *testing.T) {
	for _, b := range []fits.Basis{fits.HoleBasis, fits.ShaftBasis} {
		list, err := fits.PreferredFits(b)
		if err != nil || len(list) != 13 {
			t.Fatal(len(list), err)
		}
		for i, p := range list {
			r, err := p.Fit.At(units.MM(25))
			if err != nil || p.Name == "" || p.Use == "" || p.Ref.Title == "" {
				t.Errorf("%v: %v", p, err)
				continue
			}
			// The part of the basis is made to the size: its limits begin there.
			if b == fits.HoleBasis && r.Hole.Min != units.MM(25) && p.Fit.Shaft.String() != "h6" || b == fits.ShaftBasis && r.Shaft.Max != units.MM(25) {
				t.Errorf("%v is not on %v", p.Fit, b)
			}
			// From loose to tight.
			if i > 0 {
				last, _ := list[i-1].Fit.At(units.MM(25))
				if r.MeanClearance().Cmp(last.MeanClearance()) > 0 && p.Fit.String() != "H8/h7" {
					t.Errorf("%v is looser than %v", p.Fit, list[i-1].Fit)
				}
			}
		}
		if back, err := fits.ParseBasis(b.String()); err != nil || back != b {
			t.Error(back, err)
		}
	}
	if _, err := fits.PreferredFits(7); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
	// Both bases give the same clearance where the tables mirror each other; js
	// lies on both sides of the size and does not.
	hole, _ := fits.PreferredFits(fits.HoleBasis)
	shaft, _ := fits.PreferredFits(fits.ShaftBasis)
	for i := range hole {
		if hole[i].Fit.String() == "H7/js6" {
			continue
		}
		a, errA := hole[i].Fit.At(units.MM(10))
		b, errB := shaft[i].Fit.At(units.MM(10))
		if errA != nil || errB != nil || a.MinClearance != b.MinClearance || a.MaxClearance != b.MaxClearance {
			t.Errorf("%v %v to %v, %v %v to %v", hole[i].Fit, a.MinClearance, a.MaxClearance, shaft[i].Fit, b.MinClearance, b.MaxClearance)
		}
	}
	// Up to 3 mm p6 is a transition fit, above it interference.
	fit, _ := fits.ParseFit("H7/p6")
	small, _ := fit.At(units.MM(3))
	large, _ := fit.At(units.MM(3.1))
	if small.Kind != fits.Transition || large.Kind != fits.Interference {
		t.Error(small.Kind, large.Kind)
	}
}

func TestChoose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nominal := units.Picometres(rapid.Int64Range(1, 3_150_000_000_000).Draw(t, "size"))
		low := units.Micron(float64(rapid.IntRange(-200, 300).Draw(t, "low")))
		wanted := fits.Band{Low: low, High: low.Add(units.Micron(float64(rapid.IntRange(0, 200).Draw(t, "width"))))}
		list, err := fits.Choose(nominal, wanted, fits.HoleBasis)
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range list {
			inside := c.Result.MinClearance.Cmp(wanted.Low) >= 0 && c.Result.MaxClearance.Cmp(wanted.High) <= 0
			if inside != c.Outside.IsZero() || c.Outside.Sign() < 0 || i > 0 && c.Outside.Cmp(list[i-1].Outside) < 0 {
				t.Fatalf("%v: %v to %v in %v, outside %v", c.Fit, c.Result.MinClearance, c.Result.MaxClearance, wanted, c.Outside)
			}
		}
	})
	if _, err := fits.Choose(units.MM(10), fits.Band{Low: units.MM(1)}, fits.HoleBasis); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := fits.Choose(units.MM(0), fits.Band{}, fits.HoleBasis); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := fits.Choose(units.MM(10), fits.Band{}, 9); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

func TestReamingErrors(t *testing.T) {
	set := gauge.Metric()
	bar := fits.Exact(units.MM(10))
	for name, test := range map[string]struct {
		r    fits.Reaming
		want error
	}{
		"no reamers":  {fits.Reaming{Shaft: bar}, units.ErrMissing},
		"no bar":      {fits.Reaming{Reamers: set}, units.ErrOutOfRange},
		"turned band": {fits.Reaming{Reamers: set, Shaft: bar, Clearance: fits.Band{Low: units.MM(1)}}, units.ErrOutOfRange},
		"shaft class": {fits.Reaming{Reamers: set, Shaft: bar, Hole: class(t, "h7")}, units.ErrOutOfRange},
		"no such":     {fits.Reaming{Reamers: set, Shaft: bar, Hole: class(t, "T7")}, units.ErrOutOfRange},
	} {
		if _, err := test.r.Choose(); !errors.Is(err, test.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	all, err := fits.Reaming{Reamers: set, Shaft: bar, Clearance: fits.Band{High: units.MM(0.02)}}.Choose()
	if err != nil || len(all) != set.Len() || all[0].Reamer.Diameter != units.MM(10) {
		t.Error(len(all), err)
	}
}

func TestRules(t *testing.T) {
	count := 0
	for _, topic := range []string{"bearing", "piston", "ring gap", "gland", "press", "bond gap"} {
		list, err := fits.Rules(topic)
		if err != nil {
			t.Error(err)
		}
		count += len(list)
		for _, r := range list {
			low, high, err := r.At(units.Inch(1))
			if err != nil || low.Sign() <= 0 || high.Cmp(low) < 0 || high.Thou() > 10 || r.Ref.Kind == 0 {
				t.Errorf("%+v: %v to %v, %v", r, low, high, err)
			}
			if _, _, err := r.At(units.Length{}); !errors.Is(err, units.ErrMissing) {
				t.Error(err)
			}
		}
	}
	if count != 24 {
		t.Errorf("%d rules, want 24", count)
	}
	if _, err := fits.Rules("boiler"); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

// The limits that the books work out: a loose running fit of 34 mm, 50 H8/g7
// and 50 H7/s6, and the cells of the tables that formulas miss.
//
// Shigley's Mechanical Engineering Design, 9th edition, example 7-7, p. 398;
// Jindal, Machine Design, example 4-3, p. 113; Bhandari, Design of Machine
// Elements, example 3.3; ISO 286-2 limits as reprinted (M8, N8, u6).
func ExampleFit_handbooks() {
	for _, s := range []string{"34 H11/c11", "50 H8/g7", "50 H7/s6"} {
		nominal, fit, _ := fits.ParseSizedFit(s)
		r, _ := fit.At(nominal)
		fmt.Printf("%s: %s to %s in %s to %s, %s fit, %s to %s\n", s, r.Shaft.Min, r.Shaft.Max, r.Hole.Min, r.Hole.Max, r.Kind, r.MinClearance, r.MaxClearance)
	}
	for _, s := range []string{"5M8", "150N8", "500u6"} {
		nominal, c, _ := fits.ParseSizedClass(s)
		l, _ := c.At(nominal)
		fmt.Printf("%s: %+.0f/%+.0f um\n", s, l.Upper().Micron(), l.Lower().Micron())
	}
	// Output:
	// 34 H11/c11: 33.72 mm to 33.88 mm in 34 mm to 34.16 mm, clearance fit, 0.12 mm to 0.44 mm
	// 50 H8/g7: 49.966 mm to 49.991 mm in 50 mm to 50.039 mm, clearance fit, 0.009 mm to 0.073 mm
	// 50 H7/s6: 50.043 mm to 50.059 mm in 50 mm to 50.025 mm, interference fit, -0.059 mm to -0.018 mm
	// 5M8: +2/-16 um
	// 150N8: -4/-67 um
	// 500u6: +580/+540 um
}
