package kernel

import "math"

// A Round is what one end of the cylinder goes through in a turn: up to four arcs
// of the crank, one behind the other from the first to a turn later.
type Round struct {
	Arcs [4]Pressing
	Of   int // arcs there are, at least one
}

// A Pressing is an arc of the crank with the law of the pressure over it.
type Pressing struct {
	From, To float64 // crank angle from that end's own dead centre
	State    Supply
	Pressure float64 // throughout, or while the port is shut at Volume
	Volume   float64 // in shares of the swept volume, clearance and all
}

// A Supply is what the port of an end is open to.
type Supply uint8

// What a port may be open to. One that is open to steam and to exhaust counts as
// open to steam.
const (
	Shut Supply = iota
	ToSteam
	ToExhaust
)

// Round returns the course of the cycle whose work [EndEvents.MeanPressure] has, by
// the same order of events. What no port ever lets in or out has the back pressure
// where it has most room: no rule says how much there is of it.
func (e *EndEvents) Round(c *Cycle) Round {
	const turn = 2 * math.Pi
	chest := func(from, to float64) Pressing { return Pressing{from, to, ToSteam, c.Chest, 0} }
	back := func(from, to float64) Pressing { return Pressing{from, to, ToExhaust, c.Back, 0} }
	shut := func(from, to, pressure, stroke float64) Pressing {
		return Pressing{from, to, Shut, pressure, c.Clearance + stroke}
	}
	steam, exhaust := e.Steam == OpensAndCloses, e.Exhaust == OpensAndCloses
	a, o, r, k := e.Admission.Crank, e.CutOff.Crank, e.Release.Crank, e.Compression.Crank
	closed, left := e.CutOff.Stroke, e.Compression.Stroke
	switch {
	case steam && (e.Exhaust == NeverCloses || exhaust && r < o):
		return Round{[4]Pressing{chest(a, o), back(o, a+turn)}, 2}
	case steam && exhaust:
		return Round{[4]Pressing{chest(a, o), shut(o, r, c.Chest, closed), back(r, k), shut(k, a+turn, c.Back, left)}, 4}
	case steam:
		return Round{[4]Pressing{chest(a, o), shut(o, a+turn, c.Chest, closed)}, 2}
	case e.Steam == NeverCloses:
		return Round{[4]Pressing{chest(0, turn)}, 1}
	case exhaust:
		return Round{[4]Pressing{back(r, k), shut(k, r+turn, c.Back, left)}, 2}
	case e.Exhaust == NeverCloses:
		return Round{[4]Pressing{back(0, turn)}, 1}
	}
	return Round{[4]Pressing{shut(0, turn, c.Back, 1)}, 1}
}

// At returns the arc that crank angle t from the end's own dead centre falls into;
// of two that meet there the later one.
func (r *Round) At(t float64) *Pressing {
	const turn = 2 * math.Pi
	start := r.Arcs[0].From
	switch { // most angles are less than a turn off
	case t < start:
		t += turn
	case t >= start+turn:
		t -= turn
	}
	if t < start || t >= start+turn {
		t -= turn * math.Floor((t-start)/turn)
	}
	for i := r.Of - 1; i > 0; i-- {
		if t >= r.Arcs[i].From {
			return &r.Arcs[i]
		}
	}
	return &r.Arcs[0]
}

// At returns the pressure at a volume, in shares of the swept volume, clearance and
// all:
//
//	p*(V/v)^k
func (p *Pressing) At(volume, index float64) float64 {
	switch {
	case p.State != Shut:
		return p.Pressure
	case index == 1:
		return p.Pressure * p.Volume / volume
	}
	return p.Pressure * math.Exp(index*math.Log(p.Volume/volume))
}

// Work returns the integral of p dV between two volumes of the arc, in shares of the
// swept volume, clearance and all. They may lie either way.
func (c *Cycle) Work(p *Pressing, from, to float64) float64 {
	if p.State != Shut {
		return p.Pressure * (to - from)
	}
	return p.At(from, c.Index) * c.along(from, to)
}

// A Place is where the piston stands and how it moves with the crank: its share of
// the stroke from the head end, and of that the first and the second derivative by
// the crank angle.
type Place struct{ Stroke, Moves, Gains float64 }

// Place returns the place of the piston at crank angle t:
//
//	ds/dt   = (sin(t) + sin(t)*cos(t) / q) / 2
//	d2s/dt2 = (cos(t) + cos(2*t) / q + sin(t)^2 * cos(t)^2 / q^3) / 2
//
// with q = sqrt(n^2 - sin(t)^2) and n the rod in cranks.
func (m *Motion) Place(t float64) Place { return m.PlaceOf(math.Sincos(t)) }

// PlaceOf is [Motion.Place] by the sine and the cosine of the angle.
func (m *Motion) PlaceOf(sin, cos float64) Place {
	l, y, x := m.Rod/m.Stroke, sin/2, cos/2 // in strokes
	q := math.Sqrt((l - y) * (l + y))
	over, yy, xx := 1/q, y*y, x*x
	return Place{
		Stroke: 0.5 - x + yy/(l+q),
		Moves:  y + y*x*over,
		Gains:  x + over*(xx-yy+yy*xx*over*over),
	}
}
