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
// stress allowed: 1,500 to 2,500 psi for cast iron and 4,000 to 6,000 for wrought
// iron by Lobben, 30 to 50 MPa by the other. All are above zero.
func HeadRules(diameter units.Length, pressure, stress units.Pressure) ([]HeadRule, error) {
	err := first(positive("diameter of the cover", diameter.MM(), diameter.String()), positive("pressure", float64(pressure), pressure.String()), positive("stress allowed", float64(stress), stress.String()))
	if err != nil {
		return nil, err
	}
	ratio := float64(pressure) / float64(stress)
	rules := []HeadRule{
		{Name: "Lobben, flat head bolted to a flange", Ref: source.Ref{Kind: source.Published, Title: "Lobben, Machinists' and Draftsmen's Handbook", Edition: "1910", Locator: "p. 220"}},
		{Name: "gas-engine cylinder head", Ref: source.Ref{Kind: source.Published, Title: "Khurmi and Gupta, A Textbook of Machine Design", Locator: "cylinder heads"}},
	}
	for i, factor := range []float64{0.5 * math.Sqrt(2.0/3), math.Sqrt(0.1)} {
		if rules[i].Thickness, err = units.LengthMM(diameter.MM() * factor * math.Sqrt(ratio)); err != nil {
			return nil, err
		}
	}
	return rules, nil
}
