package kernel

import "math"

// A Gear is the sizes on the drawing.
type Gear struct {
	Stroke        float64
	ConnectingRod float64 // between centres; +Inf: infinitely long
	Travel        float64 // of the valve
	EccentricRod  float64 // between centres; +Inf: infinitely long
	Advance       float64

	SteamPort, Bar, MiddlePort float64 // widths along the travel

	ValveLength, Cavity float64 // over the outer edges and between the inner ones
	Offset              float64 // of the valve, towards the crank

	Chest  float64 // inside length; zero: not given
	Lever  float64 // zero: none
	Inside bool    // admission past the inner edges
}

// What a sound gear keeps to.
const (
	Longest  = 1e15 // 1 km, beyond which sums of lengths might not hold
	MinLever = 0.1  // and its inverse, either way
	MaxLever = 10
)

// Sound reports whether such a gear can be: sizes above zero, rods that go over
// their dead centres, a cavity shorter than its valve.
func (g *Gear) Sound() bool {
	return g.Stroke > 0 && g.Stroke <= Longest && g.Travel > 0 && g.Travel <= Longest &&
		g.SteamPort > 0 && g.SteamPort <= Longest && g.Bar > 0 && g.Bar <= Longest &&
		g.MiddlePort > 0 && g.MiddlePort <= Longest &&
		g.Cavity > 0 && g.Cavity < g.ValveLength && g.ValveLength <= Longest &&
		math.Abs(g.Offset) <= Longest && g.Chest >= 0 && g.Chest <= Longest &&
		math.Abs(g.Advance) <= math.Pi && LeverSound(g.Lever) &&
		RodReaches(g.ConnectingRod, g.Stroke, 1) && RodReaches(g.EccentricRod, g.Travel, g.Lever)
}

// LeverSound reports whether a lever of the ratio can be; zero is none.
func LeverSound(ratio float64) bool {
	return ratio == 0 || math.Abs(ratio) >= MinLever && math.Abs(ratio) <= MaxLever
}

// RodReaches reports whether a rod is long enough to turn its crank over; the far
// end of a lever of the given ratio, if any, moves by travel.
func RodReaches(rod, travel, ratio float64) bool {
	if ratio == 0 {
		ratio = 1
	}
	return 2*rod*math.Abs(ratio) > travel && (rod <= Longest || math.IsInf(rod, 1))
}

// Laps returns the steam lap S and the exhaust lap E.
func (g *Gear) Laps() (steam, exhaust float64) {
	outer, inner := g.EdgeLaps()
	if g.Inside {
		return inner, outer
	}
	return outer, inner
}

// EdgeLaps returns the laps of the valve's outer and inner edges.
func (g *Gear) EdgeLaps() (outer, inner float64) {
	bars := 2*g.Bar + g.MiddlePort
	return (g.ValveLength - 2*g.SteamPort - bars) / 2, (bars - g.Cavity) / 2
}

// Motion returns what the formulas of the motion want.
func (g *Gear) Motion() Motion {
	var m Motion
	m.Set(g)
	return m
}

// Set is [Gear.Motion] without the copy, for many gears.
func (m *Motion) Set(g *Gear) {
	m.Stroke, m.Rod, m.Reach, m.EccentricRod = g.Stroke, g.ConnectingRod, g.Travel/2, g.EccentricRod
	m.Advance, m.Port, m.Shift, m.Inside = g.Advance, g.SteamPort, g.Offset, g.Inside
	m.Steam, m.Exhaust = g.Laps()
	if m.Rod > endless {
		m.Rod = endless
	}
	if m.EccentricRod > endless {
		m.EccentricRod = endless
	}
	if g.Lever != 0 {
		m.EccentricRod *= g.Lever
	}
	if g.Inside {
		m.EccentricRod, m.Shift = -m.EccentricRod, -m.Shift
	}
}

// endless is the length of an infinitely long rod: so long that its slant is
// nothing beside any other length, and that the square of it is still a number,
// so that no formula needs another branch.
const endless = 1e150
