package fits_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// lengths are compared by what they are.
var lengths = cmpopts.EquateComparable(units.Length{})

func TestRoundInwardAndGauges(t *testing.T) {
	l, err := class(t, "f7").LimitsFor(units.MM(9.5)) // 9.472 to 9.487
	if err != nil {
		t.Fatal(err)
	}
	got, err := l.RoundInward(units.MM(0.01))
	want := fits.Measurable{
		Limits: fits.Limits{Nominal: units.MM(9.5), Min: units.MM(9.48), Max: units.MM(9.48), Refs: l.Refs},
		Step:   units.MM(0.01), Lost: units.Micron(15),
	}
	if err != nil || l.Refs.IsZero() || !cmp.Equal(got, want, lengths) {
		t.Errorf("%+v, want %+v (%v)", got, want, err)
	}
	if _, err := l.RoundInward(units.MM(0.1)); !errors.Is(err, units.ErrOutOfRange) {
		t.Error("0.1 mm measures a tolerance of 0.015 mm", err)
	}
	if g, err := l.Gauges(fits.Shaft); err != nil || g.Go != units.MM(9.487) || g.NotGo != units.MM(9.472) {
		t.Error(g, err)
	}
	if g, err := l.Gauges(fits.Hole); err != nil || g.Go != units.MM(9.472) || g.NotGo != units.MM(9.487) {
		t.Error(g, err)
	}
	if _, err := l.Gauges(0); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
	if l.Contains(l.Max.Add(units.Picometres(1))) || !l.Contains(l.Max) || !l.Contains(l.Min) {
		t.Error("a part on a limit is good, beyond it is not")
	}
}

// 6.000 mm is 0.23622 in and 6.018 mm is 0.23693 in: rounded to the nearest
// tenth of a thou the first would be below the limit.
func TestLimitsText(t *testing.T) {
	for _, test := range []struct {
		class, size string
		unit        units.LengthUnit
		places      int
		want        string
	}{
		{"H8", "6 mm", units.Inches, 4, "0.2363 to 0.2369 in"},
		{"f7", "6 mm", units.Millimetres, 3, "5.978 to 5.990 mm"},
		{"f7", "6 mm", units.Millimetres, 2, "5.98 to 5.99 mm"},
		{"js01", "1.5 mm", units.Millimetres, 3, "1.500 to 1.500 mm"},
		{"h01", "1.5 mm", units.Inches, 4, "0.05905 to 0.05905 in"}, // 1.4997 to 1.5 mm is 0.059043 to 0.059055 in
		{"H7", "34 mm", units.Micrometres, 0, "34000 to 34025 um"},
	} {
		l, err := class(t, test.class).LimitsFor(units.MustLength(test.size))
		if err != nil {
			t.Error(err)
			continue
		}
		if got := l.Text(test.unit, test.places); got != test.want {
			t.Errorf("%s at %s: %q, want %q", test.class, test.size, got, test.want)
		}
	}
	if got := fits.Exact(units.Inch(0.5)).Text(units.Millimetres, 0); got != "12.7 to 12.7 mm" {
		t.Error(got)
	}
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
	if got, err := l.RoundInward(units.Thou(1)); err != nil || got.Min != units.Inch(0.422) ||
		got.Max != units.Inch(0.444) || got.Lost != l.Tolerance().Sub(units.Thou(22)) {
		t.Error(got, err)
	}
}

// A drawing says 11 +/- 0.3 mm, and the caliper reads thousandths of an inch.
func ExampleLimits_RoundInward() {
	drawn := fits.Limits{Nominal: units.MM(11), Min: units.MM(10.7), Max: units.MM(11.3)}
	m, err := drawn.RoundInward(units.Thou(1))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s, %.0f of %.0f um lost\n", m.Text(units.Inches, 3), m.Lost.Micron(), drawn.Tolerance().Micron())
	_, err = drawn.RoundInward(units.MM(2))
	fmt.Println(errors.Is(err, units.ErrOutOfRange))
	// Output:
	// 0.422 to 0.444 in, 41 of 600 um lost
	// true
}

// The plug gauge of a reamed hole, and the gap gauge of its pin.
func ExampleLimits_Gauges() {
	fit, err := fits.ParseSizedFit("6H7/h6")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := fit.Limits()
	if err != nil {
		fmt.Println(err)
		return
	}
	plug, _ := r.Hole.Gauges(fits.Hole)
	gap, _ := r.Shaft.Gauges(fits.Shaft)
	fmt.Println(plug.Go, plug.NotGo)
	fmt.Println(gap.Go, gap.NotGo)
	// Output:
	// 6 mm 6.012 mm
	// 6 mm 5.992 mm
}

// Sizes that no sum can hold are refused where they come in, and do not panic.
func TestEndlessSizes(t *testing.T) {
	endless := units.Picometres(math.MaxInt64)
	least := units.Picometres(math.MinInt64)
	limits := fits.Limits{Nominal: units.MM(1), Min: units.MM(1), Max: endless}
	reaming := fits.Reaming{Reamers: gauge.Metric(), Shaft: limits}
	for name, call := range map[string]func() error{
		"a shaft":  func() error { _, err := reaming.Choose(); return err },
		"a band":   func() error { return fits.Band{Min: least}.Validate() },
		"a choice": func() error { _, err := fits.Choose(units.MM(5), fits.Band{Max: endless}, fits.HoleBasis); return err },
		"an inch fit": func() error {
			_, err := fits.ChooseInch(units.MM(5), fits.Band{Min: least})
			return err
		},
		"a chain": func() error { _, err := fits.Stack([]fits.Link{{Size: limits, Subtract: true}}); return err },
		"a rule": func() error {
			_, err := fits.Rule{ShareMax: math.MaxFloat64}.Allowance(units.MM(5))
			return err
		},
		"a rule without a number": func() error {
			_, err := fits.Rule{ShareMin: math.NaN()}.Allowance(units.MM(5))
			return err
		},
	} {
		var bad *units.ArgumentError
		if err := call(); !errors.As(err, &bad) || bad.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
