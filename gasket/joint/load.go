package joint

import (
	"cmp"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A WidthRule says how the effective width of a wide gasket is reckoned. The
// code gives it twice, and the two do not quite agree.
type WidthRule int

// The rules, with b0 half the contact width of a flat gasket.
const (
	InchRule   WidthRule = iota // b = b0 up to 1/4 in, then sqrt(b0) / 2 in inches; the default
	MetricRule                  // b = b0 up to 6 mm, then 2.5 * sqrt(b0) in millimetres
)

var ruleNames = names.Set{
	Package: "joint", Type: "WidthRule", Field: "rule for the effective width", Texts: []string{"inch", "metric"},
}

// WidthRules returns both of them.
func WidthRules() []WidthRule { return []WidthRule{InchRule, MetricRule} }

// String returns "inch" or "metric".
func (r WidthRule) String() string { return ruleNames.Text(int(r)) }

// ParseWidthRule returns the rule of that name; another text is a
// [*units.ParseError] that lists them.
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
	Refs                              source.Refs
}

// Greater returns the load that decides.
func (l Loads) Greater() units.Force { return max(l.Operating, l.Seating) }

var appendix2 = source.Ref{
	Kind: source.Published, Title: "Moss, Pressure Vessel Design Manual", Locator: "p. 42", Note: "ASME VIII-1, appendix 2",
}

const mostFactor = 100 // five times the greatest m of the code's table

// Loads returns the stud loads of a flat ring gasket under an internal pressure
// above that outside.
//
//	N   = (outside - inside) / 2
//	b0  = N / 2
//	b   = b0, or less for a wide gasket: see WidthRule
//	G   = the mean diameter of the contact face while b = b0, otherwise outside - 2 * b
//	H   = pi * G^2 * p / 4
//	Hp  = 2 * b * pi * G * m * p
//	Wm1 = H + Hp
//	Wm2 = pi * b * G * y
//
//	p     the pressure, zero or more
//	m, y  the factors of the gasket, zero or more
//
// The factors are suggestions of the code for the design of flanges, not the
// stress to tighten a gasket to. The method holds for a gasket inside the studs;
// for a full-face gasket with the stud holes in it, no method of this code does,
// and the result is an indication.
//
// Source: ASME VIII-1, appendix 2, whose scope, 2-1(a), is that, as given in
// Moss, Pressure Vessel Design Manual, p. 42, and in worked sheets. One page in
// print exchanges the names Wm1 and Wm2; these are the code's. See the example.
func (g Gasket) Loads(pressure units.Pressure) (Loads, error) {
	if err := cmp.Or(g.check(), zeroOrMore("pressure", pressure)); err != nil {
		return Loads{}, err
	}
	l := Loads{Refs: source.Shared(&appendix2)}
	l.Width = g.Outside.Sub(g.Inside).Scale(0.5)
	l.BasicWidth = l.Width.Scale(0.5)
	b0 := l.BasicWidth.MM()
	narrow, b := true, b0
	switch g.Rule {
	case InchRule:
		if narrow = b0 <= 25.4/4; !narrow {
			b = 25.4 * 0.5 * math.Sqrt(b0/25.4) // Moss, p. 42
		}
	case MetricRule:
		if narrow = b0 <= 6; !narrow {
			b = 2.5 * math.Sqrt(b0) // the code's metric edition
		}
	}
	var err error
	if l.EffectiveWidth, err = units.Millimetres.Of(b); err != nil {
		return Loads{}, err
	}
	l.Reaction = g.Outside.Sub(l.EffectiveWidth.Scale(2))
	if narrow {
		l.Reaction = g.Outside.Add(g.Inside).Scale(0.5)
	}
	l.EndForce, l.Holding, l.Seating = ringLoads(l.Reaction, l.EffectiveWidth, g.M, g.Y, pressure)
	l.Operating = l.EndForce + l.Holding // Moss, p. 42
	return l, nil
}

func (g Gasket) check() error {
	if err := fail.Above(fault.Named("inside diameter of the gasket", g.Inside)); err != nil {
		return err
	}
	if g.Outside.Cmp(g.Inside) <= 0 {
		accepted := "above the inside diameter, " + g.Inside.String()
		return fail.OutOfRange("outside diameter of the gasket", g.Outside, accepted)
	}
	if err := fail.Within(fault.Named("outside diameter of the gasket", g.Outside)); err != nil {
		return err
	}
	if err := fault.Finite(fail, "factor m", g.M); err != nil {
		return err
	}
	if g.M < 0 || g.M > mostFactor {
		return fail.OutOfRange("factor m", g.M, "zero or more, up to 100")
	}
	if !ruleNames.Known(int(g.Rule)) {
		return ruleNames.Unknown(int(g.Rule))
	}
	return zeroOrMore("factor y", g.Y)
}

// ringLoads is H, Hp and Wm2 for a known G and b.
func ringLoads(reaction, width units.Length, m float64, y, p units.Pressure) (end, holding, seating units.Force) {
	diameter, b := reaction.Metres(), width.Metres()
	end = units.Force(math.Pi / 4 * diameter * diameter * float64(p))     // Moss, p. 42
	holding = units.Force(2 * b * math.Pi * diameter * m * float64(p))    // Moss, p. 42
	return end, holding, units.Force(math.Pi * b * diameter * float64(y)) // Moss, p. 42
}
