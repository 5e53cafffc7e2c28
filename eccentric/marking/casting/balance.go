package casting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A Weight is metal at a place of a wheel, out of its middle.
type Weight struct {
	Mass   units.Mass
	Radius units.Length // from the axis to the middle of the metal
	At     units.Angle  // where, from place 1 towards place 2
}

// Balance returns the one weight at a radius that balances others in the same plane:
//
//	m*R = -sum(m_i*r_i)   as arrows from the axis
//
// Drilling takes metal off on the other side of it. Its mass is zero where they balance
// each other. Masses and radii from zero up; the radius R above zero. Mechanics; Bevan,
// ch. 14, works an example. See the Example.
func Balance(radius units.Length, weights ...Weight) (Weight, error) {
	if radius.Sign() <= 0 || radius.Cmp(farthest) > 0 {
		return Weight{}, fail.OutOfRange("radius of the balance weight", radius, "above zero, up to 100 m")
	}
	var x, y, all float64
	for _, w := range weights {
		if err := w.Validate(); err != nil {
			return Weight{}, err
		}
		sin, cos := math.Sincos(float64(w.At))
		moment := float64(w.Mass) * w.Radius.Metres()
		x, y, all = x+moment*cos, y+moment*sin, all+moment
	}
	moment := math.Hypot(x, y)
	if moment <= 1e-14*all { // what floating point leaves of nothing
		return Weight{Radius: radius}, nil
	}
	at := math.Mod(math.Atan2(-y, -x)+2*math.Pi, 2*math.Pi)
	return Weight{Mass: units.Mass(moment / radius.Metres()), Radius: radius, At: units.Angle(at)}, nil
}

// Validate returns an error for a weight that cannot be.
func (w Weight) Validate() error {
	if err := fault.Finite(fail, "mass", w.Mass); err != nil {
		return err
	}
	if w.Mass < 0 || w.Mass > 1e9 {
		return fail.OutOfRange("mass", w.Mass, "from zero to 1e9 kg")
	}
	if w.Radius.Sign() < 0 || w.Radius.Cmp(farthest) > 0 {
		return fail.OutOfRange("radius", w.Radius, "from zero to 100 m")
	}
	return fault.Finite(fail, "angle", w.At)
}

// HollowOff returns what a rim that was turned true outside lacks in balance where its
// inside, as cast, lies off the axis: as the weight of the metal that would fill the
// hollow, that far off the other way.
//
//	m = density * pi/4 * d^2 * w      at the radius e
//
//	d, w   diameter of the inside and width of the rim
//	e      offset of the inside
//
// The rim is thin, and the wheel light, on the side to which the hollow lies; at is that
// side, and the weight comes at the other. A metal with a density; an offset below half of
// d. Geometry. See the Example of [Balance].
func HollowOff(metal material.Material, inside, width, offset units.Length, at units.Angle) (Weight, error) {
	sizes := []fault.Length{fault.Named("inside of the rim", inside), fault.Named("width of the rim", width)}
	if err := fail.Above(sizes...); err != nil {
		return Weight{}, err
	}
	if !metal.Density.Known() {
		return Weight{}, fail.Missing("metal", "a material whose density we have, such as cast iron")
	}
	if offset.Sign() < 0 || offset.Scale(2).Cmp(inside) >= 0 {
		return Weight{}, fail.OutOfRange("offset of the inside", offset, "from zero to half of its diameter")
	}
	if err := fault.Finite(fail, "angle", at); err != nil {
		return Weight{}, err
	}
	d, w := inside.Metres(), width.Metres()
	mass := float64(metal.Density.Value) * math.Pi / 4 * d * d * w
	return Weight{Mass: units.Mass(mass), Radius: offset, At: units.Angle(math.Mod(float64(at)+math.Pi, 2*math.Pi))}, nil
}

// Of returns a wheel of a mass that is out of balance by the weight, for its force and its
// limits of speed; see [holding.Work]. A mass and a weight out of the middle above zero.
// See the Example of [Balance].
func (w Weight) Of(wheel units.Mass) (holding.Work, error) {
	if err := w.Validate(); err != nil {
		return holding.Work{}, err
	}
	if err := fault.Positive(fail, "mass of the wheel", wheel); err != nil {
		return holding.Work{}, err
	}
	off := w.Radius.Metres() * float64(w.Mass) / float64(wheel)
	if off > 100 {
		return holding.Work{}, fail.OutOfRange("mass of the wheel", wheel, "one whose middle the weight puts up to 100 m off")
	}
	work := holding.Work{Mass: wheel, Offset: units.MM(1000 * off)}
	return work, work.Validate()
}

// BalanceGrade returns how far off its axis the middle of a wheel's mass may be at a speed
// for a grade of balance of ISO 1940-1, such as 6.3 mm/s:
//
//	e = G/w
//
//	G   grade, above zero
//	w   angular speed, above zero
//
// ISO 1940-1, as catalogues of tools quote it. See the Example of [Balance].
func BalanceGrade(grade units.Speed, n units.RotationalSpeed) (units.Length, error) {
	if err := fault.Positive(fail, "grade of balance", grade); err != nil {
		return units.Length{}, err
	}
	if err := fault.Positive(fail, "speed", n); err != nil {
		return units.Length{}, err
	}
	metres := float64(grade) / float64(n)
	if metres > 1 {
		return units.Length{}, fail.OutOfRange("grade of balance", grade, "up to a metre off at that speed")
	}
	return units.MM(1000 * metres), nil
}
