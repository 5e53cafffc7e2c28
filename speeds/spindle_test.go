package speeds_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
	"pgregory.net/rapid"
)

// A 5 in wheel at 60 ft/min: Jones, Turning and Boring (1914), rules for
// calculating cutting speeds, gives 46.
func ExampleSpindleSpeed_jones() {
	n, err := speeds.SpindleSpeed(60*units.FootPerMinute, units.Inch(5))
	fmt.Printf("%.1f rev/min %v\n", n/units.RevPerMinute, err)
	// Output: 45.8 rev/min <nil>
}

func TestFindingText(t *testing.T) {
	f := speeds.Finding{Severity: speeds.Stop, Text: "the work does not swing", Remedies: []string{"raising blocks", "a larger lathe"}}
	if got, want := f.String(), "stop: the work does not swing; remedies: raising blocks; a larger lathe"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	f = speeds.Finding{Severity: speeds.Note, Text: "mind the tap", Ref: source.Ref{Kind: source.CommonPractice}}
	if got, want := f.String(), "note: mind the tap (common practice)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A workshop sheet's 3/8 in cutter at 100 ft/min: 1067 by 4 V / D, 1019 in truth.
func ExampleShopRule() {
	v, d := 100*units.FootPerMinute, units.InchFraction(3, 8)
	rule, _ := speeds.FourVOverD.SpindleSpeed(v, d)
	exact, _ := speeds.SpindleSpeed(v, d)
	excess, _ := speeds.FourVOverD.Excess(v)
	fmt.Printf("%v: %.0f; exact: %.0f; %.1f %% fast\n", speeds.FourVOverD, rule/units.RevPerMinute, exact/units.RevPerMinute, 100*excess)
	// Output: 4 V / D: 1067; exact: 1019; 4.7 % fast
}

func parse(t *testing.T, speed string) units.Speed {
	t.Helper()
	v, err := units.ParseSpeed(speed)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestSpindleSpeed(t *testing.T) {
	f := check.Open(t, "speeds/spindle.csv")
	for r := range f.Rows() {
		n, err := speeds.SpindleSpeed(parse(t, r.Text("speed")+" "+r.Text("speed_unit")), units.MustLength(r.Text("diameter")+" "+r.Text("diameter_unit")))
		if err != nil {
			t.Fatal(err)
		}
		compare(r, "rpm", float64(n/units.RevPerMinute))
	}
}

// compare uses the tolerance of the row where it has one.
func compare(r *check.Row, column string, got float64) {
	if r.Has("tolerance") {
		r.Within(column, got, r.Float("tolerance"))
		return
	}
	r.Compare(column, got)
}

func TestCuttingSpeed(t *testing.T) {
	f := check.Open(t, "speeds/surface_speed.csv")
	for r := range f.Rows() {
		v, err := speeds.CuttingSpeed(units.RotationalSpeed(r.Float("rpm"))*units.RevPerMinute, units.MustLength(r.Text("diameter")+" "+r.Text("diameter_unit")))
		if err != nil {
			t.Fatal(err)
		}
		compare(r, "speed", float64(v/parse(t, "1 "+r.Text("unit"))))
	}
}

func TestShopRules(t *testing.T) {
	f := check.Open(t, "speeds/shop_rules.csv")
	for r := range f.Rows() {
		for _, rule := range speeds.ShopRules() {
			if rule.String() != r.Text("rule") {
				continue
			}
			n, err := rule.SpindleSpeed(parse(t, r.Text("speed")+" "+r.Text("speed_unit")), units.MustLength(r.Text("diameter")+" "+r.Text("diameter_unit")))
			if err != nil {
				t.Fatal(err)
			}
			compare(r, "rpm", float64(n/units.RevPerMinute))
		}
	}
	// The errors that the documentation states: 4 pi/12 - 1 and so on.
	for _, tt := range []struct {
		rule speeds.ShopRule
		want float64
	}{
		{speeds.FourVOverD, math.Pi/3 - 1},
		{speeds.Rule382, 3.82*math.Pi/12 - 1},
		{speeds.Rule320, 0.32*math.Pi - 1},
		{speeds.TenThousandOverD, 10*math.Pi/30 - 1}, // against 30 m/min
	} {
		got, err := tt.rule.Excess(30 * units.MetrePerMinute)
		if err != nil || math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%v: excess %v, %v; want %v", tt.rule, got, err, tt.want)
		}
	}
	for _, rule := range speeds.ShopRules() {
		text, err := rule.MarshalText()
		var back speeds.ShopRule
		if err != nil || back.UnmarshalText(text) != nil || back != rule {
			t.Errorf("%s came back as %v, %v", text, back, err)
		}
		if back, err := speeds.ParseShopRule(rule.String()); err != nil || back != rule {
			t.Errorf("%v is %v, %v", rule, back, err)
		}
	}
	if _, err := speeds.ParseShopRule("5 V / D"); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("5 V / D: %v", err)
	}
	if _, err := speeds.ShopRule(0).SpindleSpeed(1, units.MM(1)); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("no rule: %v", err)
	}
}

func TestSpindleSpeedRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		v    units.Speed
		d    units.Length
		want error
	}{
		{"no diameter", 1, units.Length{}, units.ErrOutOfRange},
		{"negative diameter", 1, units.MM(-5), units.ErrOutOfRange},
		{"no speed", 0, units.MM(5), units.ErrOutOfRange},
		{"negative speed", -1, units.MM(5), units.ErrOutOfRange},
		{"not a number", units.Speed(math.NaN()), units.MM(5), units.ErrNotFinite},
		{"endless", units.Speed(math.Inf(1)), units.MM(5), units.ErrNotFinite},
	} {
		n, err := speeds.SpindleSpeed(tt.v, tt.d)
		var argument *units.ArgumentError
		if n != 0 || !errors.Is(err, tt.want) || !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("SpindleSpeed, %s: %v, %v", tt.name, n, err)
		}
		v, err := speeds.CuttingSpeed(units.RotationalSpeed(tt.v), tt.d)
		if v != 0 || !errors.Is(err, tt.want) {
			t.Errorf("CuttingSpeed, %s: %v, %v", tt.name, v, err)
		}
	}
}

func TestSpindleSpeedInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := units.Speed(rapid.Float64Range(1e-3, 100).Draw(t, "v"))
		d := units.Micron(float64(rapid.IntRange(50, 2_000_000).Draw(t, "d")))
		n, err := speeds.SpindleSpeed(v, d)
		if err != nil {
			t.Fatal(err)
		}
		back, err := speeds.CuttingSpeed(n, d)
		if err != nil || math.Abs(float64(back/v)-1) > 1e-14 {
			t.Fatalf("%v on %v: %v and back %v, %v", v, d, n, back, err)
		}
		twice, _ := speeds.SpindleSpeed(v, d.Scale(2))
		if math.Abs(float64(n/twice)-2) > 1e-12 {
			t.Fatalf("twice the diameter: %v and %v", n, twice)
		}
	})
}
