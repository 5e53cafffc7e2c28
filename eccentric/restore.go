package eccentric

import (
	"slices"

	"github.com/valvechest/valvechest/units"
)

// Restored returns the ways of putting a gear that is known to be out of its drawing
// back to it, the cheapest first, as [Salvage] has them: to set the sheave and the
// valve, to take metal off or let strips in, to take up lost motion, to pack, to make
// a part anew. Where an edge of a port is out, either the port is cut to its size, or
// the valve is given the laps of the drawing on the ports as they are.
//
// Each cure says what [Gear.Check] still finds after it, with the sizes that it
// prints; none asks for less than can be set, 0.05 mm or a degree. There are none for
// a gear that is nowhere further out than that, and none for one that only the
// drawing could be altered to suit. It fails only where [Gear.Validate] does, of
// either gear. See the Example.
func (g Gear) Restored(drawn Gear, made Made) ([]Cure, error) {
	for _, of := range []Gear{g, drawn} {
		if err := of.Validate(); err != nil {
			return nil, err
		}
	}
	s := newSearch(g, made)
	for rank, to := range []Gear{drawn, drawn.onPortsOf(g)} {
		to = s.rounded(to, units.Nearest)
		if s.seen[to] || to.Validate() != nil {
			continue
		}
		s.seen[to] = true
		j := to.judged()
		after, _ := s.count(&j.verdicts)
		s.add(to, after, rank)
	}
	slices.SortStableFunc(s.cures, func(a, b Cure) int { return compareCosts(a.cost, b.cost) })
	var list []Cure
	for _, c := range s.cures {
		if slices.ContainsFunc(list, func(o Cure) bool { return slices.Equal(o.cost, c.cost) }) {
			continue
		}
		if err := c.look(); err != nil {
			return nil, err
		}
		list = append(list, c)
	}
	return list, nil
}

// onPortsOf returns the gear with the ports of another, and a valve that has the laps
// on them that it had on its own.
func (g Gear) onPortsOf(other Gear) Gear {
	was, is, valve := g.portEdges(), other.portEdges(), g.valveEdges()
	for i := range valve {
		valve[i] = valve[i].Add(is[i].Sub(was[i]))
	}
	g.Ports = other.Ports
	g.setValve(valve)
	return g
}

// look fills in what the gear does after the cure, and what is left.
func (c *Cure) look() (err error) {
	c.Left = c.Gear.Check()
	c.Events, err = c.Gear.Events()
	return err
}
