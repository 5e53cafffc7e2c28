package screwcut

import (
	"math"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// PitchErrorOnDiameter returns by how much an error of pitch, over the length
// that a nut engages, makes a screw's pitch diameter too large for the nut (a
// nut's too small), whichever way the error goes.
//
//	dE = error * cot A
//
//	A  half the angle of thread
//
// That is 1.732 times for 60 degrees, 1.921 for 55 and 2.273 for 47.5. It puts a
// near train of change wheels beside the tolerance of the pitch diameter. It is
// zero for no thread. A result beyond 1 km is an error. Source: geometry.
func PitchErrorOnDiameter(t thread.Thread, overEngagement units.Length) (units.Length, error) {
	if t.Form() == 0 {
		return units.Length{}, nil
	}
	onDiameter, err := units.Millimetres.Of(overEngagement.Abs().MM() / math.Tan(t.Form().Angle().Radians()/2))
	if err != nil {
		return units.Length{}, fail.OutOfRange("error over the engagement", overEngagement, "less than 400 m either way")
	}
	return onDiameter, nil
}
