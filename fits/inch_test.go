package fits_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func inchFit(t testing.TB, s string) fits.InchFit {
	t.Helper()
	f, err := fits.ParseInchFit(s)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestInchFits(t *testing.T) {
	f := check.Open(t, "fits/inch.csv")
	type place struct{ symbol, range_ string }
	width := map[place]units.Length{} // of holes of one class in one range, which must agree over all fits
	disagree, count := 0, 0
	for r := range f.Rows() {
		count++
		over, upto := units.Inch(r.Float("over_in")), units.Inch(r.Float("upto_in"))
		first := over.Add(units.Picometres(1))
		if over.IsZero() {
			first = upto.Scale(0.5) // below some size the shaft is none
		}
		for _, nominal := range []units.Length{first, upto.Sub(units.Thou(1)), upto} {
			got, err := inchFit(t, r.Text("class")).At(nominal)
			if err != nil {
				t.Errorf("%s at %v: %v", r.ID, nominal, err)
				continue
			}
			r.Within("hole_upper", got.Hole.Upper().Thou(), 0)
			r.Within("shaft_upper", got.Shaft.Upper().Thou(), 0)
			r.Within("shaft_lower", got.Shaft.Lower().Thou(), 0)
			r.Within("fit_min", got.MinClearance.Thou(), 0)
			r.Within("fit_max", got.MaxClearance.Thou(), 0)
			if got.Ref.Title == "" || !got.Hole.Lower().IsZero() {
				t.Errorf("%s: %+v", r.ID, got)
			}
			if nominal == upto && !got.Agrees() {
				disagree++
			}
			if got.HoleSymbol != "" && nominal == upto {
				at := place{got.HoleSymbol, r.Text("over_in") + "-" + r.Text("upto_in")}
				if w, ok := width[at]; ok && w != got.Hole.Tolerance() {
					t.Errorf("%s: hole %v wide, another fit has %v for %s", r.ID, got.Hole.Tolerance(), w, got.HoleSymbol)
				}
				width[at] = got.Hole.Tolerance()
			}
		}
	}
	if count != 293 || disagree != 1 {
		t.Errorf("%d rows, %d that print another fit than their limits; want 293 and 1", count, disagree)
	}
}

// A second reprint of the running fits, from other hands than the shipped one.
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
			got, err := inchFit(t, r.Text("class")).At(nominal)
			if err != nil {
				t.Errorf("%s at %v: %v", r.ID, nominal, err)
				continue
			}
			r.Within("hole_upper", got.Hole.Upper().Thou(), 0)
			r.Within("shaft_upper", got.Shaft.Upper().Thou(), 0)
			r.Within("shaft_lower", got.Shaft.Lower().Thou(), 0)
		}
	}
}

// Bands are contiguous, limits the right way round, and what the class is
// called is what it does.
func TestInchIdentities(t *testing.T) {
	for _, f := range fits.InchFits() {
		last := fits.InchResult{}
		reached := false
		for mil := 1; mil <= 8000; mil += 7 {
			got, err := f.At(units.Thou(float64(mil)))
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
				name[:2] == "LT" && got.Kind == fits.Interference && got.MaxClearance.Sign() < 0:
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

// A bearing of 3/4 in that is to run with one to three thou.
func ExampleChooseInch() {
	best, err := fits.ChooseInch(units.Inch(0.75), fits.Band{Low: units.Thou(1), High: units.Thou(3)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range best[:3] {
		fmt.Printf("%s: %.1f to %.1f thou, %.1f outside; %s\n", c.Fit, c.Result.MinClearance.Thou(), c.Result.MaxClearance.Thou(), c.Outside.Thou(), c.Fit.Use())
	}
	// Output:
	// RC4: 0.8 to 2.8 thou, 0.2 outside; close running: accurate machines at moderate speed and load
	// RC3: 0.8 to 2.1 thou, 0.2 outside; precision running: slow and light, no change of temperature
	// RC5: 1.6 to 3.6 thou, 0.6 outside; medium running: higher speeds, heavy journal loads, or both
}

func TestChooseInch(t *testing.T) {
	for _, size := range []units.Length{units.Inch(20), {}, units.Inch(-1)} {
		if _, err := fits.ChooseInch(size, fits.Band{}); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "over 0 up to 7.09 in") {
			t.Errorf("%v: %v", size, err)
		}
	}
	if _, err := fits.ChooseInch(units.Inch(1), fits.Band{Low: units.Thou(1)}); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	list, err := fits.ChooseInch(units.Inch(1), fits.Band{Low: units.Thou(-3), High: units.Thou(-1)})
	if err != nil || list[0].Result.Kind != fits.Interference {
		t.Error(list[0], err)
	}
	for i, c := range list {
		if i > 0 && c.Outside.Cmp(list[i-1].Outside) < 0 {
			t.Errorf("%v stands behind %v", c.Fit, list[i-1].Fit)
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
	}{{"RC4", 0, "over 0.00 in up to"}, {"RC4", -1, "over 0.00 in up to"}, {"RC4", 20, "over 0.00 in up to 7.09 in"}, {"LT3", 0.24, "over 0.24 in up to"}, {"FN3", 0.95, "over 0.95 in up to"}, {"LC8", 1.2, "up to 1.19 in"}} {
		_, err := inchFit(t, test.fit).At(units.Inch(test.inch))
		if !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), test.accepted) {
			t.Errorf("%s at %g in: %v, want %q", test.fit, test.inch, err, test.accepted)
		}
	}
	// A shaft of half a thou less the 0.7 thou of RC4 is none.
	if r, err := inchFit(t, "RC4").At(units.Thou(0.5)); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "which is no part") {
		t.Error(r, err)
	}
	if _, err := (fits.InchFit{}).At(units.Inch(1)); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
	if (fits.InchFit{}).Use() != "" || (fits.InchFit{}).String() != "" {
		t.Error("the zero fit has a name")
	}
}

// The misprints that were found, each computed by the package.
func TestErrata(t *testing.T) {
	um := func(c string, mm float64, upper bool) float64 {
		l, err := class(t, c).At(units.MM(mm))
		if err != nil {
			t.Fatal(err)
		}
		if upper {
			return l.Upper().Micron()
		}
		return l.Lower().Micron()
	}
	lc8, err := inchFit(t, "LC8").At(units.Inch(0.12))
	if err != nil || lc8.PrintedMax != units.Thou(2) {
		t.Fatal(lc8.PrintedMax, err) // as printed, beside what the limits give
	}
	computed := map[string]float64{
		"d10-30-upper": um("d10", 30, true), "f7-10-upper": um("f7", 10, true), "f8-3-upper": um("f8", 3, true),
		"jindal-30-hole": um("H7", 30, true), "jindal-30-shaft-upper": um("j6", 30, true), "jindal-30-shaft-lower": um("j6", 30, false),
		"a13-355-upper": um("A13", 355, true), "e8-120-upper": um("E8", 120, true), "r10-30-upper": um("R10", 30, true), "f9-315-lower": um("f9", 315, false),
		"g-10-upper": um("g6", 10, true), "m6-315-upper": um("M6", 315, true), "j6-65-lower": um("j6", 65, false), "u-225": um("u6", 225, false), "x-400": um("x6", 400, false), "lc8-0.12": lc8.MaxClearance.Thou(),
	}
	for _, c := range []string{"f5", "g5", "h5"} {
		for _, mm := range []string{"800", "1000", "1250", "1600", "2000"} {
			computed[c+"-"+mm+"-lower"] = um(c, units.MustLength(mm+" mm").MM(), false)
		}
	}
	check.Errata(t, "fits", computed)
}

func TestRounding(t *testing.T) {
	f := check.Open(t, "fits/rounding.csv")
	for r := range f.Rows() {
		size := units.MustLength(r.Text("size") + " " + r.Text("unit"))
		unit, err := units.ParseLengthUnit(r.Text("step_unit"))
		if err != nil {
			t.Fatal(err)
		}
		mode, err := units.ParseRoundMode(r.Text("mode"))
		if err != nil {
			t.Fatal(err)
		}
		got, err := size.Round(units.MustLength(r.Text("step")+" "+unit.String()), mode)
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		r.Within("rounded", got.Ratio(units.MustLength("1 "+unit.String())), 0)
	}
	// The same through the limits: 11 +/- 0.3 mm to three places of an inch.
	l := fits.Limits{Nominal: units.MM(11), Min: units.MM(10.7), Max: units.MM(11.3)}
	if got, err := l.RoundInward(units.Thou(1)); err != nil || got.Min != units.Inch(0.422) || got.Max != units.Inch(0.444) || got.Lost != l.Tolerance().Sub(units.Thou(22)) {
		t.Error(got, err)
	}
}

func BenchmarkInchFitAt(b *testing.B) {
	f, nominal := inchFit(b, "RC4"), units.Inch(0.75)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.At(nominal); err != nil {
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

// A struct with a class that was left out survives JSON: the zero class of
// Reaming.Hole stands for H7.
func TestBlankClassReadsBack(t *testing.T) {
	data, err := json.Marshal(fits.Reaming{Shaft: fits.Exact(units.MM(6))})
	if err != nil {
		t.Fatal(err)
	}
	h8, err := fits.ParseClass("H8")
	if err != nil {
		t.Fatal(err)
	}
	back := fits.Reaming{Hole: h8}
	if err := json.Unmarshal(data, &back); err != nil || back.Hole != (fits.Class{}) || back.Shaft != fits.Exact(units.MM(6)) {
		t.Errorf("%s came back as %+v, %v", data, back, err)
	}
	fit := fits.InchFits()[0]
	if err := fit.UnmarshalText(nil); err != nil || fit != (fits.InchFit{}) {
		t.Errorf("blank is %v, %v", fit, err)
	}
}
