package kernel

import "math"

const (
	// LeastMove is the least by which a valve on its rod is worth moving: leads are set
	// by feelers, whose thinnest leaf is most often 0.05 mm or 2 thou, and half a turn
	// of a nut is five times as much. Common practice.
	LeastMove = 50e6

	// LeastTurn is the least by which an eccentric is worth turning: a protractor on a
	// small flywheel reads to a degree, which on a shaft of 6 mm is an arc of 0.05 mm.
	// Common practice.
	LeastTurn = math.Pi / 180
)

// Stood returns how the gear stands whose leads are the given ones: the angle of
// advance, of -pi/2 to pi/2, and the displacement of the valve. The sum of the leads
// depends on the sheave alone, and their difference, when that is known, on the valve.
// It is false where the travel does not reach such leads.
func (m Motion) Stood(head, crank float64) (advance, shift float64, ok bool) {
	advance, ok = m.AdvanceFor((head+crank)/2, Both)
	if !ok {
		return 0, 0, false
	}
	m.Advance = advance
	return advance, m.EqualLeadShift() + (head-crank)/2, true
}
