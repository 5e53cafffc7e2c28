package spread

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
)

// A passing is what the moment of an event depends on, seen from the end of the
// cylinder that it is at. Each size of the gear that may be off goes into one of
// c, r, l, d and rod, and no other.
type passing struct {
	c     float64 // displacement of the driver, before the offset, at which the edges pass
	s     float64 // the displacement of the valve there
	reach float64 // furthest that the valve goes
	r, l  float64 // half the travel and eccentric rod, negative where its slant works against opening the end to steam
	d     float64 // angle of advance
	rod   float64 // connecting rod over stroke, negative at the crank end
	late  float64 // half the lost motion
	port  float64 // width of the end's port
}

func passingOf(g *kernel.Gear, end kernel.End, e Event) passing {
	m := g.Motion()
	p := passing{
		r: m.Reach, l: m.EccentricRod, d: m.Advance, rod: m.Rod / m.Stroke,
		reach: m.Reach - m.Late, late: m.Late, port: m.Port[end],
	}
	shift := m.Shift
	if end == kernel.Crank {
		p.l, p.rod, shift = -p.l, -p.rod, -shift
	}
	p.s = m.Steam[end] - shift
	if e == Release || e == Compression {
		p.s = -m.Exhaust[end] - shift
	}
	p.c = p.s + m.Late // with lost motion the driver is ahead of the valve
	if !e.out() {
		p.c = p.s - m.Late
	}
	return p
}

// less returns by how much each part is more than that of another.
func (p passing) less(q passing) passing {
	return passing{
		c: p.c - q.c, s: p.s - q.s, reach: p.reach - q.reach, r: p.r - q.r, l: p.l - q.l, d: p.d - q.d,
		rod: p.rod - q.rod, late: p.late - q.late, port: p.port - q.port,
	}
}

// times returns each part so many times.
func (p passing) times(n float64) passing {
	return passing{
		c: n * p.c, s: n * p.s, reach: n * p.reach, r: n * p.r, l: n * p.l, d: n * p.d,
		rod: n * p.rod, late: n * p.late, port: n * p.port,
	}
}

// occurs reports whether the valve gets there.
func (p *passing) occurs() bool { return math.Abs(p.s) < p.reach }

// crank returns the crank angle, from the dead centre of the end, at which the
// valve passes at angle a of the eccentric from its place furthest from opening
// the end to steam.
func (p *passing) crank(e Event, a float64) float64 {
	if e.out() {
		return a - math.Pi/2 - p.d + compressed(e)
	}
	return 3*math.Pi/2 - a - p.d
}

// compressed puts compression into the turn that begins with admission.
func compressed(e Event) float64 {
	if e == Compression {
		return 2 * math.Pi
	}
	return 0
}

// angle returns that angle of the eccentric.
func (p *passing) angle() float64 { return kernel.Passing(p.c, p.r, p.l) }

// cosines are the derivatives of the cosine of that angle; cos is the cosine.
//
//	cos = (r^2 - c*(2*l - c)) / (2*r*(l - c))
func (p *passing) cosines(cos float64) (byC, byR, byL float64) {
	c, r, l := p.c, p.r, p.l
	byC = cos/(l-c) - 1/r
	byR = (1 + c*(2*l-c)/(r*r)) / (2 * (l - c))
	byL = (c - r) / (l - c) * (c + r) / (l - c) / (2 * r)
	return byC, byR, byL
}

// turning returns half the travel at which the angle turns back as the travel
// grows, the largest or the smallest that it gets: sqrt(-c*(2*l - c)); false where
// it goes one way only.
func (p *passing) turning() (r float64, ok bool) {
	square := -p.c * (2*p.l - p.c)
	return math.Sqrt(max(square, 0)), square > 0
}
