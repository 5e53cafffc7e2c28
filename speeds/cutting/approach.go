package cutting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// PointLength returns how far the point of a drill stands before its full
// diameter:
//
//	L = d / (2 * tan(a/2))
//
//	d  the drill
//	a  point angle, included, from 30 up to 180 degrees (flat)
//
// which is 0.3004 d at 118 degrees and 0.2071 d at 135. Geometry. See the Example.
func PointLength(diameter units.Length, point units.Angle) (units.Length, error) {
	if err := fail.Above(fault.Named("drill", diameter)); err != nil {
		return units.Length{}, err
	}
	if !(point >= 30*units.Degree && point <= 180*units.Degree) {
		return units.Length{}, fail.OutOfRange("point angle", point, "30 to 180 degrees, included")
	}
	return diameter.Scale(1 / (2 * math.Tan(point.Radians()/2))), nil // L = d/(2 tan(a/2))
}

// SlabApproach returns how far a plain cutter of diameter d must travel before
// it cuts at the full depth a:
//
//	A = sqrt(a * (d - a))
//
// Depths up to half the diameter: beyond, the arbor is in the way. Geometry. See
// the Example.
func SlabApproach(diameter, depth units.Length) (units.Length, error) {
	if err := fail.Above(fault.Named("cutter", diameter), fault.Named("depth of cut", depth)); err != nil {
		return units.Length{}, err
	}
	if depth.Scale(2).Cmp(diameter) > 0 {
		return units.Length{}, fail.Wrong("depth of cut", depth, "more than half the cutter", "up to "+diameter.Scale(0.5).String())
	}
	d, a := diameter.MM(), depth.MM()
	return units.Millimetres.Of(math.Sqrt(a * (d - a))) // A = sqrt(a (d - a))
}

// FaceApproach returns how far a face cutter or end mill of diameter d, on the
// middle line of the work, must travel before it cuts the full width w:
//
//	A = (d - sqrt(d^2 - w^2)) / 2
//
// which is the radius for a slot as wide as the cutter. Work up to the width of
// the cutter. Geometry. See the Example of [Path.Time].
func FaceApproach(diameter, width units.Length) (units.Length, error) {
	if err := fail.Above(fault.Named("cutter", diameter), fault.Named("width of cut", width)); err != nil {
		return units.Length{}, err
	}
	if width.Cmp(diameter) > 0 {
		return units.Length{}, fail.Wrong("width of cut", width, "wider than the cutter", "up to "+diameter.String())
	}
	d, w := diameter.MM(), width.MM()
	return units.Millimetres.Of((d - math.Sqrt(d*d-w*w)) / 2) // A = (d - sqrt(d^2 - w^2))/2
}
