// Package dial turns a hole pattern into what to set on the machine: readings of
// the handwheels of a milling table or coordinate drill, with backlash taken up
// the same way every time, and angle and radius for a rotary table.
//
// The arithmetic is exact down to the division of the dial; what is left over is
// given with every setting. It is geometry and needs no source; the tests work
// the dials out by hand and prove them on random points. The turns of the crank that
// space n holes equally are in package speeds/dividing, which has the circles of
// the plates.
package dial

import "github.com/valvechest/valvechest/units"

const (
	maxPoints = 100_000
	maxTurnMM = 1000 // travel per turn
	maxRadius = 1e6  // of a point on a rotary table, in millimetres
)

func bad(field, value, accepted string) error {
	return &units.ArgumentError{Package: "dial", Field: field, Value: value, Accepted: accepted, Err: units.ErrOutOfRange}
}
