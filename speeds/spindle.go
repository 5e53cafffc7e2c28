package speeds

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
)

// SpindleSpeed returns the rotational speed at which a diameter has the given
// surface speed.
//
//	n = v / (pi d)      n = 1000 V / (pi d), V in m/min, d in mm
//	                    n = 12 V / (pi d), V in ft/min, d in inches
//
// v is the surface speed, d the diameter that governs ([Operation.GoverningDiameter]).
// Any diameter and speed above zero; others are an [*units.ArgumentError].
// The formula is geometry and exact; printed tables that used pi = 3.14 lie
// 0.05 % above it. See the Example.
func SpindleSpeed(v units.Speed, diameter units.Length) (units.RotationalSpeed, error) {
	if err := positive("cutting speed", v); err != nil {
		return 0, err
	}
	if diameter.Sign() <= 0 {
		return 0, badDiameter(diameter)
	}
	return units.RotationalSpeed(2 * float64(v) / diameter.Metres()), nil // rad/s
}

// CuttingSpeed returns the surface speed of a diameter at a rotational speed:
//
//	v = pi d n          V = 0.2618 d n, V in ft/min, d in inches
//
// It is the inverse of [SpindleSpeed], with the same limits.
func CuttingSpeed(n units.RotationalSpeed, diameter units.Length) (units.Speed, error) {
	if err := positive("spindle speed", n); err != nil {
		return 0, err
	}
	if diameter.Sign() <= 0 {
		return 0, badDiameter(diameter)
	}
	return units.Speed(float64(n) * diameter.Metres() / 2), nil
}

func badDiameter(d units.Length) error {
	return bad("diameter", d.String(), "", "a diameter above zero", units.ErrOutOfRange)
}

func positive[Q arg.Quantity](field string, v Q) error { return arg.Positive("speeds", field, v) }

// A ShopRule is a way to work out a spindle speed in the head, in place of 12/pi
// = 3.8197 (inches) or 1000/pi = 318.31 (metric). A rule with 3.28 in it is a
// slip: 3.28 is the number of feet in a metre, and gives a speed 14 % low where
// 3.82 was meant.
type ShopRule int

// The rules of the shop.
const (
	FourVOverD       ShopRule = iota + 1 // n = 4 V / D, V in ft/min, D in inches: 4.7 % fast
	Rule382                              // n = 3.82 V / D, V in ft/min, D in inches: 0.008 % fast
	Rule320                              // n = 320 V / D, V in m/min, D in mm: 0.53 % fast
	TenThousandOverD                     // n = 10,000 / D, D in mm, for HSS drills in mild steel: V is 31.4 m/min whatever the metal
)

var shopRuleNames = names.Set{Package: "speeds", Type: "ShopRule", Field: "shop rule", Texts: []string{"", "4 V / D", "3.82 V / D", "320 V / D", "10,000 / D"}}

// ShopRules returns all of them, in order.
func ShopRules() []ShopRule { return sequence[ShopRule](len(shopRuleNames.Texts)) }

// String returns the rule as the shop writes it: "4 V / D".
func (r ShopRule) String() string { return shopRuleNames.Text(int(r)) }

// ParseShopRule returns the rule that is written so; see [ShopRule.String].
// Another text is an [*units.ArgumentError] that lists the accepted ones.
func ParseShopRule(s string) (ShopRule, error) {
	v, err := shopRuleNames.Value(s)
	return ShopRule(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (r ShopRule) MarshalText() ([]byte, error) { return shopRuleNames.Marshal(int(r)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (r *ShopRule) UnmarshalText(text []byte) error { return names.Unmarshal(&shopRuleNames, r, text) }

// SpindleSpeed returns what the rule gives, which is not what [SpindleSpeed]
// gives; 10,000 / D does not look at the cutting speed. Errors are those of
// [SpindleSpeed].
func (r ShopRule) SpindleSpeed(v units.Speed, diameter units.Length) (units.RotationalSpeed, error) {
	if _, err := SpindleSpeed(v, diameter); err != nil {
		return 0, err
	}
	switch r {
	case FourVOverD:
		return units.RotationalSpeed(4*float64(v/units.FootPerMinute)/diameter.Inch()) * units.RevPerMinute, nil
	case Rule382:
		return units.RotationalSpeed(3.82*float64(v/units.FootPerMinute)/diameter.Inch()) * units.RevPerMinute, nil
	case Rule320:
		return units.RotationalSpeed(320*float64(v/units.MetrePerMinute)/diameter.MM()) * units.RevPerMinute, nil
	case TenThousandOverD:
		return units.RotationalSpeed(10000/diameter.MM()) * units.RevPerMinute, nil
	}
	return 0, bad("shop rule", r.String(), "", "4 V / D, 3.82 V / D, 320 V / D, 10,000 / D", units.ErrUnknown)
}

// Excess returns how much faster the rule runs than the exact formula, as a
// share of it: 0.047 for 4 V / D. For 10,000 / D, which fixes the cutting speed
// at 10 pi m/min, it depends on the speed wanted. Errors are those of
// [SpindleSpeed].
func (r ShopRule) Excess(v units.Speed) (float64, error) {
	d := units.MM(10) // any diameter: it cancels
	rule, err := r.SpindleSpeed(v, d)
	if err != nil {
		return 0, err
	}
	exact, err := SpindleSpeed(v, d)
	return float64(rule/exact) - 1, err
}
