package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/internal/names"
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

// Driven returns the part of the outward stroke during which the port is open to
// steam, as crank angles of 0 to 180 degrees from that end's own dead centre:
// from admission, or dead centre, to cut-off, or the other dead centre. The two
// are equal when it is never open then. A cylinder starts by itself where one of
// its ends is driven, and an engine of several where one of its cylinders does.
// It is geometry. See the Example.
func (e EndEvents) Driven() (from, to units.Angle) {
	if e.Steam == NeverCloses {
		return 0, halfTurn
	}
	from = min(max(e.Admission.Crank, 0), halfTurn)
	return from, max(from, min(e.CutOff.Crank, halfTurn))
}

// A PortState says whether a port both opens and closes in a turn.
type PortState int

// What a port may do in a turn.
const (
	OpensAndCloses PortState = iota
	NeverOpens
	NeverCloses
)

var portStateNames = names.Set{Package: "eccentric", Type: "PortState", Field: "state of a port", Texts: []string{"opens and closes", "never opens", "never closes"}}

// String returns "opens and closes", "never opens" or "never closes".
func (s PortState) String() string { return portStateNames.Text(int(s)) }

// MarshalText implements [encoding.TextMarshaler].
func (s PortState) MarshalText() ([]byte, error) { return portStateNames.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *PortState) UnmarshalText(text []byte) error {
	return names.Unmarshal(&portStateNames, s, text)
}

// Events returns the events of the gear, with both rods at their true length.
//
// Each event is where the valve passes a lap: with c the displacement wanted
// (S for admission and cut-off, -E for release and compression at the head
// end) less the Offset of the valve, and p the angle between the eccentric and the line of stroke,
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
	c := centre{angle: math.Pi/2 + m.advance}
	c.sin, c.cos = math.Sincos(c.angle / 2)
	sin, cos := math.Sincos(m.advance)
	c.out, c.aside = m.r*sin, m.r*cos

	var e Events
	m.end(&e.Head, &c, 1)
	m.oblique, m.offset = -m.oblique, -m.offset
	m.end(&e.Crank, &c, -1)
	return e, nil
}

// A centre is where the eccentric stands at the dead centre of either end: its
// angle as in [crossing], the sine and cosine of half of it, and how far the
// eccentric stands out towards steam and aside of the line of stroke.
type centre struct{ angle, sin, cos, out, aside float64 }

// end fills in the events of the head end (side +1) or the crank end (-1). At
// the crank end the valve's displacement has the other sign and its phase is
// half a turn on; with the dead centre moved by half a turn too, only the
// obliquity and the offset change sign, which the caller sees to.
func (m *motion) end(e *EndEvents, c *centre, side float64) {
	reach := m.r + m.offset // furthest towards steam
	back := m.r - m.offset  // furthest towards exhaust

	steam, crossesSteam := m.crossing(m.steam - m.offset)
	exhaust, crossesExhaust := m.crossing(-m.exhaust - m.offset)
	turn := 0.0
	if crossesSteam {
		turn = 2 * math.Pi * math.Floor((steam.p-c.angle+math.Pi)/(2*math.Pi))
		e.Admission = m.out(steam, c, turn, side)
		e.CutOff = m.back(steam, c, turn, side)
	}
	if crossesExhaust {
		e.Release = m.back(exhaust, c, turn, side)
		e.Compression = m.out(exhaust, c, turn-2*math.Pi, side)
	}
	e.Steam = state(crossesSteam, reach > m.steam)
	e.Exhaust = state(crossesExhaust, back > m.exhaust)
	e.Lead = length(c.out + m.oblique*rise(c.aside, m.l) + m.offset - m.steam)
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

// out returns the event where the valve passes on its way towards steam, less
// the given whole turns.
func (m *motion) out(at crossing, c *centre, turn, side float64) Event {
	return m.event(at.p-c.angle-turn, at.sin*c.cos-at.cos*c.sin, at.cos*c.cos+at.sin*c.sin, side)
}

// back returns the event where the valve passes on its way back.
func (m *motion) back(at crossing, c *centre, turn, side float64) Event {
	return m.event(2*math.Pi-at.p-c.angle-turn, at.sin*c.cos+at.cos*c.sin, at.sin*c.sin-at.cos*c.cos, side)
}

// event places the piston for crank angle t from the dead centre of one end,
// with the sine and cosine of t/2.
func (m *motion) event(t, sin, cos, side float64) Event {
	gone := 2*m.crank*sin*sin + side*rise(2*m.crank*sin*cos, m.rod)
	return Event{Occurs: true, Crank: units.Angle(t), Stroke: gone / (2 * m.crank)}
}
