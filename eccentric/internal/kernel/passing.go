package kernel

import "math"

// Passing returns the angle p, of 0 to 180 degrees, by which the eccentric has
// turned from its place furthest from opening a port to steam when the valve,
// before its offset, passes displacement c on its way there; on its way back it
// passes at 360 degrees - p. c is not beyond r either way, l is negative where the
// slant of the rod works against opening the port. It rises with c.
func Passing(c, r, l float64) float64 {
	sin, cos := passing(c, r, l)
	return arc(allMarks(), sin, cos)
}

// Gone returns the share of the stroke that the piston has gone from an end at
// crank angle t from the dead centre of that end; rod is the connecting rod over
// the stroke, negative at the crank end.
func Gone(t, rod float64) float64 {
	var e Event
	sin, cos := math.Sincos(t / 2)
	place(&e, t, sin, cos, rod)
	return e.Stroke
}
