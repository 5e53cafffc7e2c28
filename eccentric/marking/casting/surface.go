package casting

import (
	"math"
	"slices"
)

// A surface is what was read of a round surface or of a face, in millimetres.
type surface struct {
	sign  float64 // 1: outside or front; -1: inside or back, where more metal is nearer to the axis or the chuck
	cos   []float64
	sin   []float64
	above []float64 // the reading above the mean of them all
	size  float64   // mean radius; zero: not known, or a face
	stock float64   // metal at the mean of the readings
}

// metal returns how far the metal at a place stands above the mean of the surface, with
// the middle of the casting at x, y, and the direction in which it stands.
func (s *surface) metal(i int, x, y float64) (v, ux, uy float64) {
	if s.size == 0 {
		return s.above[i] - s.sign*(x*s.cos[i]+y*s.sin[i]), s.cos[i], s.sin[i]
	}
	radius := s.size + s.sign*s.above[i]
	px, py := radius*s.cos[i]-x, radius*s.sin[i]-y
	d := math.Hypot(px, py)
	return s.sign * (d - s.size), px / d, py / d
}

// span returns the least and the most metal, without the stock.
func (s *surface) span(x, y float64) (least, most float64) {
	all := make([]float64, len(s.above))
	for i := range all {
		all[i], _, _ = s.metal(i, x, y)
	}
	return slices.Min(all), slices.Max(all)
}

// An aim is what is made even.
type aim struct {
	all     []*surface
	stocked bool    // the least metal with the stock is made the greatest, or else the greatest zone the least
	tie     float64 // of the sum of the zones, that is made the least where the aim leaves a choice
}

// tieWeight is small beside what a dial shows, and large beside the nudge of a programme.
const tieWeight = 1e-7

// worth is what the linear programme makes as great as can be.
func (a aim) worth(x, y float64) float64 {
	w, zones := math.Inf(1), 0.0
	for _, s := range a.all {
		least, most := s.span(x, y)
		zones += most - least
		if a.stocked {
			w = min(w, s.stock+least)
		} else {
			w = min(w, least-most)
		}
	}
	return w - a.tie*zones
}

// even returns the middle with the most even cleaning-up, by linear programmes from x, y
// on, no farther than reach in one: where places lie on circles of known size the distances
// are not straight. It returns false where there is none.
func (a aim) even(x, y, reach float64) (float64, float64, bool) {
	best, small := a.worth(x, y), 1e-8*scaleOf(a.all)
	for range 200 {
		dx, dy, ok := a.step(x, y, reach)
		if !ok {
			return 0, 0, false
		}
		moved := math.Hypot(dx, dy)
		if now := a.worth(x+dx, y+dy); now > best {
			x, y, best = x+dx, y+dy, now
		} else {
			reach = moved / 4
		}
		if moved < small || reach < small {
			return x, y, true
		}
	}
	return 0, 0, false // it goes on for ever
}

// step returns the move that the surfaces as they lie at x, y ask for, within reach on
// each axis. Its unknowns are the move, the aim t, and of each
// surface its lowest metal, level, and its zone z:
//
//	level + sign*u*d <= metal <= level + z + sign*u*d
//	t <= stock + level, t greatest      or      z <= t, t least
func (a aim) step(x, y, reach float64) (dx, dy float64, ok bool) {
	unknowns := 3 + 2*len(a.all)
	p := programme{cost: make([]float64, unknowns)}
	p.cost[2] = 1
	if a.stocked {
		p.cost[2] = -1
	}
	for k, s := range a.all {
		level, zone := 3+2*k, 4+2*k
		p.cost[zone] = a.tie
		for i := range s.above {
			v, ux, uy := s.metal(i, x, y)
			low, high := make([]float64, unknowns), make([]float64, unknowns)
			low[0], low[1], low[level] = s.sign*ux, s.sign*uy, 1
			high[0], high[1], high[level], high[zone] = -low[0], -low[1], -1, -1
			p.row(v, low...)
			p.row(-v, high...)
		}
		aimed := make([]float64, unknowns)
		if a.stocked {
			aimed[2], aimed[level] = 1, -1
			p.row(s.stock, aimed...)
		} else {
			aimed[2], aimed[zone] = -1, 1
			p.row(0, aimed...)
		}
	}
	for axis := range 2 {
		for _, sign := range []float64{1, -1} {
			within := make([]float64, unknowns)
			within[axis] = sign
			p.row(reach, within...)
		}
	}
	move, ok := p.solve()
	if !ok {
		return 0, 0, false
	}
	return move[0], move[1], true
}

// scaleOf is how large the readings are.
func scaleOf(all []*surface) float64 {
	scale := 0.0
	for _, s := range all {
		for _, v := range s.above {
			scale = max(scale, math.Abs(v))
		}
	}
	return max(scale, 1e-6)
}

// squares returns the middle by least squares of all places of the surfaces, each with a
// mean level of its own; steps of Newton where the size is known.
func squares(all []*surface) (x, y float64) {
	for range 50 {
		var xx, xy, yy, gx, gy float64
		for _, s := range all {
			n := float64(len(s.above))
			var v, ux, uy []float64
			var mv, mx, my float64
			for i := range s.above {
				a, b, c := s.metal(i, x, y)
				v, ux, uy = append(v, a), append(ux, s.sign*b), append(uy, s.sign*c)
				mv, mx, my = mv+a/n, mx+s.sign*b/n, my+s.sign*c/n
			}
			for i := range v {
				r, jx, jy := v[i]-mv, ux[i]-mx, uy[i]-my
				xx, xy, yy = xx+jx*jx, xy+jx*jy, yy+jy*jy
				gx, gy = gx+jx*r, gy+jy*r
			}
		}
		det := xx*yy - xy*xy
		dx, dy := (yy*gx-xy*gy)/det, (xx*gy-xy*gx)/det
		x, y = x+dx, y+dy
		if math.Hypot(dx, dy) < 1e-13*scaleOf(all) {
			break
		}
	}
	return x, y
}
