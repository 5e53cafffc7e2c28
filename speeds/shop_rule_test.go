package speeds_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

// A workshop sheet's 3/8 in cutter at 100 ft/min: 1067 by 4 V / D, 1019 in truth.
func ExampleShopRule() {
	v, d := 100*units.FootPerMinute, units.InchFraction(3, 8)
	rule, _ := speeds.FourVOverD.SpindleSpeed(v, d)
	exact, _ := speeds.SpindleSpeed(v, d)
	excess, _ := speeds.FourVOverD.Excess(v)
	fmt.Printf("%v: %.0f; exact: %.0f; %.1f %% fast\n", speeds.FourVOverD, rule/units.RevPerMinute,
		exact/units.RevPerMinute, 100*excess)
	// Output: 4 V / D: 1067; exact: 1019; 4.7 % fast
}

func TestShopRules(t *testing.T) {
	f := check.Open(t, "speeds/shop_rules.csv")
	for r := range f.Rows() {
		for _, rule := range speeds.ShopRules() {
			if rule.String() != r.Text("rule") {
				continue
			}
			n, err := rule.SpindleSpeed(parse(t, r.Text("speed")+" "+r.Text("speed_unit")),
				units.MustLength(r.Text("diameter")+" "+r.Text("diameter_unit")))
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("rpm", float64(n/units.RevPerMinute))
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
