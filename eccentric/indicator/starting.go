package indicator

import (
	"cmp"
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Starting is from where the engine starts by itself when steam is turned on, in
// the direction for which its gear stands.
type Starting struct {
	Starts    []Arc       // of the first crank; none: from nowhere
	Blind     []Arc       // the rest: it stands, or is pushed the other way
	Backwards []Arc       // of that, where it is pushed the other way harder than friction holds it
	Kick      units.Angle // the longest of Blind: how far it must at most be turned by hand or wheel
	Greatest  Moment      // that steam turns the shaft by
}

// Starting returns from where the engine, standing still, starts by itself against a
// friction moment at the shaft, of all cylinders together; zero is the limit without
// friction. It does where
//
//	sum over the cylinders of F * ds/dt > friction
//	F = (ps*AH or pb*AH) - (ps*AC or pb*AC) - pa*(AH - AC)
//
//	ps         pressure in the chest, where the port is open to steam
//	pb         back pressure, where it is not: a port that is shut pushes nothing
//	AH, AC, s  as for [Running.At]; F is none where neither port is open to steam
//
// Two cylinders with cranks at right angles start from everywhere, without friction, if
// each end has steam for 90 degrees of the crank or more after its dead centre. A
// friction below zero is an error, or what [Running.Validate] refuses. It is geometry
// and statics. See the Example.
func (r Running) Starting(friction units.Torque) (Starting, error) {
	if err := r.Validate(); err != nil {
		return Starting{}, err
	}
	if !(friction >= 0 && friction < 1e15) {
		return Starting{}, fail.OutOfRange("friction", friction, "a moment of zero or more")
	}
	return r.model().starting(float64(friction)), nil
}

func (m *model) starting(friction float64) Starting {
	pieces := m.pieces()
	least := friction + m.rounding()
	starting := Starting{
		Greatest:  extreme(pieces, m.standing, 1),
		Starts:    arcsWhere(pieces, func(p *piece, t float64) bool { return m.standing(p, t) > least }),
		Backwards: arcsWhere(pieces, func(p *piece, t float64) bool { return m.standing(p, t) < -least }),
	}
	starting.Blind = rest(starting.Starts)
	for _, arc := range starting.Blind {
		starting.Kick = max(starting.Kick, arc.Angle())
	}
	return starting
}

// standing returns the moment with which steam pushes an engine that stands.
func (m *model) standing(p *piece, t float64) float64 {
	head, crank := &m.ends[kernel.Head].cycle, &m.ends[kernel.Crank].cycle
	moment := 0.0
	for i, ahead := range m.cylinders {
		atHead, atCrank := head.Back, crank.Back
		if p.arcs[i][0].State != kernel.ToSteam && p.arcs[i][1].State != kernel.ToSteam {
			continue
		}
		if p.arcs[i][0].State == kernel.ToSteam {
			atHead = head.Chest
		}
		if p.arcs[i][1].State == kernel.ToSteam {
			atCrank = crank.Chest
		}
		place := m.motion.Place(t + ahead)
		moment += m.push(atHead, atCrank) * m.stroke * place.Moves
	}
	return moment
}

// rest returns what some arcs in order leave of a turn.
func rest(arcs []Arc) []Arc {
	const turn = 2 * math.Pi
	if len(arcs) == 0 {
		return []Arc{{0, turn}}
	}
	var left []Arc
	for i, arc := range arcs {
		next := arcs[0].From + turn
		if i+1 < len(arcs) {
			next = arcs[i+1].From
		}
		if next > arc.To {
			from, to := arc.To, next
			if from >= turn {
				from, to = from-turn, to-turn
			}
			left = append(left, Arc{from, to})
		}
	}
	slices.SortFunc(left, func(a, b Arc) int { return cmp.Compare(a.From, b.From) })
	return left
}
