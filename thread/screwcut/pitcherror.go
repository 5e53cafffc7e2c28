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
// zero for no thread. Source: geometry.
func PitchErrorOnDiameter(t thread.Thread, overEngagement units.Length) units.Length {
	if t.Form() == 0 {
		return units.Length{}
	}
	return overEngagement.Abs().Scale(1 / math.Tan(t.Form().Angle().Radians()/2))
}
