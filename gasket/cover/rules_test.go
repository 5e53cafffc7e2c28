package cover

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Lobben's rule lies 6 percent below the clamped plate, from which it departs by
// the root of 8/9; the other is nearly the same.
func TestHeadRules(t *testing.T) {
	f := check.Open(t, "gasket/cover/head_rules.csv")
	for r := range f.Rows() {
		d, p, s := units.Inch(r.Float("diameter_in")), units.Pressure(r.Float("pressure_psi"))*units.PSI, units.Pressure(r.Float("stress_psi"))*units.PSI
		rules, err := HeadRules(d, p, s)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("thickness_in", rules[0].Thickness.Inch())
		_, clamped, err := Round{Diameter: d, Poisson: 0.3}.Solve(p, s)
		if err != nil || math.Abs(rules[0].Thickness.Ratio(clamped)-math.Sqrt(8.0/9)) > 1e-9 {
			t.Errorf("%s: %v, clamped %v, %v", r.ID, rules[0].Thickness, clamped, err)
		}
		// by hand: 30 sqrt(0.1 * 100/s)
		if want := 30 * math.Sqrt(10/r.Float("stress_psi")); math.Abs(rules[1].Thickness.Inch()-want) > 1e-9 {
			t.Errorf("%s: %v, want %g in", r.ID, rules[1].Thickness, want)
		}
	}
}

func TestRulesRefuses(t *testing.T) {
	second := check.Only
	check.Refuses(t, "rules without stress", second(HeadRules(units.MM(30), 1, 0)), units.ErrOutOfRange, "stress allowed")
}
