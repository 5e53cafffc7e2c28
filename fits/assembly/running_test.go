package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// measured returns the fit of two parts that are made and have a clearance.
func measured(diameter, clearance units.Length) fits.FitLimits {
	r, err := fits.Mate(fits.Exact(diameter.Add(clearance)), fits.Exact(diameter))
	if err != nil {
		panic(err)
	}
	return r
}

// FI-05: pistons of 1 1/2 in from 20 to 150 degrees C: an aluminium one closes 2.4
// thou in an iron cylinder when both are hot, 4.5 thou while the cylinder is
// still cold; iron in iron 2.0 thou while it is cold; brass in iron 1.7 thou
// both hot.
func TestPistonsInSteam(t *testing.T) {
	for _, test := range []struct {
		metal           string
		alpha           float64
		bothHot, inHeat float64 // thou that the clearance closes by
	}{{"FI-05, aluminium", 23e-6, 2.4, 4.5}, {"FI-05, cast iron", 10.5e-6, 0, 2.0}, {"FI-05, brass", 19e-6, 1.7, 3.7}} {
		r, err := assembly.Running{
			Diameter: units.Inch(1.5), Inner: expanding("piston", test.alpha), Outer: expanding("cast iron", 10.5e-6), Least: units.Thou(1),
			Room: units.Celsius(20), InnerHot: units.Celsius(150), OuterHot: units.Celsius(150), Fit: measured(units.Inch(1.5), units.Thou(3)),
		}.Solve()
		if err != nil || math.Abs(r.Cold.Min.Sub(r.BothHot.Min).Thou()-test.bothHot) > 0.1 ||
			math.Abs(r.Cold.Min.Sub(r.InnerOnly.Min).Thou()-test.inHeat) > 0.1 || r.Findings.OK() != (test.inHeat < 3) {
			t.Errorf("%s: %+v, %v", test.metal, r, err)
		}
	}
}

// Pistons of three metals in an iron cylinder of 30 mm, from 20 to 140 degrees C.
// (Invented figures.)
func ExampleRunning_Solve() {
	alu, iron, brass := expanding("aluminium", 23e-6), expanding("cast iron", 10.5e-6), expanding("brass", 19e-6)
	piston := assembly.Running{
		Diameter: units.MM(30), Inner: alu, Outer: iron, Least: units.Thou(1),
		Room: units.Celsius(20), InnerHot: units.Celsius(140), OuterHot: units.Celsius(140),
		Fit: measured(units.MM(30), units.MM(0.06)),
	}
	for _, m := range []material.Material{alu, iron, brass} {
		piston.Inner = m
		r, err := piston.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: cold %.1f, both hot %.1f, cylinder still cold %.1f, needs %.1f thou\n",
			m.Name, r.Cold.Min.Thou(), r.BothHot.Min.Thou(), r.InnerOnly.Min.Thou(), r.Needed.Thou())
		for _, f := range r.Findings {
			if f.Severity == finding.Fails {
				fmt.Println(f.Text)
				fmt.Println(strings.Join(f.Remedies, " "))
			}
		}
	}
	// Output:
	// aluminium: cold 2.4, both hot 0.6, cylinder still cold -0.9, needs 4.3 thou
	// It seizes with the inner part hot and the outer one still at room temperature: the parts have 0.060 mm (2.36 thou) of clearance cold and 0.023 mm (0.90 thou) of interference then.
	// Give it 0.048 mm (1.9 thou) more clearance: a shaft of 29.951 mm (1.1792 in) at most.
	// cast iron: cold 2.4, both hot 2.4, cylinder still cold 0.9, needs 2.5 thou
	// brass: cold 2.4, both hot 1.2, cylinder still cold -0.3, needs 3.7 thou
	// It seizes with the inner part hot and the outer one still at room temperature: the parts have 0.060 mm (2.36 thou) of clearance cold and 0.008 mm (0.33 thou) of interference then.
	// Give it 0.034 mm (1.3 thou) more clearance: a shaft of 29.966 mm (1.1797 in) at most. Or warm it through slowly, turning it by hand: with both parts hot it runs.
}

// A cylinder of aluminium with an iron piston shows what a spread of published
// expansions is worth, and that heat can open a fit as well.
func TestRunning(t *testing.T) {
	r, err := assembly.Running{
		Diameter: units.MM(40), Inner: lookup(t, "cast iron"), Outer: lookup(t, "aluminium"),
		Room: units.Celsius(20), InnerHot: units.Celsius(120), OuterHot: units.Celsius(120),
		Fit: measured(units.MM(40), units.MM(0.05)),
	}.Solve()
	if err != nil || r.BothHot.Min.Cmp(r.Cold.Min) <= 0 || r.OuterOnly.Min.Cmp(r.BothHot.Min) <= 0 ||
		r.NeededMax.Cmp(r.Needed) < 0 || len(r.Findings) != 0 || r.Refs.Len() != 2 {
		t.Errorf("%+v, %v", r, err)
	}
	// Worst case by hand: 40 mm x 11.4e-6 x 100 K = 0.0456 mm.
	if got := r.Needed.MM(); math.Abs(got-0.0456) > 1e-9 {
		t.Errorf("needs %.4f mm, want 0.0456", got)
	}
	// Of iron 12e-6 is the most that is printed.
	if got := r.NeededMax.MM(); math.Abs(got-0.048) > 1e-9 {
		t.Errorf("needs up to %.4f mm, want 0.0480", got)
	}
	bush := assembly.Running{
		Diameter: units.MM(10), Inner: lookup(t, "silver steel"), Outer: lookup(t, "gunmetal"), Least: units.MM(0.01),
		Room: units.Celsius(20), InnerHot: units.Celsius(20), OuterHot: units.Celsius(-30),
		Fit: measured(units.MM(10), units.MM(0.012)),
	}
	if r, err = bush.Solve(); err != nil || !has(r.Findings, finding.Caution, "both parts at their working temperatures") {
		t.Error("a bush that is chilled closes on its spindle", r, err)
	}
	// A part that is chilled closes the more, the more its material expands:
	// 10 mm x 50 K x the most that is printed of the bush, and 0.01 mm left.
	most := float64(bush.Outer.Expansion.Max)
	if got := r.NeededMax.MM(); most <= float64(bush.Outer.Expansion.Value) || math.Abs(got-(0.01+10*50*most)) > 1e-9 {
		t.Errorf("needs up to %.4f mm, want %.4f", got, 0.01+10*50*most)
	}
	// Both chilled: while the spindle is still warm the bush has closed on it. With
	// the spindle hot and the bush chilled both add up: 10 mm x (50 x 18.0 + 100 x
	// 10.4) ppm.
	bush.InnerHot = units.Celsius(-30)
	r, err = bush.Solve()
	if err != nil || math.Abs(r.Needed.MM()-(0.01+10*50*18e-6)) > 1e-9 ||
		!has(r.Findings, finding.Caution, "outer part chilled") {
		t.Error(r, err)
	}
	bush.InnerHot = units.Celsius(120)
	r, err = bush.Solve()
	if closes := 10*50*18e-6 + 10*100*10.4e-6; err != nil || math.Abs(r.Needed.MM()-(0.01+closes)) > 1e-9 ||
		math.Abs(r.BothHot.Min.MM()-(0.012-closes)) > 1e-9 {
		t.Error(r, err)
	}
	for name, change := range map[string]func(*assembly.Running){
		"no diameter":   func(r *assembly.Running) { r.Diameter = units.Length{} },
		"no piston":     func(r *assembly.Running) { r.Inner = material.Material{} },
		"no cylinder":   func(r *assembly.Running) { r.Outer = material.Material{} },
		"odd":           func(r *assembly.Running) { r.Inner.Expansion.Max = units.Expansivity(math.NaN()) },
		"no room":       func(r *assembly.Running) { r.Room = 0 },
		"no heat":       func(r *assembly.Running) { r.InnerHot = 0 },
		"no shaft":      func(r *assembly.Running) { r.Fit.Shaft = fits.Limits{} },
		"another fit":   func(r *assembly.Running) { r.Fit = measured(units.MM(25.4), units.MM(0.01)) },
		"less than nil": func(r *assembly.Running) { r.Least = units.MM(-1) },
	} {
		bad := bush
		change(&bad)
		if _, err := bad.Solve(); !errors.Is(err, units.ErrMissing) && !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Without a fit the result says how far heat opens the joint, and judges nothing.
func TestRunningWithoutFit(t *testing.T) {
	r, err := assembly.Running{
		Diameter: units.MM(20), Inner: lookup(t, "cast iron"), Outer: lookup(t, "cast iron"),
		Room: units.Celsius(20), InnerHot: units.Celsius(150), OuterHot: units.Celsius(110), Least: units.MM(0.01),
	}.Solve()
	if err != nil || len(r.Findings) != 0 || r.Cold != (fits.Band{}) {
		t.Errorf("%+v, %v", r, err)
	}
	// 20 mm x 11.4e-6/K x 40, 130 and 90 K by hand.
	for what, test := range map[string]struct {
		got  fits.Band
		want float64
	}{"both": {r.BothHot, -0.00912}, "piston": {r.InnerOnly, -0.02964}, "cylinder": {r.OuterOnly, 0.02052}} {
		if test.got.Min != test.got.Max || math.Abs(test.got.Min.MM()-test.want) > 1e-9 {
			t.Errorf("%s: opens by %v, want %g", what, test.got, test.want)
		}
	}
}

// The loosest classes of the smallest sizes are fits of their size.
func TestRunningTakesLooseFits(t *testing.T) {
	iron := lookup(t, "cast iron")
	for _, name := range []string{"A11/h11", "H11/a11", "H18/a9", "H13/c13"} {
		fit, err := fits.ParseFit(name)
		if err != nil {
			t.Fatal(err)
		}
		nominal := units.MM(1.01)
		limits, err := fit.LimitsFor(nominal)
		if err != nil {
			t.Fatal(err)
		}
		hot := units.Celsius(100)
		if _, err := (assembly.Running{
			Diameter: nominal, Inner: iron, Outer: iron, Room: hot, InnerHot: hot, OuterHot: hot, Fit: limits,
		}).Solve(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What is said of fits of the standard, by the tightest and the loosest parts.
func TestRunningJudges(t *testing.T) {
	for _, test := range []struct {
		fit, outer, inner  string
		outerHot, innerHot float64
		least              float64
		want               string // codes, the worst first
		text, remedy       string
	}{
		// H7/g6 at 10 mm is 5 to 29 um; 10 mm x 23.6e-6/K x 130 K = 30.7 um.
		{"H7/g6", "cast iron", "aluminium", 150, 150, 0, "seizes-hot, air-is-no-proof",
			"the tightest parts have 0.005 mm (0.20 thou) of clearance cold and 0.026 mm (1.01 thou) of interference then. " +
				"The loosest have 0.002 mm (0.07 thou) of interference then.",
			"a shaft of 9.969 mm (0.3924 in) at most."},
		// 10 mm x 30 K x 10.5 ppm are left of 29 um, and 5 um less 3.4 um of the tightest.
		{"H7/g6", "cast iron", "cast iron", 50, 50, 0.003, "tight-hot, air-is-no-proof",
			"the tightest parts have 0.002 mm (0.06 thou) of clearance then, less than the 0.003 mm (0.12 thou) wanted.", "warm it through"},
		{"H7/g6", "cast iron", "cast iron", 50, 50, 0.001, "", "", ""},
		// H7/p6 holds by 0 to 24 um; aluminium opens by 10 mm x (23.6 - 11.4) ppm x 130 K = 16 um.
		{"H7/p6", "aluminium", "cast iron", 150, 150, 0, "loose-hot", "the loosest parts have no clearance cold and 0.016 mm", "a pin"},
		{"H7/s6", "aluminium", "aluminium", 150, 150, 0, "", "", ""},
		{"H7/k6", "mild steel", "mild steel", 80, 80, 0.01, "no-clearance-cold", "0.010 mm (0.39 thou) of interference cold", "clearance fit"},
	} {
		fit, err := fits.ParseFit(test.fit)
		if err != nil {
			t.Fatal(err)
		}
		limits, err := fit.LimitsFor(units.MM(10))
		if err != nil {
			t.Fatal(err)
		}
		r, err := assembly.Running{
			Diameter: units.MM(10), Outer: lookup(t, test.outer), Inner: lookup(t, test.inner), Room: units.Celsius(20),
			OuterHot: units.Celsius(test.outerHot), InnerHot: units.Celsius(test.innerHot),
			Fit: limits, Least: units.MM(test.least),
		}.Solve()
		var codes, texts []string
		for _, f := range r.Findings {
			codes = append(codes, string(f.Code))
			texts = append(texts, f.String())
		}
		text := strings.Join(texts, " ")
		if got := strings.Join(codes, ", "); err != nil || got != test.want ||
			!strings.Contains(text, test.text) || !strings.Contains(text, test.remedy) {
			t.Errorf("%s, %s in %s: %s, %v", test.fit, test.inner, test.outer, r.Findings, err)
		}
	}
}

// A hundred millimetres of iron grow by 0.114 mm from 20 to 120 degrees C.
func ExampleGrowth() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		fmt.Println(err)
		return
	}
	by, err := assembly.Growth(units.MM(100), iron, units.Celsius(120).Sub(units.Celsius(20)))
	fmt.Println(by, err)
	// Output:
	// 0.114 mm <nil>
}

func TestGrowth(t *testing.T) {
	iron := lookup(t, "cast iron")
	if got, err := assembly.Growth(units.MM(100), iron, 100); err != nil || got != units.MM(0.114) {
		t.Error(got, err)
	}
	for _, bad := range []units.TemperatureDifference{units.TemperatureDifference(math.NaN()), 2000, -2000} {
		if _, err := assembly.Growth(units.MM(100), iron, bad); !errors.Is(err, units.ErrOutOfRange) {
			t.Error(bad, err)
		}
	}
	if _, err := assembly.Growth(units.MM(-1), iron, 1); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := assembly.Growth(units.MM(1), material.Material{}, 1); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
}
