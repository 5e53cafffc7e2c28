package cutting

import (
	"math"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Load is what a cut asks of the machine, give or take [Scatter].
type Load struct {
	Force  units.Force  // along the cut: at the tool, or at one lip of a drill
	Torque units.Torque // at the spindle
	Power  units.Power  // at the spindle
	Refs   source.Refs  // of the cutting force
}

// TurningLoad returns the load of a turning cut:
//
//	h = f * sin(k)
//	F = kc * a * f
//	T = F * d / 2
//	P = F * v
//
//	a   depth of cut on the radius
//	f   feed
//	k   angle of the edge to the feed (90 degrees: square shoulder)
//	d   diameter before the cut
//	kc  that of [Kienzle.At] at the chip h
//	v   surface speed at the diameter d
//
// The formulas are those of every handbook of machining. Limits as for
// [TurningRemoval], [ChipThickness] and [Kienzle.At]. See the Example.
func TurningLoad(
	k Kienzle, diameter, depth, feed units.Length, edge units.Angle, n units.RotationalSpeed,
) (Load, error) {
	if err := turning(diameter, depth, feed, n); err != nil {
		return Load{}, err
	}
	h, err := ChipThickness(feed, edge)
	if err != nil {
		return Load{}, err
	}
	kc, err := k.At(h)
	if err != nil {
		return Load{}, err
	}
	force := float64(kc) * depth.Metres() * feed.Metres()      // F = kc a f
	return loadOf(force, force*diameter.Metres()/2, n, k), nil // T = F d/2
}

// DrillingLoad returns the load of a drill in the solid:
//
//	h = f/2 * sin(a/2)
//	T = kc * f * d^2 / 8
//	P = T * w
//
//	d  the drill, with two lips
//	f  feed per turn
//	a  point angle, included
//	w  angular speed
//
// It leaves out the chisel edge, which pushes more than it twists. Formulas as
// for [TurningLoad]; limits as for [DrillingRemoval], [PointLength] and
// [Kienzle.At]. See the Example.
func DrillingLoad(k Kienzle, diameter, feed units.Length, point units.Angle, n units.RotationalSpeed) (Load, error) {
	if _, err := DrillingRemoval(diameter, feed, n); err != nil {
		return Load{}, err
	}
	if _, err := PointLength(diameter, point); err != nil {
		return Load{}, err
	}
	kc, err := k.At(feed.Scale(math.Sin(point.Radians()/2) / 2)) // h = f/2 sin(a/2)
	if err != nil {
		return Load{}, err
	}
	d, f := diameter.Metres(), feed.Metres()
	return loadOf(float64(kc)*d/2*f/2, float64(kc)*f*d*d/8, n, k), nil // T = kc f d^2/8
}

// MillingLoad returns the mean load of a milling cut:
//
//	P = kc * a * w * vf
//
//	kc  at the mean chip fz * sqrt(w/d)
//	a   depth of cut
//	w   width across the feed
//	vf  table feed, of a cutter d with z teeth at fz a tooth
//
// The peak, tooth by tooth, is higher. Force is the mean at the rim of the
// cutter. Formulas as for [TurningLoad]; limits as for [MeanChip], [TableFeed]
// and [Kienzle.At]. See the Example.
func MillingLoad(
	k Kienzle, diameter, depth, width, perTooth units.Length, teeth int, n units.RotationalSpeed,
) (Load, error) {
	h, err := MeanChip(perTooth, width, diameter)
	if err != nil {
		return Load{}, err
	}
	kc, err := k.At(h)
	if err != nil {
		return Load{}, err
	}
	vf, err := TableFeed(n, perTooth, teeth)
	if err != nil {
		return Load{}, err
	}
	q, err := MillingRemoval(depth, width, vf)
	if err != nil {
		return Load{}, err
	}
	torque := float64(kc) * float64(q) / float64(n) // P = kc a w vf, T = P/w
	return loadOf(torque/(diameter.Metres()/2), torque, n, k), nil
}

func loadOf(force, torque float64, n units.RotationalSpeed, k Kienzle) Load {
	return Load{units.Force(force), units.Torque(torque), units.Power(torque * float64(n)), k.Refs} // P = T w
}
