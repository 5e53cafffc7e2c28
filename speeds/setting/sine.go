package setting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// SineBar returns the height of the gauge blocks under one roller of a sine bar:
//
//	h = L * sin(a)
//
//	L  distance of the rollers
//	a  angle, from 0 to 60 degrees
//
// Above 45 degrees a small error of the stack is a large one of the angle: turn
// the work through the complement where that can be done. See the Example.
func SineBar(rollers units.Length, angle units.Angle) (units.Length, error) {
	if err := fail.Above(fault.Named("distance of the rollers", rollers)); err != nil {
		return units.Length{}, err
	}
	if !(angle >= 0 && angle <= 60*units.Degree) {
		return units.Length{}, fail.OutOfRange("angle", angle, "0 to 60 degrees")
	}
	return rollers.Scale(math.Sin(angle.Radians())), nil // h = L sin(a)
}

// SineBarAngle returns the angle that a stack under a sine bar gives, the
// inverse of [SineBar]. Stacks from zero up to sin(60 degrees) of the bar. See the
// Example of SineBar.
func SineBarAngle(rollers, stack units.Length) (units.Angle, error) {
	if err := fail.Above(fault.Named("distance of the rollers", rollers)); err != nil {
		return 0, err
	}
	ratio := stack.Ratio(rollers)
	if !(ratio >= 0 && ratio <= math.Sin(60*units.Degree.Radians())*(1+1e-12)) {
		return 0, fail.OutOfRange("stack", stack, "zero up to 0.866 of the distance of the rollers")
	}
	return units.Angle(math.Asin(ratio)), nil
}
