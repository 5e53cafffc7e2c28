package cutting

import (
	"math"

	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
)

// TurningRemoval returns the volume of metal that turning takes off in time:
//
//	Q = pi (d - a) a f n
//
// d is the diameter before the cut, a the depth of cut on the radius, f the
// feed, n the spindle speed; d - a is the mean diameter, which makes it exact.
// Depth above half the diameter is an [*units.ArgumentError].
func TurningRemoval(diameter, depth, feed units.Length, n units.RotationalSpeed) (units.VolumeFlow, error) {
	if err := turning(diameter, depth, feed, n); err != nil {
		return 0, err
	}
	return units.VolumeFlow(math.Pi * (diameter.Metres() - depth.Metres()) * depth.Metres() * feed.Metres() * float64(n/units.RevPerSecond)), nil
}

// TurningRemovalOutside returns what most books give, with the outside diameter
// in place of the mean one:
//
//	Q = pi d a f n = a f v      Q = 12 V f a, V in ft/min, f and a in inches, Q in in3/min
//
// It is high by a/(d - a). Symbols, v for the surface speed, and limits as for
// [TurningRemoval].
func TurningRemovalOutside(diameter, depth, feed units.Length, n units.RotationalSpeed) (units.VolumeFlow, error) {
	if err := turning(diameter, depth, feed, n); err != nil {
		return 0, err
	}
	return units.VolumeFlow(math.Pi * diameter.Metres() * depth.Metres() * feed.Metres() * float64(n/units.RevPerSecond)), nil
}

func turning(diameter, depth, feed units.Length, n units.RotationalSpeed) error {
	if err := above(arg.Named("diameter", diameter), arg.Named("depth of cut", depth), arg.Named("feed", feed)); err != nil {
		return err
	}
	if depth.Scale(2).Cmp(diameter) > 0 {
		return bad("depth of cut", depth.String(), "more than the radius: it is measured on the radius, not on the diameter", "up to "+diameter.Scale(0.5).String(), units.ErrOutOfRange)
	}
	return positive("spindle speed", n)
}

// DrillingRemoval returns the volume of metal that a drill takes out in time:
//
//	Q = pi d^2 / 4 f n
//
// d is the drill, f the feed per turn, n the spindle speed. Geometry. Arguments
// that are not above zero are an [*units.ArgumentError].
func DrillingRemoval(diameter, feed units.Length, n units.RotationalSpeed) (units.VolumeFlow, error) {
	if err := above(arg.Named("drill", diameter), arg.Named("feed", feed)); err != nil {
		return 0, err
	}
	if err := positive("spindle speed", n); err != nil {
		return 0, err
	}
	d := diameter.Metres()
	return units.VolumeFlow(math.Pi / 4 * d * d * feed.Metres() * float64(n/units.RevPerSecond)), nil
}

// MillingRemoval returns the volume of metal that milling takes off in time:
//
//	Q = a w vf
//
// with depth a, width w and table feed vf. Geometry. Arguments that are not
// above zero are an [*units.ArgumentError].
func MillingRemoval(depth, width units.Length, vf units.Speed) (units.VolumeFlow, error) {
	if err := above(arg.Named("depth of cut", depth), arg.Named("width of cut", width)); err != nil {
		return 0, err
	}
	if err := positive("table feed", vf); err != nil {
		return 0, err
	}
	return units.VolumeFlow(depth.Metres() * width.Metres() * float64(vf)), nil
}
