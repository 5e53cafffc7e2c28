package cover

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A HeadRule is the thickness that an old rule gives a flat cylinder cover.
type HeadRule struct {
	Name      string
	Thickness units.Length
	Ref       source.Ref
}

// HeadRules returns the thickness of a flat bolted cover by two rules in print,
// beside [Round.ThicknessFor].
//
//	Lobben, 1910         t = r sqrt(2 p/(3 s))
//	gas-engine builders  t = D sqrt(0.1 p/s)
//
// D is the diameter and r half of it, p the pressure above that outside, s the
// stress allowed: see [HeadStresses]. All are above zero. Lobben's t is 6
// percent thinner than a clamped plate at the same stress. Source: as each
// rule's Ref says. Anything else is an [*units.ArgumentError].
func HeadRules(diameter units.Length, pressure, stress units.Pressure) ([]HeadRule, error) {
	err := first(length("diameter of the cover", diameter), positive("pressure", pressure), positive("stress allowed", stress))
	if err != nil {
		return nil, err
	}
	ratio := float64(pressure) / float64(stress)
	rules := []HeadRule{
		{Name: lobbenHead, Ref: lobben},
		{Name: gasHead, Ref: headText},
	}
	for i, factor := range []float64{0.5 * math.Sqrt(2.0/3), math.Sqrt(0.1)} {
		if rules[i].Thickness, err = thicknessMM(diameter.MM() * factor * math.Sqrt(ratio)); err != nil {
			return nil, err
		}
	}
	return rules, nil
}

// A HeadStress is the stress that a rule in print allows a flat cylinder cover.
type HeadStress struct {
	Rule        string
	Material    string
	Least, Most units.Pressure
	Ref         source.Ref
}

// HeadStresses returns the stresses that the rules of [HeadRules] allow. They are
// for covers of cast iron, which has no yield to reckon from, and of wrought
// iron; the rules are old and the stresses low, as iron is brittle and castings
// are not sound all through.
func HeadStresses() []HeadStress {
	return []HeadStress{
		{lobbenHead, "cast iron", 1500 * units.PSI, 2500 * units.PSI, lobben},
		{lobbenHead, "wrought iron", 4000 * units.PSI, 6000 * units.PSI, lobben},
		{gasHead, "cast iron", 30 * units.Megapascal, 50 * units.Megapascal, headText},
	}
}

const (
	lobbenHead = "Lobben, flat head bolted to a flange"
	gasHead    = "gas-engine cylinder head"
)

var (
	lobben   = source.Ref{Kind: source.Published, Title: "Lobben, Machinists' and Draftsmen's Handbook", Edition: "1910", Locator: "p. 220"}
	headText = source.Ref{Kind: source.Published, Title: "Machine design text on the heads of engine cylinders", Locator: "cylinder heads", Note: "an excerpt in the wording of Khurmi and Gupta"}
)
