package fits_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestInchFits(t *testing.T) {
	f := check.Open(t, "fits/inch.csv")
	for r := range f.Rows() {
		over, upto := units.Inch(r.Float("over_in")), units.Inch(r.Float("upto_in"))
		first := over.Add(units.Picometres(1))
		if over.IsZero() {
			first = upto.Scale(0.5) // below some size the shaft is none
		}
		for _, nominal := range []units.Length{first, upto.Sub(units.Thou(1)), upto} {
			got, err := inchFit(t, r.Text("class")).LimitsFor(nominal)
			if err != nil {
				t.Errorf("%s at %v: %v", r.ID, nominal, err)
				continue
			}
			r.Within("hole_upper", got.Hole.Upper().Thou(), 0)
			r.Within("shaft_upper", got.Shaft.Upper().Thou(), 0)
			r.Within("shaft_lower", got.Shaft.Lower().Thou(), 0)
			r.Within("fit_min", got.Clearance.Min.Thou(), 0)
			r.Within("fit_max", got.Clearance.Max.Thou(), 0)
			if got.Refs.First().Title == "" || !got.Hole.Lower().IsZero() {
				t.Errorf("%s: %+v", r.ID, got)
			}
		}
	}
}

// Two other reprints of the running fits, from other hands than the shipped one.
func TestInchRunningFits(t *testing.T) {
	f := check.Open(t, "fits/inch_running.csv")
	for r := range f.Rows() {
		for _, at := range []string{"over_in", "upto_in"} {
			nominal := units.Inch(r.Float(at))
			if at == "over_in" {
				nominal = nominal.Add(units.Picometres(1))
				if r.Float(at) == 0 {
					nominal = units.Inch(r.Float("upto_in") / 2)
				}
			}
			got, err := inchFit(t, r.Text("class")).LimitsFor(nominal)
			if err != nil {
				t.Errorf("%s at %v: %v", r.ID, nominal, err)
				continue
			}
			for column, got := range map[string]units.Length{
				"hole_upper": got.Hole.Upper(), "shaft_upper": got.Shaft.Upper(), "shaft_lower": got.Shaft.Lower(),
				"fit_min": got.Clearance.Min, "fit_max": got.Clearance.Max,
			} {
				if r.Has(column) {
					r.Within(column, got.Thou(), 0)
				}
			}
		}
	}
}

// Bands are contiguous, limits the right way round, and what the class is
// called is what it does.
func TestInchIdentities(t *testing.T) {
	for _, f := range fits.InchFits() {
		last := fits.InchLimits{}
		reached := false
		for mil := 1; mil <= 8000; mil += 7 {
			got, err := f.LimitsFor(units.Thou(float64(mil)))
			if err != nil {
				if reached && mil < 1000 {
					t.Errorf("%v breaks off at %d thou: %v", f, mil, err)
				}
				continue
			}
			if reached && got.Hole.Tolerance().Cmp(last.Hole.Tolerance()) < 0 {
				t.Errorf("%v at %d thou: hole narrower than below", f, mil)
			}
			reached, last = true, got
			switch name := f.String(); {
			case got.Hole.Tolerance().Sign() <= 0 || got.Shaft.Tolerance().Sign() <= 0:
				t.Errorf("%v at %d thou: %+v", f, mil, got)
			case (name[:2] == "RC" || name[:2] == "LC") && got.Kind != fits.Clearance,
				(name[:2] == "FN") && got.Kind != fits.Interference,
				name[:2] == "LT" && got.Kind == fits.Interference && got.Clearance.Max.Sign() < 0:
				t.Errorf("%v at %d thou is a %v fit", f, mil, got.Kind)
			}
		}
		if !reached || f.Use() == "" {
			t.Errorf("%v has no table or no use", f)
		}
		if back, err := fits.ParseInchFit(strings.ToLower(f.String())); err != nil || back != f {
			t.Errorf("%v came back as %v, %v", f, back, err)
		}
	}
}

func TestInchErrors(t *testing.T) {
	for _, s := range []string{"", "RC10", "RC0", "H7", "XX1", "RC"} {
		if f, err := fits.ParseInchFit(s); !errors.Is(err, units.ErrUnknown) || f != (fits.InchFit{}) {
			t.Errorf("%q: %v, %v", s, f, err)
		}
	}
	for _, test := range []struct {
		fit      string
		inch     float64
		accepted string
	}{
		{"RC4", 0, "over 0.00 in up to"}, {"RC4", -1, "over 0.00 in up to"},
		{"RC4", 20, "over 0.00 in up to 7.09 in"}, {"LT3", 0.24, "over 0.24 in up to"},
		{"FN3", 0.95, "over 0.95 in up to"}, {"LC8", 1.2, "up to 1.19 in"},
	} {
		_, err := inchFit(t, test.fit).LimitsFor(units.Inch(test.inch))
		if !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), test.accepted) {
			t.Errorf("%s at %g in: %v, want %q", test.fit, test.inch, err, test.accepted)
		}
	}
	// A shaft of half a thou less the 0.7 thou of RC4 is none.
	if r, err := inchFit(t, "RC4").LimitsFor(units.Thou(0.5)); !errors.Is(err, units.ErrOutOfRange) ||
		!strings.Contains(err.Error(), "which is no part") {
		t.Error(r, err)
	}
	if _, err := (fits.InchFit{}).LimitsFor(units.Inch(1)); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
	if (fits.InchFit{}).Use() != "" || (fits.InchFit{}).String() != "" {
		t.Error("the zero fit has a name")
	}
}

func inchFit(t testing.TB, s string) fits.InchFit {
	t.Helper()
	f, err := fits.ParseInchFit(s)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func BenchmarkInchFitAt(b *testing.B) {
	f, nominal := inchFit(b, "RC4"), units.Inch(0.75)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.LimitsFor(nominal); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkInchFirstUse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if err := fits.ReadInch(); err != nil {
			b.Fatal(err)
		}
	}
}

// A bearing of 3/4 in.
func ExampleInchFit_LimitsFor() {
	fit, err := fits.ParseInchFit("RC4")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := fit.LimitsFor(units.Inch(0.75))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("hole %s %s\n", r.HoleSymbol, r.Hole.Text(units.Inches, 4))
	fmt.Printf("shaft %s %s\n", r.ShaftSymbol, r.Shaft.Text(units.Inches, 4))
	fmt.Printf("%.1f to %.1f thou, %s\n", r.Clearance.Min.Thou(), r.Clearance.Max.Thou(), r.Refs)
	// Output:
	// hole H8 0.7500 to 0.7512 in
	// shaft f7 0.7484 to 0.7492 in
	// 0.8 to 2.8 thou, Machinery's Handbook, 31st edition, Table 8a p.646-647
}
