package speeds

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

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
	TenThousandOverD                     // n = 10,000 / D, D in mm, for HSS drills in mild steel: V is always 31.4 m/min
)

var shopRuleNames = names.Set{
	Package: "speeds", Type: "ShopRule", Field: "shop rule",
	Texts: []string{"", "4 V / D", "3.82 V / D", "320 V / D", "10,000 / D"},
}

// ShopRules returns all of them, in order.
func ShopRules() []ShopRule { return sequence[ShopRule](len(shopRuleNames.Texts)) }

// String returns the rule as the shop writes it: "4 V / D".
func (r ShopRule) String() string { return shopRuleNames.Text(int(r)) }

// ParseShopRule returns the rule that is written so; see [ShopRule.String].
// Another text is a [*units.ParseError] that lists the accepted ones.
func ParseShopRule(s string) (ShopRule, error) {
	v, err := shopRuleNames.Value(s)
	return ShopRule(v), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text.
func (r ShopRule) MarshalText() ([]byte, error) { return shopRuleNames.Marshal(int(r)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (r *ShopRule) UnmarshalText(text []byte) error { return names.Unmarshal(&shopRuleNames, r, text) }

// SpindleSpeed returns what the rule gives, which is not what the function
// [SpindleSpeed] gives; 10,000 / D does not look at the cutting speed. Errors are
// those of that function.
func (r ShopRule) SpindleSpeed(v units.Speed, diameter units.Length) (units.RotationalSpeed, error) {
	if _, err := SpindleSpeed(v, diameter); err != nil {
		return 0, err
	}
	switch r {
	case FourVOverD:
		return units.RotationalSpeed(4*v.In(units.FootPerMinute)/diameter.Inch()) * units.RevPerMinute, nil
	case Rule382:
		return units.RotationalSpeed(3.82*v.In(units.FootPerMinute)/diameter.Inch()) * units.RevPerMinute, nil
	case Rule320:
		return units.RotationalSpeed(320*v.In(units.MetrePerMinute)/diameter.MM()) * units.RevPerMinute, nil
	case TenThousandOverD:
		return units.RotationalSpeed(10000/diameter.MM()) * units.RevPerMinute, nil
	}
	return 0, shopRuleNames.Unknown(int(r))
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
