package joint

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// EndForce returns the force with which a pressure lifts a cover.
//
//	F = p A
//
// p is the pressure above that outside, zero or more, and A the area that it can
// reach, above zero: to the studs, if the gasket may leak under the cover. Anything
// else is an error. Mechanics; every textbook.
func EndForce(pressure units.Pressure, area units.Area) (units.Force, error) {
	if err := accept(number{"pressure", float64(pressure), pressure.String(), false}, number{"area under pressure", float64(area), area.String(), true}); err != nil {
		return 0, err
	}
	return units.Force(float64(pressure) * float64(area)), nil
}

// A WidthRule says how the effective width of a wide gasket is reckoned. The
// code gives it twice, and the two do not quite agree.
type WidthRule int

// The rules, with b0 half the contact width of a flat gasket.
const (
	InchRule   WidthRule = iota // b = b0 up to 1/4 in, then sqrt(b0)/2 in inches
	MetricRule                  // b = b0 up to 6 mm, then 2.5 sqrt(b0) in millimetres
)

var ruleNames = names.Set{Package: "joint", Type: "WidthRule", Field: "rule for the effective width", Texts: []string{"inch", "metric"}}

// String returns "inch" or "metric".
func (r WidthRule) String() string { return ruleNames.Text(int(r)) }

// ParseWidthRule returns the rule of that name, in capitals or not; see
// [WidthRule.String]. Another text is an [*units.ArgumentError] that lists the
// accepted ones.
func ParseWidthRule(name string) (WidthRule, error) {
	v, err := ruleNames.Value(name)
	return WidthRule(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (r WidthRule) MarshalText() ([]byte, error) { return ruleNames.Marshal(int(r)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (r *WidthRule) UnmarshalText(text []byte) error { return names.Unmarshal(&ruleNames, r, text) }

// A Gasket is a flat ring gasket that lies inside the studs.
type Gasket struct {
	Outside, Inside units.Length   // of the face that is in contact
	M               float64        // maintenance factor
	Y               units.Pressure // seating stress
	Rule            WidthRule
}

// Loads are what the studs must carry together.
type Loads struct {
	Width, BasicWidth, EffectiveWidth units.Length // N, b0, b
	Reaction                          units.Length // G, the diameter at which the gasket pushes back
	EndForce                          units.Force  // H, of the pressure
	Holding                           units.Force  // Hp, to keep the gasket tight under pressure
	Operating                         units.Force  // Wm1 = H + Hp
	Seating                           units.Force  // Wm2, to bed the gasket before there is pressure
}

// Greater returns the load that decides.
func (l Loads) Greater() units.Force { return max(l.Operating, l.Seating) }

// Loads returns the stud loads of a flat ring gasket under an internal pressure
// above that outside.
//
//	N = (outside - inside)/2    b0 = N/2    b = b0, or less for wide gaskets: see WidthRule
//	G = mean diameter of the contact face while b = b0, otherwise outside - 2b
//	H = pi G^2 p/4     Hp = 2 b pi G m p     Wm1 = H + Hp     Wm2 = pi b G y
//
// The factors m and y are suggestions of the code for the design of flanges, not
// the stress to tighten a gasket to. The method holds for a gasket inside the
// studs; for a full-face gasket with the stud holes in it, no method of this code
// does, and the result is an indication. Diameters are above zero, the inside
// below the outside; m, y and p zero or more.
//
// Source: ASME VIII-1, appendix 2, whose scope, 2-1(a), is that, as given in
// Moss, Pressure Vessel Design Manual, p. 42, and in worked sheets. One page in
// print exchanges the names Wm1 and Wm2; these are the code's. Anything else is
// an [*units.ArgumentError]. See the example.
func (g Gasket) Loads(pressure units.Pressure) (Loads, error) {
	err := accept(number{"inside diameter of the gasket", g.Inside.MM(), g.Inside.String(), true}, number{"factor m", g.M, fmt.Sprint(g.M), false},
		number{"factor y", float64(g.Y), g.Y.String(), false}, number{"pressure", float64(pressure), pressure.String(), false})
	if err != nil {
		return Loads{}, err
	}
	if g.Outside.Cmp(g.Inside) <= 0 {
		return Loads{}, bad("outside diameter of the gasket", g.Outside.String(), "above the inside diameter, "+g.Inside.String())
	}
	var l Loads
	l.Width = g.Outside.Sub(g.Inside).Scale(0.5)
	l.BasicWidth = l.Width.Scale(0.5)
	b0 := l.BasicWidth.MM()
	narrow, b := true, b0
	switch g.Rule {
	case InchRule:
		if narrow = b0 <= 25.4/4; !narrow {
			b = 25.4 * 0.5 * math.Sqrt(b0/25.4)
		}
	case MetricRule:
		if narrow = b0 <= 6; !narrow {
			b = 2.5 * math.Sqrt(b0)
		}
	default:
		_, err := g.Rule.MarshalText() // which knows the rules there are
		return Loads{}, err
	}
	if l.EffectiveWidth, err = units.LengthMM(b); err != nil {
		return Loads{}, err
	}
	l.Reaction = g.Outside.Sub(l.EffectiveWidth.Scale(2))
	if narrow {
		l.Reaction = g.Outside.Add(g.Inside).Scale(0.5)
	}
	l.EndForce, l.Holding, l.Seating = ringLoads(l.Reaction, l.EffectiveWidth, g.M, g.Y, pressure)
	l.Operating = l.EndForce + l.Holding
	return l, nil
}

// ringLoads is H, Hp and Wm2 for a known G and b.
func ringLoads(reaction, width units.Length, m float64, y, p units.Pressure) (end, holding, seating units.Force) {
	diameter, b := reaction.Metres(), width.Metres()
	end = units.Force(math.Pi / 4 * diameter * diameter * float64(p))
	holding = units.Force(2 * b * math.Pi * diameter * m * float64(p))
	seating = units.Force(math.Pi * b * diameter * float64(y))
	return end, holding, seating
}
