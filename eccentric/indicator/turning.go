package indicator

import (
	"math"
	"slices"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Turning is the turning moment of all cylinders in one turn.
type Turning struct {
	Work            units.Energy // of all cylinders
	Mean            units.Torque
	Greatest, Least Moment
	Negative        []Arc // where the flywheel turns the engine
}

// A Moment is a turning moment and the angle of the first crank at which it is met.
type Moment struct {
	Torque units.Torque
	Turned units.Angle // from 0 to 360 degrees after the head-end dead centre
}

// An Arc is a way of the first crank, in degrees after the head-end dead centre: From
// is 0 or more and below 360 degrees, To is above it and may be past 360.
type Arc struct{ From, To units.Angle }

// Angle returns how long the arc is.
func (a Arc) Angle() units.Angle { return a.To - a.From }

// Turning returns what the turning moment of [Running.At] does in one turn: its mean,
// which is
//
//	work of all cylinders / (2*pi)
//
// its greatest and its least, and where it is below zero. The greatest and the least
// are those on either side of a jump too; an arc shorter than a degree in which the
// moment is of the other sign and that begins at no event may be missed. It fails only
// where [Running.Validate] does. See the Example.
func (r Running) Turning() (Turning, error) {
	if err := r.Validate(); err != nil {
		return Turning{}, err
	}
	return r.model().turning(), nil
}

func (m *model) turning() Turning {
	c := m.cycle()
	work := float64(c.Work) * float64(len(m.cylinders))
	turning := Turning{Work: units.Energy(work), Mean: units.Torque(work / (2 * math.Pi))}
	pieces := m.pieces()
	turning.Greatest = extreme(pieces, m.moment, 1)
	turning.Least = extreme(pieces, m.moment, -1)
	least := m.rounding()
	turning.Negative = arcsWhere(pieces, func(p *piece, t float64) bool { return m.moment(p, t) < -least })
	return turning
}

// rounding returns a moment that is nothing beside those of the engine: cylinders whose
// moments cancel leave less.
func (m *model) rounding() float64 {
	return 1e-13 * m.ends[kernel.Head].cycle.Chest * m.ends[kernel.Head].area * m.stroke * float64(len(m.cylinders))
}

// A piece is a part of a turn of the first crank in which no port of any cylinder
// opens or shuts and no piston turns back.
type piece struct {
	from, to float64
	arcs     []pair // by cylinder
}

// A pair is what the head end and the crank end of a cylinder go through.
type pair [2]*kernel.Pressing

// shortest is the length below which a piece is none.
const shortest = 1e-12

// pieces returns the parts of a turn in order.
func (m *model) pieces() []piece {
	const turn = 2 * math.Pi
	breaks := []float64{0, turn}
	add := func(t float64) {
		if t -= turn * math.Floor(t/turn); t < turn {
			breaks = append(breaks, t)
		}
	}
	for _, ahead := range m.cylinders {
		add(-ahead)
		add(math.Pi - ahead)
		for i, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
			round := &m.ends[end].round
			for a := range round.Of {
				add(round.Arcs[a].From + float64(i)*math.Pi - ahead)
			}
		}
	}
	slices.Sort(breaks)
	var pieces []piece
	from := 0.0
	for _, to := range breaks[1:] {
		if to-from < shortest {
			continue
		}
		p := piece{from: from, to: to, arcs: make([]pair, len(m.cylinders))}
		middle := (from + to) / 2
		for i, ahead := range m.cylinders {
			p.arcs[i] = m.arcsAt(middle + ahead)
		}
		pieces = append(pieces, p)
		from = to
	}
	pieces[len(pieces)-1].to = turn
	return pieces
}

// arcsAt returns what the ends of a cylinder go through at its crank angle t; where a
// port opens just then, after it has.
func (m *model) arcsAt(t float64) pair {
	return pair{m.ends[kernel.Head].round.At(t), m.ends[kernel.Crank].round.At(t - math.Pi)}
}

// moment returns the moment of all cylinders at t, which lies in the piece or at
// one of its ends.
func (m *model) moment(p *piece, t float64) float64 {
	moment := 0.0
	for i, ahead := range m.cylinders {
		place := m.motion.Place(t + ahead)
		head, crank := m.pressures(p.arcs[i][0], p.arcs[i][1], &place)
		moment += m.net(head, crank, &place) * m.stroke * place.Moves // T = F*ds/dt
	}
	return moment
}

// given returns the work of all cylinders from one angle of a piece to another, in
// closed form: the integral of the moment.
func (m *model) given(p *piece, from, to float64) float64 {
	work := 0.0
	head, crank := &m.ends[kernel.Head], &m.ends[kernel.Crank]
	for i, ahead := range m.cylinders {
		a, b := m.motion.Place(from+ahead), m.motion.Place(to+ahead)
		c := head.cycle.Clearance
		work += head.area * m.stroke * head.cycle.Work(p.arcs[i][0], c+a.Stroke, c+b.Stroke)
		c = 1 + crank.cycle.Clearance
		work += crank.area * m.stroke * crank.cycle.Work(p.arcs[i][1], c-a.Stroke, c-b.Stroke)
		work -= m.air * m.rodEnd * m.stroke * (b.Stroke - a.Stroke)
		v := m.stroke * m.omega // of the piston, for each ds/dt
		work -= m.mass * v * v / 2 * (b.Moves*b.Moves - a.Moves*a.Moves)
	}
	return work
}

const degree = math.Pi / 180

// stops returns how many parts a piece is looked at in, of about a degree.
func (p *piece) stops() int { return max(4, int(math.Ceil((p.to-p.from)/degree))) }

// stop returns the angle of one of the stops, 0 to p.stops(), the first and the last
// of them a hair inside the piece.
func (p *piece) stop(i, of int) float64 {
	const hair = 1e-9
	share := min(max(float64(i)/float64(of), hair), 1-hair)
	return p.from + (p.to-p.from)*share
}

// extreme returns the greatest value of sign times f, with f's own sign.
func extreme(pieces []piece, f func(*piece, float64) float64, sign float64) Moment {
	best, at := math.Inf(-1), 0.0
	try := func(p *piece, t float64) float64 {
		v := sign * f(p, t)
		if v > best {
			best, at = v, t
		}
		return v
	}
	for i := range pieces {
		p := &pieces[i]
		try(p, p.from)
		try(p, p.to)
		of := p.stops()
		top, high := 0, math.Inf(-1)
		for s := range of + 1 {
			if v := sign * f(p, p.stop(s, of)); v > high {
				top, high = s, v
			}
		}
		low, up := p.stop(max(top-1, 0), of), p.stop(min(top+1, of), of)
		for range 40 { // thirds, of what has one top
			a, b := low+(up-low)/3, up-(up-low)/3
			if try(p, a) < try(p, b) {
				low = a
			} else {
				up = b
			}
		}
	}
	return Moment{Torque: units.Torque(sign*best + 0), Turned: units.Angle(turned(at))}
}

// arcsWhere returns the ways of the crank on which something is so.
func arcsWhere(pieces []piece, so func(*piece, float64) bool) []Arc {
	const turn = 2 * math.Pi
	var arcs []Arc
	add := func(from, to float64) {
		if n := len(arcs); n > 0 && float64(arcs[n-1].To) >= from {
			arcs[n-1].To = units.Angle(to)
			return
		}
		arcs = append(arcs, Arc{units.Angle(from), units.Angle(to)})
	}
	for i := range pieces {
		p := &pieces[i]
		of := p.stops()
		from, t := p.from, p.stop(0, of)
		was := so(p, t)
		for s := 1; s <= of; s++ {
			next := p.stop(s, of)
			is := so(p, next)
			if is != was {
				change := crossing(func(t float64) bool { return so(p, t) != was }, t, next)
				if was {
					add(from, change)
				}
				from = change
			}
			t, was = next, is
		}
		if was {
			add(from, p.to)
		}
	}
	if n := len(arcs); n > 1 && arcs[0].From == 0 && arcs[n-1].To == turn { // through the dead centre
		arcs[n-1].To += arcs[0].To
		arcs = arcs[1:]
	}
	return arcs
}

// crossing returns where between two angles a thing that is not so at the first
// becomes so.
func crossing(so func(float64) bool, from, to float64) float64 {
	for range 50 {
		if middle := (from + to) / 2; so(middle) {
			to = middle
		} else {
			from = middle
		}
	}
	return to
}
