package speeds

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("speeds")

// SpindleSpeed returns the rotational speed at which a diameter has the given
// surface speed:
//
//	n = v / (pi * d)
//
//	v  surface speed
//	d  the diameter that governs, see [Operation.GoverningDiameter]
//
// which is 1000 V / (pi D) with V in m/min and D in mm, 12 V / (pi D) with V in
// ft/min and D in inches. Any diameter and speed above zero. The formula is
// geometry and exact; printed tables that used pi = 3.14 lie 0.05 % above it.
// See the Example.
func SpindleSpeed(v units.Speed, diameter units.Length) (units.RotationalSpeed, error) {
	if err := fault.Positive(fail, "cutting speed", v); err != nil {
		return 0, err
	}
	if diameter.Sign() <= 0 {
		return 0, badDiameter(diameter)
	}
	return units.RotationalSpeed(2 * float64(v) / diameter.Metres()), nil // n = v/(pi d), as w = 2 v/d in rad/s
}

// CuttingSpeed returns the surface speed of a diameter at a rotational speed:
//
//	v = pi * d * n
//
// It is the inverse of [SpindleSpeed], with the same symbols and limits. See the
// Example.
func CuttingSpeed(n units.RotationalSpeed, diameter units.Length) (units.Speed, error) {
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return 0, err
	}
	if diameter.Sign() <= 0 {
		return 0, badDiameter(diameter)
	}
	return units.Speed(float64(n) * diameter.Metres() / 2), nil // v = pi d n, as w d/2
}

func badDiameter(d units.Length) error {
	return fail.OutOfRange("diameter", d, "a diameter above zero")
}
