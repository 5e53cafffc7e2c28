package cover

import (
	"fmt"
	"math"

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
	Thin         units.Pressure // p D/(2 t), with the bore: the mean over the wall, always below the stress at the bore
	Barlow       units.Pressure // p Do/(2 t), with the outside diameter: errs on the safe side
	Lame         units.Pressure // at the bore, exact for an elastic cylinder: p (ro^2 + ri^2)/(ro^2 - ri^2)
	Longitudinal units.Pressure // p D/(4 t), when the ends pull on the wall
}

// Hoop returns the stresses of a cylinder under a pressure above that outside.
// All arguments are above zero. Source: the textbooks of the strength of
// materials; the thin formula Machinery's Handbook, 31st edition, p. 290.
// Anything else is an [*units.ArgumentError].
func (w Wall) Hoop(pressure units.Pressure) (Hoop, error) {
	if err := first(w.check(), positive("pressure", pressure)); err != nil {
		return Hoop{}, err
	}
	p, d, t := float64(pressure), w.Bore.Metres(), w.Thickness.Metres()
	lame, err := w.Lame(pressure, 0, w.Bore.Scale(0.5))
	return Hoop{
		Thin:         units.Pressure(p * d / (2 * t)),
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
//	hoop, radial = A ± B/r^2    longitudinal = A
//	A = (pi ri^2 - po ro^2)/(ro^2 - ri^2)    B = (pi - po) ri^2 ro^2/(ro^2 - ri^2)
//
// pi and po are the pressures inside and outside, zero or more, ri and ro the
// radii of the wall; the radius lies in it. Source: Lamé, in every textbook of
// the strength of materials. Anything else is an [*units.ArgumentError]. See
// the example.
func (w Wall) Lame(inside, outside units.Pressure, radius units.Length) (Lame, error) {
	if err := w.check(); err != nil {
		return Lame{}, err
	}
	for _, p := range []units.Pressure{inside, outside} {
		if !(p >= 0 && p <= mostPressure) {
			return Lame{}, bad("pressure", p.String(), "zero or more, up to 10 million bar")
		}
	}
	ri := w.Bore.Metres() / 2
	ro := ri + w.Thickness.Metres()
	r := radius.Metres()
	const picometre = 1e-12 // half the bore need not be a whole number of them
	if r < ri-picometre || r > ro+picometre {
		return Lame{}, bad("radius", radius.String(), fmt.Sprintf("in the wall, %.9g to %.9g mm", 1000*ri, 1000*ro))
	}
	a := (float64(inside)*ri*ri - float64(outside)*ro*ro) / (ro*ro - ri*ri)
	b := float64(inside-outside) * ri * ri * ro * ro / (ro*ro - ri*ri)
	return Lame{Hoop: units.Pressure(a + b/(r*r)), Radial: units.Pressure(a - b/(r*r)), Longitudinal: units.Pressure(a)}, nil
}

func (w Wall) check() error {
	return first(length("bore", w.Bore), length("thickness of the wall", w.Thickness))
}

// Walls are the thicknesses that keep a cylinder to a stress.
type Walls struct {
	Thin   units.Length // p D/(2 s)
	Barlow units.Length // p D/(2 (s - p)); also printed as p r/(s - p) for thick cylinders
	Lame   units.Length // r (sqrt((s + p)/(s - p)) - 1)
}

// WallFor returns the thickness at which a pressure brings a cylinder to a
// stress, by the three formulas. The stress must be above the pressure: beyond
// that no wall is thick enough. It is the thickness that pressure asks;
// castings are made thicker. Bore, pressure and stress are above zero; source
// as [Wall.Hoop], turned round. Anything else is an [*units.ArgumentError].
func WallFor(bore units.Length, pressure, stress units.Pressure) (Walls, error) {
	err := first(length("bore", bore), positive("pressure", pressure), positive("stress allowed", stress))
	if err != nil {
		return Walls{}, err
	}
	if stress <= pressure {
		return Walls{}, bad("stress allowed", stress.String(), "above the pressure, "+pressure.String())
	}
	p, s, r := float64(pressure), float64(stress), bore.MM()/2
	var w Walls
	for _, x := range []struct {
		to *units.Length
		mm float64
	}{{&w.Thin, r * p / s}, {&w.Barlow, r * p / (s - p)}, {&w.Lame, r * (math.Sqrt((s+p)/(s-p)) - 1)}} {
		if *x.to, err = thicknessMM(x.mm); err != nil {
			return Walls{}, err
		}
	}
	return w, nil
}

// A ThinLimit is one book's limit up to which a wall counts as thin.
type ThinLimit struct {
	Share float64 // of the bore
	Ref   source.Ref
}

// ThinLimits returns the limits in print, which disagree; above them use Lamé.
func ThinLimits() []ThinLimit {
	return []ThinLimit{
		{0.1, source.Ref{Kind: source.Published, Title: "Machinery's Handbook", Edition: "31st edition", Locator: "p. 290"}},
		{0.05, source.Ref{Kind: source.Published, Title: "Huston, Practical Stress Analysis in Engineering Design", Locator: "abstract of chapter 25", Note: "a tenth of the inside radius; lecture notes agree"}},
	}
}
