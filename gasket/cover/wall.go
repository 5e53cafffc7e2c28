package cover

import (
	"cmp"
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Wall is that of a cylinder.
type Wall struct {
	Bore, Thickness units.Length
}

// A Hoop is the hoop stress of a cylinder under internal pressure by the three
// usual formulas, and the stress along it.
type Hoop struct {
	Thin         units.Pressure // with the bore: the mean over the wall, always below the stress at the bore
	Barlow       units.Pressure // with the outside diameter: errs on the safe side
	Lame         units.Pressure // at the bore, exact for an elastic cylinder
	Longitudinal units.Pressure // when the ends pull on the wall
}

// Hoop returns the stresses of a cylinder under a pressure above that outside.
//
//	thin          p * D / (2 * t)
//	Barlow        p * (D + 2 * t) / (2 * t)
//	Lame          p * (ro^2 + ri^2) / (ro^2 - ri^2)
//	longitudinal  p * D / (4 * t)
//
//	p   the pressure
//	D   the bore, ri half of it
//	t   the thickness of the wall
//	ro  ri + t
//
// Source: the textbooks of the strength of materials; the thin formula
// Machinery's Handbook, 31st edition, p. 290. See the example.
func (w Wall) Hoop(pressure units.Pressure) (Hoop, error) {
	if err := cmp.Or(w.check(), fault.Positive(fail, "pressure", pressure)); err != nil {
		return Hoop{}, err
	}
	p, d, t := float64(pressure), w.Bore.Metres(), w.Thickness.Metres()
	lame, err := w.Lame(pressure, 0, w.Bore.Scale(0.5))
	return Hoop{
		Thin:         units.Pressure(p * d / (2 * t)), // Machinery's Handbook, p. 290
		Barlow:       units.Pressure(p * (d + 2*t) / (2 * t)),
		Lame:         lame.Hoop,
		Longitudinal: units.Pressure(p * d / (4 * t)),
	}, err
}

// A Lame is the stress in a thick wall at one radius; tension is positive.
type Lame struct {
	Hoop, Radial, Longitudinal units.Pressure
}

// Lame returns the stresses in the wall of a closed cylinder at a radius.
//
//	hoop          A + B / r^2
//	radial        A - B / r^2
//	longitudinal  A
//	A = (pi * ri^2 - po * ro^2) / (ro^2 - ri^2)
//	B = (pi - po) * ri^2 * ro^2 / (ro^2 - ri^2)
//
//	pi, po  the pressures inside and outside, zero or more
//	ri, ro  the radii of the wall
//	r       the radius, in the wall
//
// Source: Lamé, in every textbook of the strength of materials. See the example.
func (w Wall) Lame(inside, outside units.Pressure, radius units.Length) (Lame, error) {
	if err := w.check(); err != nil {
		return Lame{}, err
	}
	if err := cmp.Or(zeroOrMore("pressure inside", inside), zeroOrMore("pressure outside", outside)); err != nil {
		return Lame{}, err
	}
	ri := w.Bore.Metres() / 2
	ro := ri + w.Thickness.Metres()
	r := radius.Metres()
	const picometre = 1e-12 // half the bore need not be a whole number of them
	if r < ri-picometre || r > ro+picometre {
		return Lame{}, fail.OutOfRange("radius", radius, fmt.Sprintf("in the wall, %.9g to %.9g mm", 1000*ri, 1000*ro))
	}
	r = min(max(r, ri), ro) // never nought, where nothing has a stress
	// ro^2 - ri^2, which as a difference would be nought of a foil round a vessel
	between := w.Thickness.Metres() * (2*ri + w.Thickness.Metres())
	a := (float64(inside)*ri*ri - float64(outside)*ro*ro) / between
	b := float64(inside-outside) * ri * ri * ro * ro / between
	return Lame{
		Hoop: units.Pressure(a + b/(r*r)), Radial: units.Pressure(a - b/(r*r)), Longitudinal: units.Pressure(a), // Lamé
	}, nil
}

func (w Wall) check() error {
	return fail.Above(fault.Named("bore", w.Bore), fault.Named("thickness of the wall", w.Thickness))
}

// zeroOrMore returns an error for a pressure that is not finite, below zero or
// beyond anything that a wall holds.
func zeroOrMore(field string, p units.Pressure) error {
	if err := fault.Finite(fail, field, p); err != nil {
		return err
	}
	if p < 0 || p > 1e12 {
		return fail.OutOfRange(field, p, "zero or more, up to 10 million bar")
	}
	return nil
}

// Walls are the thicknesses that keep a cylinder to a stress.
type Walls struct {
	Thin, Barlow, Lame units.Length
}

// Solve returns the thickness at which a pressure brings a cylinder of the bore
// to a stress, by the three formulas; that of the wall itself is not used.
//
//	thin    p * r / s
//	Barlow  p * r / (s - p)
//	Lame    r * (sqrt((s + p) / (s - p)) - 1)
//
//	p  the pressure above that outside
//	r  half the bore
//	s  the stress, above the pressure: beyond that no wall is thick enough
//
// It is the thickness that pressure asks; castings are made thicker. Source: as
// [Wall.Hoop], turned round; Barlow's is also printed for thick cylinders. See
// the example.
func (w Wall) Solve(pressure, stress units.Pressure) (Walls, error) {
	err := cmp.Or(fail.Above(fault.Named("bore", w.Bore)), fault.Positive(fail, "pressure", pressure),
		fault.Positive(fail, "stress allowed", stress))
	if err != nil {
		return Walls{}, err
	}
	if stress <= pressure {
		return Walls{}, fail.OutOfRange("stress allowed", stress, "above the pressure, "+pressure.String())
	}
	p, s, r := float64(pressure), float64(stress), w.Bore.MM()/2
	var walls Walls
	for _, x := range []struct {
		to *units.Length
		mm float64
	}{
		{&walls.Thin, r * p / s}, // Machinery's Handbook, p. 290
		{&walls.Barlow, r * p / (s - p)},
		{&walls.Lame, r * (math.Sqrt((s+p)/(s-p)) - 1)},
	} {
		if *x.to, err = thickness(x.mm); err != nil {
			return Walls{}, err
		}
	}
	return walls, nil
}

// A ThinLimit is one book's limit up to which a wall counts as thin.
type ThinLimit struct {
	Share float64 // of the bore
	Refs  source.Refs
}

// ThinLimits returns the limits in print, which disagree; above them use Lamé.
func ThinLimits() []ThinLimit {
	return []ThinLimit{{0.1, source.Shared(&handbook)}, {0.05, source.Shared(&huston)}}
}

var (
	handbook = source.Ref{
		Kind: source.Published, Title: "Machinery's Handbook", Edition: "31st edition", Locator: "p. 290",
	}
	huston = source.Ref{
		Kind: source.Published, Title: "Huston, Practical Stress Analysis in Engineering Design",
		Locator: "abstract of chapter 25", Note: "a tenth of the inside radius; lecture notes agree",
	}
)
