package fits

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
)

// An ExpansionPoint is the expansion of a material at one temperature, not the
// mean from room temperature.
type ExpansionPoint struct {
	At        units.Temperature
	Expansion units.Expansivity
}

// An ExpansionCurve is the expansion of a material over temperature, its points
// from cold to hot, straight in between.
type ExpansionCurve []ExpansionPoint

// Strain returns by what share of its length a part grows from one temperature
// to the other; below zero when it is cooled. It integrates the curve and does
// not go beyond its ends: temperatures outside, and points that do not rise, are
// an [*units.ArgumentError].
func (c ExpansionCurve) Strain(from, to units.Temperature) (float64, error) {
	for i, p := range c {
		if i > 0 && p.At <= c[i-1].At || !(p.Expansion > -1 && p.Expansion < 1) {
			return 0, &units.ArgumentError{Package: "fits", Field: "expansion curve", Value: fmt.Sprintf("point %d at %v", i+1, p.At), Accepted: "points from cold to hot with finite expansions", Err: units.ErrOutOfRange}
		}
	}
	if from > to {
		strain, err := c.Strain(to, from)
		return -strain, err
	}
	if len(c) < 2 || !(from >= c[0].At && to <= c[len(c)-1].At) {
		e := &units.ArgumentError{Package: "fits", Field: "temperature", Value: degrees(from) + " to " + degrees(to), Problem: "outside the expansion curve", Accepted: "a curve of two points or more", Err: units.ErrOutOfRange}
		if len(c) > 1 {
			e.Accepted = degrees(c[0].At) + " to " + degrees(c[len(c)-1].At)
		}
		return 0, e
	}
	var strain float64
	for i := 1; i < len(c); i++ {
		lo, hi := max(from, c[i-1].At), min(to, c[i].At)
		if lo >= hi {
			continue
		}
		strain += float64(c.at(i, lo)+c.at(i, hi)) / 2 * float64(hi.Sub(lo)) // trapezium, exact on a straight line
	}
	return strain, nil
}

// at returns the expansion on the line that ends at point i.
func (c ExpansionCurve) at(i int, t units.Temperature) units.Expansivity {
	a, b := c[i-1], c[i]
	return a.Expansion + (b.Expansion-a.Expansion)*units.Expansivity((t-a.At)/(b.At-a.At))
}

// ChilledSteel returns the expansion of a trunnion steel from -340 to 80
// degrees F, for shafts that are chilled far: at -80 degrees F it has fallen to
// five sixths of its value in the workshop. Source: Kaw, numerical methods, the
// case of a trunnion that stuck in its hub.
func ChilledSteel() ExpansionCurve {
	curve := ExpansionCurve{}
	for _, p := range [...][2]float64{{-340, 2.45}, {-160, 4.72}, {-100, 5.28}, {-80, 5.43}, {0, 6.00}, {80, 6.47}} {
		curve = append(curve, ExpansionPoint{units.Fahrenheit(p[0]), units.Expansivity(p[1]) * units.MillionthPerKelvin * units.PerDegreeFahrenheit})
	}
	return curve
}
