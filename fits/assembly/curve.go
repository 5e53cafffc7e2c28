package assembly

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// An ExpansionPoint is the expansion of a material at one temperature, not the
// mean from room temperature.
type ExpansionPoint struct {
	At        units.Temperature
	Expansion units.Expansivity
}

// An ExpansionCurve is the expansion of a material over temperature, its points
// from cold to hot, straight in between. The zero value is none.
type ExpansionCurve struct {
	Points []ExpansionPoint `json:",omitempty"`
	Refs   source.Refs      `json:",omitzero"`
}

// Strain returns by what share of its length a part grows from one temperature
// to the other; below zero when it is cooled:
//
//	strain = integral of alpha over the temperature
//
// It does not go beyond the ends of the curve. See the Example.
func (c ExpansionCurve) Strain(from, to units.Temperature) (float64, error) {
	for i, p := range c.Points {
		if !(p.At >= 0 && p.At < math.MaxFloat64) || !(p.Expansion > -1 && p.Expansion < 1) ||
			i > 0 && !(p.At > c.Points[i-1].At) {
			return 0, fail.OutOfRange("expansion curve", fmt.Sprintf("point %d at %v", i+1, p.At),
				"points from cold to hot with finite expansions")
		}
	}
	if from > to {
		strain, err := c.Strain(to, from)
		return -strain, err
	}
	accepted := "a curve of two points or more"
	last := len(c.Points) - 1
	if last > 0 {
		accepted = degrees(c.Points[0].At) + " to " + degrees(c.Points[last].At)
	}
	if last < 1 || !(from >= c.Points[0].At && to <= c.Points[last].At) {
		return 0, fail.Wrong("temperature", degrees(from)+" to "+degrees(to), "outside the expansion curve", accepted)
	}
	var strain float64
	for i := 1; i <= last; i++ {
		lo, hi := max(from, c.Points[i-1].At), min(to, c.Points[i].At)
		if lo >= hi {
			continue
		}
		strain += float64(c.at(i, lo)+c.at(i, hi)) / 2 * float64(hi.Sub(lo)) // trapezium, exact on a straight line
	}
	return strain, nil
}

// at returns the expansion on the line that ends at point i.
func (c ExpansionCurve) at(i int, t units.Temperature) units.Expansivity {
	a, b := c.Points[i-1], c.Points[i]
	return a.Expansion + (b.Expansion-a.Expansion)*units.Expansivity((t-a.At)/(b.At-a.At))
}

// ChilledSteel returns the expansion of a trunnion steel from -340 to 80
// degrees F, for shafts that are chilled far: at -80 degrees F it has fallen to
// five sixths of its value in the workshop. Source: Kaw, numerical methods, the
// case of a trunnion that stuck in its hub, from memory.
func ChilledSteel() ExpansionCurve {
	curve := ExpansionCurve{Refs: source.Of(source.Ref{
		Kind: source.FromMemory, Title: "Kaw, numerical methods, case study of a trunnion and hub",
		Edition: "edition not stated",
	})}
	for _, p := range [...][2]float64{{-340, 2.45}, {-160, 4.72}, {-100, 5.28}, {-80, 5.43}, {0, 6.00}, {80, 6.47}} {
		alpha := units.Expansivity(p[1]) * units.MillionthPerKelvin * units.PerDegreeFahrenheit
		curve.Points = append(curve.Points, ExpansionPoint{units.Fahrenheit(p[0]), alpha})
	}
	return curve
}
