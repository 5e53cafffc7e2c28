package indicator

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Throttled returns the cycle at Speed with what the ports take of it, by a rule of
// velocity: as a port closes, it counts as shut from where its opening is less than
//
//	opening = area of the piston * mean piston speed / (limit * port length)
//
// so that cut-off and compression come earlier than the valve's edges have them, and the
// pressure falls, and rises, from there; the states in the result are those. What the
// port holds up as it opens is left out. The limit is the reader's, such as one of
// [PortLimits]. A port that never opens so far has no such cycle: that is an error, with
// the speed below which there is one. Speed and the length of the ports must be there.
// It is a rule of practice, whose limits differ by two; the pressure really falls by
// degrees. See the Example.
func (r Running) Throttled(limit units.Speed) (Cycle, error) {
	flow, err := r.PortFlow() // which asks for the same
	if err != nil {
		return Cycle{}, err
	}
	if err := fault.Positive(fail, "limit of velocity", limit); err != nil {
		return Cycle{}, err
	}
	m := r.model()
	for _, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
		s, of := &m.ends[end], flow.Head
		if end == kernel.Crank {
			of = flow.Crank
		}
		for _, way := range []struct {
			name     string
			velocity units.Speed
		}{{"to steam", of.Steam}, {"to exhaust", of.Exhaust}} {
			if way.velocity >= limit {
				below := r.Speed * units.RotationalSpeed(limit/way.velocity)
				return Cycle{}, fail.Wrong("speed", r.Speed, "the port of the "+place(end)+" throttles all the way "+way.name,
					"below "+fault.Decimal(below.In(units.RevPerMinute), 0)+" rev/min at this limit")
			}
		}
		// The valve's edges pass where the opening is still that much as if the laps were as much longer.
		least := s.area * float64(flow.PistonSpeed/limit) / (float64(r.Gear.Ports.Length.Picometres()) * metres) / metres
		lapped, found := m.motion, kernel.Events{}
		lapped.Steam[end] += least
		lapped.Exhaust[end] += least
		lapped.Events(&found)
		e, shut := *s.events, found.At(end)
		earlier(&e.CutOff, &shut.CutOff)
		earlier(&e.Compression, &shut.Compression)
		s.events, s.round = &e, e.Round(&s.cycle)
	}
	return m.cycle(), nil
}

// earlier moves an event to one that is before it in the same turn.
func earlier(e, to *kernel.Event) {
	const turn = 2 * math.Pi
	if e.Occurs && to.Occurs {
		e.Crank, e.Stroke = to.Crank-turn*math.Round((to.Crank-e.Crank)/turn), to.Stroke
	}
}
