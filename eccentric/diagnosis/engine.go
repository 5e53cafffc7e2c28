package diagnosis

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// The unknowns of an engine, in millimetres and radians, by which vectors are
// indexed.
const (
	advance = iota
	shift   // of the valve off centre, towards opening the head port
	reach   // half the travel of what drives the valve
	steamHead
	steamCrank
	exhaustHead
	exhaustCrank
	lost // motion
	portHead
	portCrank
	unknowns
)

// A vector is a value for each of the unknowns, or how far each is off.
type vector [unknowns]float64

// add returns v + by*w.
func (v vector) add(by float64, w *vector) vector {
	for i := range v {
		v[i] += by * w[i]
	}
	return v
}

func (v *vector) dot(w *vector) (sum float64) {
	for i := range v {
		sum += v[i] * w[i]
	}
	return sum
}

// millimetre is one in the numbers of the kernel.
const millimetre = 1e9

// A drawing is what of an engine is taken to be as drawn, and the unknowns as they
// are drawn.
type drawing struct {
	gear   eccentric.Gear
	l      float64 // eccentric rod, with the sign and the lever of kernel.Motion
	rod    float64 // connecting rod over the stroke
	inside bool
	drawn  vector
}

func drawingOf(g eccentric.Gear) drawing {
	k := g.Kernel()
	m := k.Motion()
	return drawing{
		gear: g, l: m.EccentricRod / millimetre, rod: m.Rod / m.Stroke, inside: m.Inside,
		drawn: vector{
			advance: m.Advance, shift: m.Shift / millimetre, reach: m.Reach / millimetre,
			steamHead: m.Steam[kernel.Head] / millimetre, steamCrank: m.Steam[kernel.Crank] / millimetre,
			exhaustHead: m.Exhaust[kernel.Head] / millimetre, exhaustCrank: m.Exhaust[kernel.Crank] / millimetre,
			lost:     2 * m.Late / millimetre,
			portHead: m.Port[kernel.Head] / millimetre, portCrank: m.Port[kernel.Crank] / millimetre,
		},
	}
}

// A view is an engine as it is seen from one end, where the valve opens that end's
// port to steam with displacements above zero.
type view struct {
	r, d, late, shift    float64
	steam, exhaust, port float64
	l                    float64
	sign                 float64 // of shift beside the head end's
	steamAt, exhaustAt   int     // the unknowns of that end
	portAt               int
	edge                 bool // of the port is out of its place, so that the port is not as wide as drawn
}

func (g *drawing) from(end eccentric.End, v *vector) view {
	w := view{r: v[reach], d: v[advance], late: v[lost] / 2}
	if end == eccentric.CrankEnd {
		w.sign, w.l = -1, -g.l
		w.steamAt, w.exhaustAt, w.portAt = steamCrank, exhaustCrank, portCrank
	} else {
		w.sign, w.l = 1, g.l
		w.steamAt, w.exhaustAt, w.portAt = steamHead, exhaustHead, portHead
	}
	w.shift = w.sign * v[shift]
	w.steam, w.exhaust, w.port = v[w.steamAt], v[w.exhaustAt], v[w.portAt]
	w.edge = math.Abs(w.port-g.drawn[w.portAt]) > usualOff
	return w
}

// driven returns how far what drives the valve is displaced with the eccentric at
// angle a, and what a and r change of it.
func (w *view) driven(a float64) (x, byAngle, byReach float64) {
	sin, cos := math.Sincos(a)
	u := w.r * cos
	root := math.Copysign(math.Sqrt(max(w.l*w.l-u*u, 1e-6*w.l*w.l)), w.l)
	slope := u / root
	x = w.r*sin + u*u/(w.l+root) // x = r*sin(a) + l - sqrt(l^2 - (r*cos(a))^2)
	return x, u - slope*w.r*sin, sin + slope*cos
}

// valve puts the valve's displacement with the eccentric at angle a, before its
// shift, with the slopes of it.
func (w *view) valve(a float64, slope *vector) float64 {
	x, byAngle, byReach := w.driven(a)
	out := math.Cos(a) >= 0
	moved := x - w.late // as in kernel.Motion
	rest := w.late - w.r
	side := 1.0
	if !out {
		moved, rest, side = x+w.late, w.r-w.late, -1
	}
	if side*moved < side*rest {
		slope[reach], slope[lost] = -side, side/2
		return rest
	}
	slope[advance], slope[reach], slope[lost] = byAngle, byReach, -side/2
	return moved
}

// leastSlope is what of half the travel the valve is taken to move in a radian at
// the least, where the slope of an event is wanted.
const leastSlope = 0.08

// event returns the crank angle at which the valve passes a lap, with its slopes,
// and how far the edge gets beyond; not above zero where the event does not happen,
// and the angle is then that at which it comes nearest.
func (w *view) event(k Kind, slope *vector) (t, beyond float64) {
	c, at, toLap := w.steam, w.steamAt, 1.0
	if k == Release || k == Compression {
		c, at, toLap = -w.exhaust, w.exhaustAt, -1
	}
	c -= w.shift
	beyond = w.r - w.late - math.Abs(c)
	out, late := k == Admission || k == Compression, w.late
	if !out {
		late = -late
	}
	most := w.r * (1 - 1e-6)
	p := kernel.Passing(min(max(c+late, -most), most), w.r, w.l)
	a := p - math.Pi/2
	if !out {
		a = 3*math.Pi/2 - p
	}
	_, speed, byReach := w.driven(a)
	if out {
		speed = max(speed, leastSlope*w.r)
	} else {
		speed = min(speed, -leastSlope*w.r)
	}
	slope[advance] = -1
	slope[shift] = -w.sign / speed
	slope[at] = toLap / speed
	slope[reach] = -byReach / speed
	slope[lost] = 0.5 / math.Abs(speed)
	return a - w.d, beyond
}

// gone returns the share of the stroke that the piston has gone at crank angle t
// from this end, and the slope of it.
func (g *drawing) gone(t, sign float64) (share, slope float64) {
	rod := sign * g.rod
	sin, cos := math.Sincos(t)
	q := sin / 2
	root := math.Copysign(math.Sqrt(rod*rod-q*q), rod)
	return kernel.Gone(t, rod), q + q/root*cos/2
}

// put returns the drawing's gear with a part that is off by so much; false where
// there is no such gear.
func (g *drawing) put(gear eccentric.Gear, p Part) (eccentric.Gear, bool) {
	by := p.Length
	crank := p.End == eccentric.CrankEnd
	switch p.Fault {
	case WrongAdvance, OtherHand, HalfTurnOut, InLine, NoAdvance:
		gear.Advance = units.Angle(math.Remainder(float64(gear.Advance+p.Angle), 2*math.Pi))
	case ValveOffCentre:
		gear.Valve.Offset = gear.Valve.Offset.Add(by)
	case WrongTravel:
		gear.Travel = gear.Travel.Add(by)
	case LostMotion:
		gear.Valve.LostMotion = gear.Valve.LostMotion.Add(by)
	case WrongSteamLap, WrongExhaustLap:
		outer := (p.Fault == WrongSteamLap) != g.inside
		switch {
		case p.End == eccentric.BothEnds && outer:
			gear.Valve.Length = gear.Valve.Length.Add(by.Scale(2))
		case p.End == eccentric.BothEnds:
			gear.Valve.Cavity = gear.Valve.Cavity.Sub(by.Scale(2))
		default:
			gear.Ports = withEdge(gear.Ports, crank, outer, by)
		}
	}
	return gear, gear.Validate() == nil
}

// withEdge returns the ports with one edge of one port to the cylinder further under
// the valve by so much: the outer one inwards, or the inner one outwards.
func withEdge(p eccentric.Ports, crank, outer bool, by units.Length) eccentric.Ports {
	headPort, headBar := p.At(eccentric.HeadEnd)
	port, bar := p.At(eccentric.CrankEnd)
	changed, changedBar := &headPort, &headBar
	if crank {
		changed, changedBar = &port, &bar
	}
	*changed = changed.Sub(by)
	if !outer {
		*changedBar = changedBar.Add(by)
	}
	p.Steam, p.Bar, p.CrankSteam, p.CrankBar = headPort, headBar, port, bar
	return p
}
