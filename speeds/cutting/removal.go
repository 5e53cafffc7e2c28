package cutting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// TurningRemoval returns the volume of metal that turning takes off in time:
//
//	Q = pi * (d - a) * a * f * n
//
//	d  diameter before the cut
//	a  depth of cut on the radius, up to half of d
//	f  feed
//	n  spindle speed
//
// d - a is the mean diameter, which makes it exact. See the Example.
func TurningRemoval(diameter, depth, feed units.Length, n units.RotationalSpeed) (units.VolumeFlow, error) {
	if err := turning(diameter, depth, feed, n); err != nil {
		return 0, err
	}
	mean, a, f := diameter.Metres()-depth.Metres(), depth.Metres(), feed.Metres()
	return units.VolumeFlow(math.Pi * mean * a * f * n.In(units.RevPerSecond)), nil // Q = pi (d - a) a f n
}

// TurningRemovalOutside returns what most books give, with the outside diameter
// in place of the mean one:
//
//	Q = pi * d * a * f * n
//
// or 12 V f a in in3/min, with the surface speed V in ft/min, f and a in inches.
// It is high by a/(d - a). Symbols and limits as for [TurningRemoval]; see its
// Example.
func TurningRemovalOutside(diameter, depth, feed units.Length, n units.RotationalSpeed) (units.VolumeFlow, error) {
	if err := turning(diameter, depth, feed, n); err != nil {
		return 0, err
	}
	d, a, f := diameter.Metres(), depth.Metres(), feed.Metres()
	return units.VolumeFlow(math.Pi * d * a * f * n.In(units.RevPerSecond)), nil // Q = pi d a f n
}

func turning(diameter, depth, feed units.Length, n units.RotationalSpeed) error {
	if err := fail.Above(fault.Named("diameter", diameter), fault.Named("depth of cut", depth), fault.Named("feed", feed)); err != nil {
		return err
	}
	if depth.Scale(2).Cmp(diameter) > 0 {
		return fail.Wrong("depth of cut", depth, "more than the radius: it is measured on the radius, not on the diameter",
			"up to "+diameter.Scale(0.5).String())
	}
	return fault.Positive(fail, "spindle speed", n)
}

// DrillingRemoval returns the volume of metal that a drill takes out in time:
//
//	Q = pi/4 * d^2 * f * n
//
//	d  the drill
//	f  feed per turn
//	n  spindle speed
//
// Geometry. See the Example.
func DrillingRemoval(diameter, feed units.Length, n units.RotationalSpeed) (units.VolumeFlow, error) {
	if err := fail.Above(fault.Named("drill", diameter), fault.Named("feed", feed)); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return 0, err
	}
	d := diameter.Metres()
	return units.VolumeFlow(math.Pi / 4 * d * d * feed.Metres() * n.In(units.RevPerSecond)), nil // Q = pi/4 d^2 f n
}

// MillingRemoval returns the volume of metal that milling takes off in time:
//
//	Q = a * w * vf
//
//	a   depth of cut
//	w   width of cut
//	vf  table feed
//
// Geometry. See the Example.
func MillingRemoval(depth, width units.Length, vf units.Speed) (units.VolumeFlow, error) {
	if err := fail.Above(fault.Named("depth of cut", depth), fault.Named("width of cut", width)); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "table feed", vf); err != nil {
		return 0, err
	}
	return units.VolumeFlow(depth.Metres() * width.Metres() * float64(vf)), nil // Q = a w vf
}
