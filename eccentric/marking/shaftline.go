package marking

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// LineHeight returns how far above the axis of a shaft that lies on the plate the point of
// the scribing block stands for a line along it, at an angle from the level one:
//
//	h = d/2 * sin(a)
//
//	d   diameter of the shaft
//	a   angle from the line at the height of the axis, -90 to 90 degrees; below it, below zero
//
// So a keyway or the middle of a sheave is set out on a shaft whose crank lies level. The
// line slides by little where the angle is near a right one: there turn the shaft. Lineham,
// p. 272. See the Example.
func LineHeight(shaft units.Length, a units.Angle) (units.Length, error) {
	if err := fail.Above(fault.Named("diameter of the shaft", shaft)); err != nil {
		return units.Length{}, err
	}
	if !(math.Abs(float64(a)) <= float64(90*units.Degree)) {
		return units.Length{}, fail.OutOfRange("angle of the line", a, "-90 to 90 degrees from the level line")
	}
	return shaft.Scale(math.Sin(float64(a)) / 2), nil // h = d/2 sin a
}
