package kernel

import "math"

// A Gear is the sizes on the drawing.
type Gear struct {
	Stroke        float64
	ConnectingRod float64 // between centres; +Inf: infinitely long
	Travel        float64 // of the valve
	EccentricRod  float64 // between centres; +Inf: infinitely long
	Advance       float64

	SteamPort, Bar, MiddlePort float64 // widths along the travel, of the head end
	CrankSteamPort, CrankBar   float64 // and of the crank end, always there

	ValveLength, Cavity float64 // over the outer edges and between the inner ones
	Offset              float64 // of the valve, towards the crank
	CavityOffset        float64 // of the middle of the cavity from that of the valve, towards the crank
	LostMotion          float64 // between sheave and valve, in all, at the valve

	Chest  float64 // inside length; zero: not given
	Lever  float64 // zero: none
	Inside bool    // admission past the inner edges
	Placed bool    // Advance was stated by where the eccentric stands; only slips of statement depend on it
}

// What a sound gear keeps to.
const (
	Longest  = 1e15 // 1 km, beyond which sums of lengths might not hold
	MinLever = 0.1  // and its inverse, either way
	MaxLever = 10
)

// Sound reports whether such a gear can be: sizes above zero, rods that go over
// their dead centres, a land at each end of the valve, and a valve that moves.
func (g *Gear) Sound() bool {
	return g.Stroke > 0 && g.Stroke <= Longest && g.Travel > 0 && g.Travel <= Longest &&
		g.SteamPort > 0 && g.SteamPort <= Longest && g.Bar > 0 && g.Bar <= Longest &&
		g.CrankSteamPort > 0 && g.CrankSteamPort <= Longest && g.CrankBar > 0 && g.CrankBar <= Longest &&
		g.MiddlePort > 0 && g.MiddlePort <= Longest &&
		g.Cavity > 0 && g.Cavity+2*math.Abs(g.CavityOffset) < g.ValveLength && g.ValveLength <= Longest &&
		g.LostMotion >= 0 && g.LostMotion < g.Travel && math.Abs(g.Offset) <= Longest && g.Chest >= 0 && g.Chest <= Longest &&
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

// Laps returns the steam lap S and the exhaust lap E of one end, or for [Both]
// the mean of both.
func (g *Gear) Laps(end End) (steam, exhaust float64) {
	outer, inner := g.EdgeLaps(end)
	if g.Inside {
		return inner, outer
	}
	return outer, inner
}

// EdgeLaps returns the laps of the valve's outer and inner edges at one end, or
// for [Both] the mean of both.
func (g *Gear) EdgeLaps(end End) (outer, inner float64) {
	port, bar := g.Port(end)
	off := g.CavityOffset
	switch end {
	case Both:
		off = 0
	case Crank:
		off = -off
	}
	outer = (g.ValveLength-g.MiddlePort)/2 - bar - port // S = V/2 - (M/2 + bar + port)
	inner = (g.MiddlePort-g.Cavity)/2 + bar + off       // E = M/2 + bar +- c - C/2
	return outer, inner
}

// Port returns the widths of the port to the cylinder and of the bar at one end,
// or for [Both] the mean of both.
func (g *Gear) Port(end End) (port, bar float64) {
	switch end {
	case Head:
		return g.SteamPort, g.Bar
	case Crank:
		return g.CrankSteamPort, g.CrankBar
	}
	return (g.SteamPort + g.CrankSteamPort) / 2, (g.Bar + g.CrankBar) / 2
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
	m.Advance, m.Shift, m.Inside, m.Late = g.Advance, g.Offset, g.Inside, g.LostMotion/2
	m.Port = [Ends]float64{(g.SteamPort + g.CrankSteamPort) / 2, g.SteamPort, g.CrankSteamPort}
	// As in [Gear.EdgeLaps], both ends at once.
	outer, inner, off := (g.ValveLength-g.MiddlePort)/2, (g.MiddlePort-g.Cavity)/2, g.CavityOffset
	outerHead, outerCrank := outer-g.Bar-g.SteamPort, outer-g.CrankBar-g.CrankSteamPort
	innerHead, innerCrank := inner+g.Bar+off, inner+g.CrankBar-off
	m.Steam = [Ends]float64{(outerHead + outerCrank) / 2, outerHead, outerCrank}
	m.Exhaust = [Ends]float64{(innerHead + innerCrank) / 2, innerHead, innerCrank}
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
		m.Steam, m.Exhaust = m.Exhaust, m.Steam
	}
}

// endless is the length of an infinitely long rod: so long that its slant is
// nothing beside any other length, and that the square of it is still a number,
// so that no formula needs another branch.
const endless = 1e150
