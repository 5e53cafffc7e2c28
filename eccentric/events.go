package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/units"
)

// Events are what the valve does in one turn, at both ends of the cylinder.
type Events struct{ Head, Crank EndEvents }

// EndEvents are the events at one end of the cylinder. The angles of one end
// follow each other through one turn; admission is the one counted from -180
// to 180 degrees of that end's dead centre.
type EndEvents struct {
	Admission   Event // the port opens to steam
	CutOff      Event // the port closes to steam
	Release     Event // the port opens to exhaust
	Compression Event // the port closes to exhaust

	Steam   PortState // what the port does towards steam
	Exhaust PortState // and towards exhaust

	Lead           units.Length // opening to steam at the dead centre; negative: still closed by so much
	Opening        units.Length // greatest opening to steam, at most the width of the port
	OverTravel     units.Length // how far the steam edge runs past the port; negative: the port is not fully opened
	ExhaustOpening units.Length // greatest opening to exhaust, at most the width of the port
}

// An Event is the moment at which an edge of the valve passes an edge of a
// port.
type Event struct {
	Occurs bool        // false if the edge never gets there; the rest is then zero
	Crank  units.Angle // from that end's own dead centre, in the direction of rotation
	Stroke float64     // where the piston stands, as a share of the stroke from that end
}

// A PortState says whether a port both opens and closes in a turn.
type PortState int

// What a port may do in a turn.
const (
	OpensAndCloses PortState = iota
	NeverOpens
	NeverCloses
)

var portStateNames = names{"state of a port", []string{"opens and closes", "never opens", "never closes"}}

// String returns "opens and closes", "never opens" or "never closes".
func (s PortState) String() string { return portStateNames.text(int(s)) }

// MarshalText implements [encoding.TextMarshaler].
func (s PortState) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *PortState) UnmarshalText(text []byte) error { return portStateNames.set((*int)(s), text) }

// Events returns the events of the gear, with both rods at their true length.
//
// Each event is where the valve passes a lap: with c the displacement wanted
// (S for admission and cut-off, -E for release and compression at the head
// end), and p the angle between the eccentric and the line of stroke,
//
//	tan^2(p/2) = (r + c)(2l - c - r) / ((r - c)(2l - c + r))
//	t = p - 90 degrees - advance   and   t = 270 degrees - p - advance
//
// which for an infinitely long rod is the valve circle of the textbooks,
// sin(t + advance) = c/r (T. Bevan, The Theory of Machines, chapter 5). There is
// no iteration; the angles are good to about 1e-15 of a turn. An event that does
// not happen says so in [Event.Occurs] and is no error. Events fails only where
// [Gear.Validate] does.
func (g Gear) Events() (Events, error) {
	if err := g.Validate(); err != nil {
		return Events{}, err
	}
	m := g.motion()
	sin, cos := math.Sincos(m.advance)
	m.sin, m.cos = m.r*sin, m.r*cos
	var e Events
	m.end(&e.Head, 1)
	m.oblique, m.offset = -m.oblique, -m.offset
	m.end(&e.Crank, -1)
	return e, nil
}

// end fills in the events of the head end (side +1) or the crank end (-1). At
// the crank end the valve's displacement has the other sign and its phase is
// half a turn on; with the dead centre moved by half a turn too, only the
// obliquity and the offset change sign, which the caller sees to.
func (m *motion) end(e *EndEvents, side float64) {
	reach := m.r + m.offset // furthest towards steam
	back := m.r - m.offset  // furthest towards exhaust

	opens, steam := m.crossing(m.steam - m.offset)
	shuts, exhaust := m.crossing(-m.exhaust - m.offset)
	admission, cutOff := opens-m.advance, math.Pi-opens-m.advance
	release, compression := math.Pi-shuts-m.advance, shuts-m.advance+2*math.Pi

	turn := 2 * math.Pi * math.Floor((admission+math.Pi)/(2*math.Pi))
	e.Steam = state(steam, reach > m.steam)
	if steam {
		e.Admission = m.event(admission-turn, side)
		e.CutOff = m.event(cutOff-turn, side)
	}
	e.Exhaust = state(exhaust, back > m.exhaust)
	if exhaust {
		e.Release = m.event(release-turn, side)
		e.Compression = m.event(compression-turn, side)
	}
	e.Lead = length(m.sin + m.oblique*rise(m.cos, m.l) + m.offset - m.steam)
	e.Opening = m.uncovered(reach - m.steam)
	e.OverTravel = length(reach - m.steam - m.port)
	e.ExhaustOpening = m.uncovered(back - m.exhaust)
}

func state(crosses, open bool) PortState {
	switch {
	case crosses:
		return OpensAndCloses
	case open:
		return NeverCloses
	}
	return NeverOpens
}

// event places the piston for crank angle t from the dead centre of one end.
func (m *motion) event(t, side float64) Event {
	sin, cos := math.Sincos(t / 2)
	gone := 2*m.crank*sin*sin + side*rise(2*m.crank*sin*cos, m.rod)
	return Event{Occurs: true, Crank: units.Angle(t), Stroke: gone / (2 * m.crank)}
}
