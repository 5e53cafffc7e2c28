package kernel

import "math"

// Reach returns how far the valve goes towards opening one end's port to steam.
func (g *Gear) Reach(end End) float64 {
	if (end == Crank) != g.Inside {
		return (g.Travel-g.LostMotion)/2 - g.Offset
	}
	return (g.Travel-g.LostMotion)/2 + g.Offset
}

// Passage returns how much of the middle port the valve leaves open when it has
// gone furthest towards opening one end to steam; not above zero where it shuts
// the port.
func (g *Gear) Passage(end End) float64 {
	in := g.Land(end)
	_, near := g.EdgeLaps(in)
	_, far := g.EdgeLaps(in.Other())
	_, bar := g.Port(in)
	_, farBar := g.Port(in.Other())
	reach := g.Reach(end)
	// The land that has moved in leaves so much; the other is in the way only where the valve is far off centre.
	return min(g.MiddlePort+bar-near-reach, g.MiddlePort+farBar-far+reach, g.MiddlePort, g.Cavity)
}

// Seal returns how much of a bar the valve's outer edge still covers at the same
// moment; below zero it has run past the bar.
func (g *Gear) Seal(end End) float64 {
	in := g.Land(end)
	outer, _ := g.EdgeLaps(in)
	port, bar := g.Port(in)
	return outer + port + bar - g.Reach(end)
}

// Land returns the end whose land has moved in towards the middle port at the
// same moment.
func (g *Gear) Land(end End) End {
	if g.Inside {
		return end.Other()
	}
	return end
}

// Fed returns the end that the middle port serves at the same moment: it takes
// the exhaust of the other end, or with inside admission feeds this one.
func (g *Gear) Fed(end End) End {
	if g.Inside {
		return end
	}
	return end.Other()
}

// ChestFree returns the room that is left at either end of the chest at full
// travel, below zero where the valve strikes it; false if there is no chest.
func (g *Gear) ChestFree() (float64, bool) {
	return (g.Chest - g.Swept()) / 2, g.Chest != 0
}

// Swept returns the length of a chest, centred on the middle port, whose ends the
// valve just does not strike.
func (g *Gear) Swept() float64 {
	return g.ValveLength + (g.Travel - g.LostMotion) + 2*math.Abs(g.Offset)
}

// Sweep returns how near to the middle of the port face and how far from it both
// ends of the valve come.
func (g *Gear) Sweep() (nearest, furthest float64) {
	edge, off, reach := g.ValveLength/2, math.Abs(g.Offset), (g.Travel-g.LostMotion)/2
	return edge - reach - off, edge + reach - off
}

// PortsEnd returns where one end's port to the cylinder ends, from the middle of
// the middle port.
func (g *Gear) PortsEnd(end End) float64 {
	port, bar := g.Port(end)
	return g.MiddlePort/2 + bar + port
}
