package diagnosis

import (
	"math"

	"github.com/valvechest/valvechest/eccentric"
)

// What no reading is better than, one standard deviation: what the unknowns leave
// out, such as the rods. And by how much an edge that is read to pass may miss.
const (
	finestAngle  = 0.1 * math.Pi / 180
	finestLength = 0.005
	finestShare  = 0.001
	missing      = 0.02 // mm
)

// turning is how far from the end of the valve's way it is seen to move one way or
// the other, one standard deviation.
const turning = 10 * math.Pi / 180

// mistaken is the chance that something that is seen, not measured, is told the wrong
// way round.
const mistaken = 1e-4

// A measured is a reading in the numbers of the solver.
type measured struct {
	kind     Kind
	end      eccentric.End
	byStroke bool
	never    bool
	value    float64 // radians, millimetres or a share
	at       float64 // crank angle
	steam    bool    // opens to it next
	sd       float64
}

func (r *Reading) measured() measured {
	m := measured{kind: r.Kind, end: r.End, byStroke: r.ByStroke, never: r.Never, at: float64(r.Crank)}
	m.steam = r.Opens == Steam
	sd, finest := r.within()/2, finestAngle
	switch {
	case r.Kind.isLength():
		m.value = float64(r.Length.Picometres()) / millimetre
		sd, finest = sd/millimetre, finestLength
	case r.ByStroke:
		m.value, finest = r.Stroke, finestShare
	default:
		m.value = float64(r.Angle)
	}
	m.sd = math.Hypot(sd, finest)
	return m
}

// A row is how far a reading is from what an engine would give, in standard
// deviations, and the slopes of that.
type row struct {
	off   float64
	slope vector
}

// rows appends those of one reading.
func (g *drawing) rows(m *measured, v *vector, rows []row) []row {
	w := g.from(m.end, v)
	rows = append(rows, row{})
	r := &rows[len(rows)-1]
	var model float64
	switch {
	case m.kind == OpensNext:
		d := math.Remainder(w.d, 2*math.Pi)
		z, slope := (math.Pi/2-math.Abs(d))/turning, -math.Copysign(1/turning, d)
		if !m.steam {
			z, slope = -z, -slope
		}
		var byZ float64
		r.off, byZ = seen(z)
		r.slope[advance] = byZ * slope
		return rows
	case m.never:
		_, beyond := w.event(m.kind, &r.slope)
		z := -beyond / missing
		r.slope = vector{}
		var byZ float64
		r.off, byZ = seen(z)
		w.beyond(m.kind, -byZ/missing, &r.slope)
		return rows
	case m.kind.isEvent():
		t, beyond := w.event(m.kind, &r.slope)
		if m.byStroke {
			share, slope := g.gone(t, w.sign)
			r.off = share - m.value
			r.slope = vector{}.add(slope, &r.slope)
		} else {
			r.off = math.Remainder(t-m.value, 2*math.Pi)
		}
		r.scale(1 / m.sd)
		if beyond < 0 {
			miss := row{off: -beyond / missing}
			w.beyond(m.kind, -1/missing, &miss.slope)
			rows = append(rows, miss)
		}
		return rows
	case m.kind == Lead:
		model = w.valve(w.d, &r.slope) + w.shift - w.steam
		r.slope[shift], r.slope[w.steamAt] = w.sign, -1
		if model > w.port && w.edge {
			model = w.width(&r.slope)
		} else if model > w.port && m.value >= w.port-2*m.sd {
			model = max(w.port, min(model, m.value)) // a feeler goes in no further than the port is wide
		}
	case m.kind == Opening:
		r.slope[reach], r.slope[lost], r.slope[shift], r.slope[w.steamAt] = 1, -0.5, w.sign, -1
		model = w.opened(w.r-w.late+w.shift-w.steam, m, &r.slope)
	case m.kind == ExhaustOpening:
		r.slope[reach], r.slope[lost], r.slope[shift], r.slope[w.exhaustAt] = 1, -0.5, -w.sign, -1
		model = w.opened(w.r-w.late-w.shift-w.exhaust, m, &r.slope)
	case m.kind == Travel:
		r.slope[reach], r.slope[lost] = 2, -1
		model = 2 * (w.r - w.late)
	default: // ValveAt
		model = w.valve(m.at+w.d, &r.slope) + w.shift
		r.slope[shift] = 1
		if g.inside {
			model = -model
			r.slope = vector{}.add(-1, &r.slope)
		}
	}
	r.off = model - m.value
	r.scale(1 / m.sd)
	return rows
}

func (r *row) scale(by float64) {
	r.off *= by
	for i := range r.slope {
		r.slope[i] *= by
	}
}

// beyond adds the slopes of how far the edge of an event gets beyond.
func (w *view) beyond(k Kind, by float64, slope *vector) {
	c, at, toLap := w.steam-w.shift, w.steamAt, 1.0
	if k == Release || k == Compression {
		c, at, toLap = -w.exhaust-w.shift, w.exhaustAt, -1
	}
	side := by * math.Copysign(1, c) // beyond = r - late - |c|
	slope[reach] += by
	slope[lost] -= by / 2
	slope[at] -= side * toLap
	slope[shift] += side * w.sign
}

// opened returns the greatest opening of a port whose edge is passed by so much. A
// reading that is clearly of neither a shut port nor a wholly open one tells how far
// the edge gets, whatever the engine thought of would give.
func (w *view) opened(past float64, m *measured, slope *vector) float64 {
	sure := 3 * math.Hypot(m.sd, 0.03)
	switch {
	case w.edge && past > w.port:
		return w.width(slope)
	case m.value < w.port-sure && m.value > sure:
	case m.value <= sure && past < 0:
		*slope = vector{}
		return 0
	case m.value >= w.port-sure && past > w.port:
		return w.width(slope)
	}
	return past
}

// width returns the width of the port, with the slope of what is as wide.
func (w *view) width(slope *vector) float64 {
	*slope = vector{}
	slope[w.portAt] = 1
	return w.port
}

// seen returns the square root of minus twice the logarithm of the chance that what
// is so many standard deviations on the right side is seen there, and its slope.
func seen(z float64) (off, slope float64) {
	chance := mistaken + (1-2*mistaken)*0.5*math.Erfc(-z/math.Sqrt2)
	off = math.Sqrt(-2 * math.Log(chance))
	density := (1 - 2*mistaken) * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
	return off, -density / (chance * off)
}
