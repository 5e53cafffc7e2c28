package indicator

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Cycle is what one cylinder does in one turn. Its pressures are absolute.
type Cycle struct {
	Head, Crank EndCycle
	Work        units.Energy // net, of both ends
}

// At returns one end's part; of [eccentric.BothEnds] the head end's.
func (c Cycle) At(end eccentric.End) EndCycle {
	if end == eccentric.CrankEnd {
		return c.Crank
	}
	return c.Head
}

// An EndCycle is what happens at one end of the cylinder.
type EndCycle struct {
	Area      units.Area   // of the piston on this side
	Swept     units.Volume // area times stroke
	Clearance units.Volume

	// The events, each with the piston's place and the pressures just before and
	// after it. One that does not occur is all zero.
	Admission, CutOff, Release, Compression State

	Work         units.Energy   // net, of one turn
	MeanPressure units.Pressure // the same over the swept volume
	Expansion    float64        // volume at release over that at cut-off; zero where it does not expand between them

	Highest, Lowest units.Pressure // in the whole turn, absolute
}

// A State is that of one end at an event.
type State struct {
	Occurs        bool
	Crank         units.Angle    // from that end's own dead centre
	Stroke        float64        // gone from that end
	Volume        units.Volume   // behind the piston, clearance and all
	Before, After units.Pressure // absolute; they differ where a port opens
}

// Cycle returns what one cylinder does in one turn. The work of an end is the closed
// integral of p dV over the cycle of the package comment,
//
//	ps*(Vo - Va) + ps*Vo*f(Vr/Vo) + pb*(Vk - Vr) + pb*Vk*f(Va/Vk)
//	f(x) = (x^(1-k) - 1) / (1 - k), and ln(x) for k = 1
//
//	ps, pb          pressures in the chest and of the exhaust, absolute
//	Va, Vo, Vr, Vk  volumes at admission, cut-off, release and compression
//	k               index of expansion
//
// where these follow each other so; eccentric.Gear.Check judges by the same. The
// mean pressure is the net work over that end's swept volume. It is arithmetic on the
// ideal cycle, exact to about 1e-12 of ps times the swept volume, and fails only where
// [Running.Validate] does. See the Example.
func (r Running) Cycle() (Cycle, error) {
	if err := r.Validate(); err != nil {
		return Cycle{}, err
	}
	m := r.model()
	return m.cycle(), nil
}

// A model is the engine in plain SI numbers, lengths of the kernel's motion apart.
type model struct {
	motion    kernel.Motion
	events    kernel.Events
	ends      [kernel.Ends]side
	air       float64
	stroke    float64
	mass      float64
	omega     float64
	rodEnd    float64 // area of the piston rod, on which the atmosphere pushes
	cylinders []float64
}

// A side is one end of the cylinder.
type side struct {
	area   float64
	cycle  kernel.Cycle
	round  kernel.Round
	events *kernel.EndEvents
}

const metres = 1e-12 // of a picometre

func (r *Running) model() *model {
	k := r.Gear.Kernel()
	m := &model{
		motion: k.Motion(), stroke: k.Stroke * metres, air: float64(r.air()),
		mass: float64(r.Moving), omega: float64(r.Speed),
	}
	m.motion.Events(&m.events)
	bore, rod := float64(r.Bore.Picometres())*metres, float64(r.PistonRod.Picometres())*metres
	m.rodEnd = math.Pi / 4 * rod * rod
	head := kernel.Cycle{
		Chest: float64(r.Absolute(r.Chest)), Back: float64(r.Absolute(r.Back)),
		Clearance: r.Clearance.Head, Index: r.Index,
	}
	crank := head
	crank.Clearance = r.Clearance.Crank
	m.set(kernel.Head, head, math.Pi/4*bore*bore)
	m.set(kernel.Crank, crank, math.Pi/4*(bore-rod)*(bore+rod))
	m.cylinders = make([]float64, 1, 1+len(r.Cranks))
	for _, ahead := range r.Cranks {
		m.cylinders = append(m.cylinders, float64(ahead))
	}
	return m
}

func (m *model) set(end kernel.End, c kernel.Cycle, area float64) {
	e := m.events.At(end)
	m.ends[end] = side{area: area, cycle: c, round: e.Round(&c), events: e}
}

func (m *model) cycle() Cycle {
	c := Cycle{Head: m.ends[kernel.Head].endCycle(m.stroke), Crank: m.ends[kernel.Crank].endCycle(m.stroke)}
	c.Head.Highest, c.Head.Lowest = m.span(kernel.Head)
	c.Crank.Highest, c.Crank.Lowest = m.span(kernel.Crank)
	c.Work = c.Head.Work + c.Crank.Work
	return c
}

func (s *side) endCycle(stroke float64) EndCycle {
	swept := s.area * stroke
	mean := s.events.MeanPressure(&s.cycle)
	e := EndCycle{
		Area: units.Area(s.area), Swept: units.Volume(swept), Clearance: units.Volume(s.cycle.Clearance * swept),
		Admission: s.state(&s.events.Admission, swept), CutOff: s.state(&s.events.CutOff, swept),
		Release: s.state(&s.events.Release, swept), Compression: s.state(&s.events.Compression, swept),
		Work: units.Energy(mean * swept), MeanPressure: units.Pressure(mean),
	}
	if e.CutOff.Occurs && e.Release.Occurs && s.round.At(float64(e.CutOff.Crank)).State == kernel.Shut &&
		e.Release.Volume > e.CutOff.Volume {
		e.Expansion = float64(e.Release.Volume / e.CutOff.Volume)
	}
	return e
}

// span returns the highest and the lowest pressure of a turn. While the port is shut
// they are at the ends of the arc, or where the piston turns back.
func (m *model) span(end kernel.End) (highest, lowest units.Pressure) {
	s := &m.ends[end]
	lowest = units.Pressure(math.Inf(1))
	for i := range s.round.Of {
		arc := &s.round.Arcs[i]
		at := func(stroke float64) {
			p := units.Pressure(arc.At(s.cycle.Clearance+stroke, s.cycle.Index))
			highest, lowest = max(highest, p), min(lowest, p)
		}
		at(m.gone(end, arc.From))
		at(m.gone(end, arc.To))
		for turn := math.Ceil(arc.From / math.Pi); turn*math.Pi < arc.To; turn++ {
			at(math.Abs(math.Remainder(turn, 2)))
		}
	}
	return highest, lowest
}

// gone returns the share of the stroke gone from an end at crank angle t from its own
// dead centre.
func (m *model) gone(end kernel.End, t float64) float64 {
	if end == kernel.Crank {
		return 1 - m.motion.Piston(t+math.Pi)/m.motion.Stroke
	}
	return m.motion.Piston(t) / m.motion.Stroke
}

// state returns the state at an event.
func (s *side) state(at *kernel.Event, swept float64) State {
	if !at.Occurs {
		return State{}
	}
	volume := s.cycle.Clearance + at.Stroke
	after := s.round.At(at.Crank)
	before := after
	for i := range s.round.Of { // an event that the order hides, such as release while still open to steam, has one arc
		if arc := &s.round.Arcs[i]; arc == after && arc.From == at.Crank {
			before = &s.round.Arcs[(i+s.round.Of-1)%s.round.Of]
		}
	}
	return State{
		Occurs: true, Crank: units.Angle(at.Crank), Stroke: at.Stroke, Volume: units.Volume(volume * swept),
		Before: units.Pressure(before.At(volume, s.cycle.Index)), After: units.Pressure(after.At(volume, s.cycle.Index)),
	}
}
