package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
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
// its ends is driven, and an engine of several where one of its cylinders does,
// if no port is open to steam while that of the other end is. With a steam lap below
// zero both may be and their pushes cancel: the finding [BlindArc] takes that off. Of
// a port that is open from the end of one stroke out into the next, as in gears for
// the other direction, it is the part at the end.
// It is geometry. See the Example.
func (e EndEvents) Driven() (from, to units.Angle) {
	if e.Steam == NeverCloses {
		return 0, math.Pi
	}
	from = min(max(e.Admission.Crank, 0), math.Pi)
	return from, max(from, min(e.CutOff.Crank, math.Pi))
}

// Compresses reports whether the port shuts to exhaust before the dead centre, so
// that what is left in the cylinder is compressed: whether Compression occurs, and
// not past 360 degrees, where the piston is on its way out again. It is geometry.
// See the Example.
func (e EndEvents) Compresses() bool {
	return e.Compression.Occurs && e.Compression.Crank <= 2*math.Pi
}

// MeanLead returns the mean of the leads at both ends, which is the lead that both
// have once the valve is set by [Gear.OffsetForEqualLead]. See its Example.
func (e Events) MeanLead() units.Length { return e.Head.Lead.Add(e.Crank.Lead).Scale(0.5) }

// Events returns the events of the gear, with both rods at their true length.
// Each is where the valve passes a lap:
//
//	tan(p/2)^2 = (r + c)*(2*l - c - r) / ((r - c)*(2*l - c + r))
//	t = p - 90 degrees - d     on the valve's way out: admission, compression
//	t = 270 degrees - p - d    on its way back: cut-off, release
//
//	c      displacement wanted: S for steam, -E for exhaust, less the valve's Offset (head end);
//	       half of LostMotion more on the way out, and less on the way back
//	p      angle of the eccentric from its place furthest from admission
//	r, l   half the travel and eccentric rod
//	d      angle of advance
//
// For an infinitely long rod that is the valve circle of the textbooks,
// sin(t + d) = c/r (T. Bevan, The Theory of Machines, chapter 5). There is no
// iteration; the angles are good to about 1e-15 of a turn. An event that does not
// happen says so in [Event.Occurs] and is no error. Events fails only where
// [Gear.Validate] does. See the Examples.
func (g Gear) Events() (e Events, err error) {
	var k kernel.Gear
	g.set(&k)
	if !k.Sound() {
		return e, g.validate()
	}
	if err = g.validatePorts(); err != nil {
		return e, err
	}
	var m kernel.Motion
	var found kernel.Events
	m.Set(&k)
	m.Events(&found)
	e.set(&found)
	return e, nil
}

func (e *Events) set(k *kernel.Events) {
	e.Head.set(&k.Head)
	e.Crank.set(&k.Crank)
}

func (e *EndEvents) set(k *kernel.EndEvents) {
	e.Admission.set(&k.Admission)
	e.CutOff.set(&k.CutOff)
	e.Release.set(&k.Release)
	e.Compression.set(&k.Compression)
	e.Steam, e.Exhaust = PortState(k.Steam), PortState(k.Exhaust)
	e.Lead, e.Opening = length(k.Lead), length(k.Opening)
	e.OverTravel, e.ExhaustOpening = length(k.OverTravel), length(k.ExhaustOpening)
}

func (e *Event) set(k *kernel.Event) {
	e.Occurs, e.Crank, e.Stroke = k.Occurs, units.Angle(k.Crank), k.Stroke
}
