package kernel

import "math"

// An End is an end of the cylinder, or what concerns the whole gear.
type End uint8

// The ends, by which arrays are indexed.
const (
	Both End = iota
	Head
	Crank
	Ends = iota // how many
)

// Other returns the other end of the cylinder.
func (e End) Other() End { return Head + Crank - e }

// Events are what the valve does in one turn.
type Events struct{ Head, Crank EndEvents }

// At returns the events of one end.
func (e *Events) At(end End) *EndEvents {
	if end == Crank {
		return &e.Crank
	}
	return &e.Head
}

// EndEvents are the events of one end.
type EndEvents struct {
	Admission, CutOff, Release, Compression Event

	Steam, Exhaust State

	Lead           float64
	Opening        float64 // greatest, to steam
	OverTravel     float64 // of the steam edge past the port
	ExhaustOpening float64 // greatest
}

// An Event is when an edge of the valve passes an edge of a port; the zero Event
// is none.
type Event struct {
	Occurs bool
	Crank  float64 // from that end's own dead centre
	Stroke float64 // share of the stroke gone from that end
}

// A State says whether a port both opens and closes in a turn.
type State uint8

// What a port may do in a turn.
const (
	OpensAndCloses State = iota
	NeverOpens
	NeverCloses
)

// MeanLead returns the mean of the leads at both ends.
func (e *Events) MeanLead() float64 { return (e.Head.Lead + e.Crank.Lead) / 2 }

// Events fills in the events of both ends, whatever e held before.
func (m *Motion) Events(e *Events) {
	rows := allMarks()
	c := centre{angle: math.Pi/2 + m.Advance}
	c.sin, c.cos = math.Sincos(c.angle / 2)
	e.Head.Lead, e.Crank.Lead = m.leads(c.sin, c.cos)

	c.rod, c.eccentricRod, c.shift = m.Rod/m.Stroke, m.EccentricRod, m.Shift
	m.end(&e.Head, Head, &c, rows)
	// At the crank end the valve's displacement has the other sign and its phase
	// is half a turn on; with the dead centre moved by half a turn too, only the
	// slant of both rods and the offset change sign.
	c.rod, c.eccentricRod, c.shift = -c.rod, -c.eccentricRod, -c.shift
	m.end(&e.Crank, Crank, &c, rows)
}

// leads returns the leads of both ends; see [Motion.deadCentres].
func (m *Motion) leads(sin, cos float64) (head, crank float64) {
	head, crank = m.deadCentres(sin, cos)
	return head + m.Shift - m.Steam[Head], crank - m.Shift - m.Steam[Crank]
}

// A centre is the dead centre of one end: the angle by which the eccentric then
// leads its place furthest from opening that end's port to steam, with the sine
// and the cosine of half of it, and the rods and the valve's offset as they are
// seen from that end.
type centre struct{ angle, sin, cos, rod, eccentricRod, shift float64 }

// end fills in what happens at one end, all but the lead.
func (m *Motion) end(e *EndEvents, end End, c *centre, rows *[markRows]mark) {
	steam, exhaust, port, late := m.Steam[end], m.Exhaust[end], m.Port[end], m.Late
	r, angle, sinA, cosA, rod, l, shift := m.Reach, c.angle, c.sin, c.cos, c.rod, c.eccentricRod, c.shift
	reach := r - late + shift - steam  // furthest past the edge towards steam
	back := r - late - shift - exhaust // and towards exhaust
	e.Opening = Uncovered(reach, port)
	e.OverTravel = reach - port
	e.ExhaustOpening = Uncovered(back, port)

	turns := 0.0 // whole turns before this dead centre's admission, in radians
	// With lost motion what drives the valve is further out than it on the way out, and on the way back further back.
	if s := steam - shift; s+late < r && s-late > -r {
		sin, cos := passing(s+late, r, l)
		p := arc(rows, sin, cos)
		t := p - angle
		if t >= math.Pi {
			turns = 2 * math.Pi
		} else if t < -math.Pi {
			turns = -2 * math.Pi
		}
		e.Steam = OpensAndCloses
		// t = p - 90 degrees - advance on the way out, and 270 degrees - p - advance on the way back.
		place(&e.Admission, t-turns, sin*cosA-cos*sinA, cos*cosA+sin*sinA, rod)
		if late != 0 {
			sin, cos = passing(s-late, r, l)
			p = arc(rows, sin, cos)
		}
		place(&e.CutOff, 2*math.Pi-p-angle-turns, sin*cosA+cos*sinA, sin*sinA-cos*cosA, rod)
	} else {
		e.Steam = shut(reach > 0)
		e.Admission, e.CutOff = Event{}, Event{}
	}
	if s := -exhaust - shift; s+late < r && s-late > -r {
		sin, cos := passing(s-late, r, l)
		p := arc(rows, sin, cos)
		e.Exhaust = OpensAndCloses
		place(&e.Release, 2*math.Pi-p-angle-turns, sin*cosA+cos*sinA, sin*sinA-cos*cosA, rod)
		if late != 0 {
			sin, cos = passing(s+late, r, l)
			p = arc(rows, sin, cos)
		}
		place(&e.Compression, p-angle-turns+2*math.Pi, sin*cosA-cos*sinA, cos*cosA+sin*sinA, rod)
	} else {
		e.Exhaust = shut(back > 0)
		e.Release, e.Compression = Event{}, Event{}
	}
}

// shut is the state of a port that does not both open and close.
func shut(open bool) State {
	if open {
		return NeverCloses
	}
	return NeverOpens
}

// place sets the event at crank angle t from one dead centre, with the sine and
// the cosine of t/2.
func place(e *Event, t, sin, cos, rod float64) {
	e.Occurs, e.Crank = true, t
	e.Stroke = sin*sin + rise(sin*cos, rod) // s / 2R, with s as in [Motion.Piston]
}
