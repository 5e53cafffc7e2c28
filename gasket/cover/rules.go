package cover

import (
	"cmp"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A HeadRule is the thickness that an old rule gives a flat cylinder cover.
type HeadRule struct {
	Name      string
	Thickness units.Length
	Refs      source.Refs
}

// HeadRules returns the thickness of a flat bolted cover by two rules in print,
// beside [Round.Solve].
//
//	Lobben, 1910         t = r * sqrt(2 * p / (3 * s))
//	gas-engine builders  t = D * sqrt(0.1 * p / s)
//
//	D  the diameter, r half of it
//	p  the pressure above that outside
//	s  the stress allowed: see HeadStresses
//
// Lobben's t is 6 percent thinner than a clamped plate at the same stress.
// Source: as each rule's Refs say. See the example.
func HeadRules(diameter units.Length, pressure, stress units.Pressure) ([]HeadRule, error) {
	err := cmp.Or(fail.Above(fault.Named("diameter of the cover", diameter)), fault.Positive(fail, "pressure", pressure),
		fault.Positive(fail, "stress allowed", stress))
	if err != nil {
		return nil, err
	}
	ratio := float64(pressure) / float64(stress)
	rules := []HeadRule{
		{Name: lobbenHead, Refs: source.Shared(&lobben)},
		{Name: gasHead, Refs: source.Shared(&headText)},
	}
	factors := []float64{
		0.5 * math.Sqrt(2.0/3), // Lobben, p. 220
		math.Sqrt(0.1),         // cylinder heads
	}
	for i, factor := range factors {
		if rules[i].Thickness, err = thickness(diameter.MM() * factor * math.Sqrt(ratio)); err != nil {
			return nil, err
		}
	}
	return rules, nil
}

const (
	lobbenHead = "Lobben, flat head bolted to a flange"
	gasHead    = "gas-engine cylinder head"
)

var (
	lobben = source.Ref{
		Kind: source.Published, Title: "Lobben, Machinists' and Draftsmen's Handbook", Edition: "1910", Locator: "p. 220",
	}
	headText = source.Ref{
		Kind: source.Published, Title: "Machine design text on the heads of engine cylinders", Locator: "cylinder heads",
		Note: "an excerpt in the wording of Khurmi and Gupta",
	}
)
