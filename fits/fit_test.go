package fits_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The limits that the books work out: a loose running fit of 34 mm, 50 H8/g7
// and 50 H7/s6, and the cells of the tables that formulas miss.
//
// Shigley's Mechanical Engineering Design, 9th edition, example 7-7, p. 398;
// Jindal, Machine Design, example 4-3, p. 113; Bhandari, Design of Machine
// Elements, example 3.3; ISO 286-2 limits as reprinted (M8, N8, u6).
func ExampleFit_handbooks() {
	for _, s := range []string{"34 H11/c11", "50 H8/g7", "50 H7/s6"} {
		fit, _ := fits.ParseSizedFit(s)
		r, _ := fit.Limits()
		fmt.Printf(
			"%s: %s to %s in %s to %s, %s fit, %s to %s\n", s, r.Shaft.Min, r.Shaft.Max, r.Hole.Min, r.Hole.Max,
			r.Kind, r.Clearance.Min, r.Clearance.Max,
		)
	}
	for _, s := range []string{"5M8", "150N8", "500u6"} {
		c, _ := fits.ParseSizedClass(s)
		l, _ := c.Limits()
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

func TestPreferredExamples(t *testing.T) {
	f := check.Open(t, "fits/preferred.csv")
	for r := range f.Rows() {
		if r.Optional("note") == "misprint" {
			r.Skip("misprint, stands in errata.csv")
			continue
		}
		unit, nominal := units.MM, units.MM(r.Float("nominal"))
		tolerance := 0.0
		if r.Text("unit") == "inch" {
			// The textbook's inch table is the metric one rounded to a
			// ten-thousandth, and its range up to 2.00 in is that up to 50 mm.
			// 50.8 mm is in the next one and has wider limits.
			unit, nominal, tolerance = units.Inch, units.MM(50), 0.00005
		}
		fit, err := fits.ParseFit(r.Text("hole_class") + "/" + r.Text("shaft_class"))
		if err != nil {
			t.Fatal(err)
		}
		got, err := fit.LimitsFor(nominal)
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		value := func(l units.Length) float64 { return l.MM() / unit(1).MM() }
		r.Within("hole_upper", value(got.Hole.Upper()), tolerance)
		r.Within("hole_lower", value(got.Hole.Lower()), tolerance)
		r.Within("shaft_upper", value(got.Shaft.Upper()), tolerance)
		r.Within("shaft_lower", value(got.Shaft.Lower()), tolerance)
		r.Within("fit_min", value(got.Clearance.Min), 2*tolerance)
		r.Within("fit_max", value(got.Clearance.Max), 2*tolerance)
		// From the printed limits of both parts alone: each a millionth of the unit off at the most.
		size := func(column string) units.Length { return nominal.Add(unit(r.Float(column))) }
		hole := fits.Limits{Nominal: nominal, Min: size("hole_lower"), Max: size("hole_upper")}
		shaft := fits.Limits{Nominal: nominal, Min: size("shaft_lower"), Max: size("shaft_upper")}
		mated, errMate := fits.Mate(hole, shaft)
		loose, errLoose := fits.Measured(hole.Max, shaft.Min)
		tight, errTight := fits.Measured(hole.Min, shaft.Max)
		gauges, errGauges := hole.Gauges(fits.Hole)
		band := fits.Band{Min: unit(r.Float("fit_min")), Max: unit(r.Float("fit_max"))}
		made, errMade := hole.MakeMate(fits.Hole, band)
		if err := errors.Join(errMate, errLoose, errTight, errGauges, errMade); err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		const hair = 1e-6
		r.Within("fit_min", value(mated.Clearance.Min), hair)
		r.Within("fit_max", value(mated.Clearance.Max), hair)
		r.Within("fit_min", value(tight.Clearance), hair)
		r.Within("fit_max", value(loose.Clearance), hair)
		r.Within("shaft_upper", value(made.Shaft.Upper()), hair)
		r.Within("shaft_lower", value(made.Shaft.Lower()), hair)
		r.Within("hole_lower", value(gauges.Go.Sub(nominal)), hair)
		r.Within("hole_upper", value(gauges.NotGo.Sub(nominal)), hair)
		mean := (r.Float("fit_min") + r.Float("fit_max")) / 2
		between, sizes := value(mated.MeanClearance()), value(hole.Mean().Sub(shaft.Mean()))
		if math.Abs(between-mean) > hair || math.Abs(sizes-mean) > hair {
			t.Errorf("%s: mean clearance %v, %v by the printed ends", r.ID, between, mean)
		}
		if found := loose.CheckWanted(band); len(found) != 0 {
			t.Errorf("%s: the loosest parts that are printed: %v", r.ID, found)
		}
	}
}

func TestMate(t *testing.T) {
	hole, shaft := fits.Exact(units.MM(10)), fits.Limits{Nominal: units.MM(10), Min: units.MM(9.99), Max: units.MM(10.01)}
	got, err := fits.Mate(hole, shaft)
	if err != nil || got.Kind != fits.Transition || got.Clearance.Min != units.Micron(-10) ||
		got.Clearance.Max != units.Micron(10) || !got.MeanClearance().IsZero() {
		t.Error(got, err)
	}
	for _, bad := range []fits.Limits{{}, {Min: units.MM(2), Max: units.MM(1)}, {Min: units.MM(-1), Max: units.MM(1)}} {
		if _, err := fits.Mate(bad, shaft); !errors.Is(err, units.ErrOutOfRange) {
			t.Error(bad, err)
		}
		if _, err := fits.Mate(hole, bad); !errors.Is(err, units.ErrOutOfRange) {
			t.Error(bad, err)
		}
	}
	if _, err := (fits.Fit{}).LimitsFor(units.MM(10)); err == nil {
		t.Error("the zero fit has limits")
	}
}

func BenchmarkFitAt(b *testing.B) {
	fit, err := fits.ParseSizedFit("25H7/g6")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := fit.Limits(); err != nil {
			b.Fatal(err)
		}
	}
}

// A reamed hole that measures 8.01 mm and a bar of 7.985 mm.
func ExampleMate() {
	r, err := fits.Mate(fits.Exact(units.MM(8.01)), fits.Exact(units.MM(7.985)))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Kind, r.Clearance.Min)
	// Output:
	// clearance 0.025 mm
}

func ExampleFit_Preferred() {
	fit, err := fits.ParseFit("H7/g6")
	if err != nil {
		fmt.Println(err)
		return
	}
	p, ok := fit.Preferred()
	fmt.Println(ok, p.Name)
	// Output:
	// true sliding
}

// Some limits are from memory, and the tightest parts of a force fit strain mild steel.
func ExampleFitLimits_Check() {
	for _, of := range []string{"LC2", "RC4", "FN2"} {
		fit, err := fits.ParseInchFit(of)
		if err != nil {
			fmt.Println(err)
			return
		}
		r, err := fit.LimitsFor(units.Inch(1))
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, f := range r.Check() {
			fmt.Printf("%s: %s %s\n", of, f.Severity, f.Text)
		}
	}
	// Output:
	// LC2: note Figures behind these limits are from memory.
	// FN2: note The tightest parts have an interference of 0.048 mm (1.90 thou), 1.9 thou per inch: a hub of mild steel gives at its bore from 0.026 mm (1.01 thou) and then grips less than a stiff one.
}
