package gasket

import (
	"container/heap"
	"math"
)

// A pose carries a point of the first part to its place on the second: turned
// about the origin, then shifted. In millimetres and radians.
type pose struct {
	turn  float64
	shift vec
}

func (p pose) of(a vec) vec {
	sin, cos := math.Sincos(p.turn)
	return a.turn(sin, cos).add(p.shift)
}

// leastSquares returns the pose of the least sum of weighted squares of the
// distances from the placed a[i] to b[i], and whether the points fix the angle.
// With both sets taken from their weighted centroids,
//
//	tan(turn) = sum(w * cross(a, b)) / sum(w * dot(a, b))
func leastSquares(a, b []vec, weight func(int) float64) (pose, bool) {
	var total float64
	var ma, mb vec
	for i := range a {
		w := weight(i)
		total += w
		ma, mb = ma.add(a[i].scale(w)), mb.add(b[i].scale(w))
	}
	ma, mb = ma.scale(1/total), mb.scale(1/total)
	var dot, cross, size float64
	for i := range a {
		w := weight(i)
		p, q := a[i].sub(ma), b[i].sub(mb)
		dot += w * p.dot(q)
		cross += w * p.cross(q)
		size += w * p.abs() * q.abs()
	}
	if math.Hypot(dot, cross) <= 1e-12*size {
		return pose{}, false
	}
	p := pose{turn: math.Atan2(cross, dot)}
	p.shift = mb.sub(p.of(ma))
	return p, true
}

// minimax returns the pose of the smallest greatest value of
//
//	|placed a[i] - b[i]| + radius[i]
//
// over the pairs, and that value. The radii are zero for the plain problem, and
// what one hole has less room than another otherwise; none is negative.
//
// For a given angle the best shift is the centre of the smallest circle round
// the vectors b - R a, as discs of the given radii. The value f of that circle
// as a function of the angle is weakly convex: with r the radius of the smallest
// circle round the points a, f(angle) + r angle^2/2 is convex, because the second
// derivative of a turned point is at most r long. Each value of f with its slope
// therefore bounds f from below everywhere by a parabola, and the search, which
// always looks where the bounds leave most room (Breiman and Cutler 1993), ends
// when they leave less than a picometre or so: the result is the global best.
func minimax(a, b []vec, radius []float64, start float64) (pose, float64) {
	points := make([]disc, len(a))
	floor := 0.0
	for i := range a {
		points[i] = disc{at: a[i]}
		floor = max(floor, radius[i])
	}
	round := enclose(points)
	s := search{a: make([]vec, len(a)), b: b, radius: radius, r: round.r, discs: points}
	for i := range a {
		s.a[i] = a[i].sub(round.at)
	}
	s.best.f = math.Inf(1)

	const sectors = 8
	var open spans
	first := s.look(start)
	for k, left := 1, first; k <= sectors; k++ {
		right := first
		if right.angle = start + 2*math.Pi; k < sectors {
			right = s.look(start + 2*math.Pi*float64(k)/sectors)
		}
		open.add(s.r, left, right)
		left = right
	}
	tolerance := 1e-10 + 1e-13*s.r
	for range 100_000 {
		if len(open) == 0 || max(open[0].bound, floor) >= s.best.f-tolerance {
			break
		}
		sp := heap.Pop(&open).(span)
		middle := s.look(sp.at)
		open.add(s.r, sp.left, middle)
		open.add(s.r, middle, sp.right)
	}
	p := pose{turn: math.Remainder(s.best.angle, 2*math.Pi)}
	// The points were taken from the centre of their circle.
	p.shift = s.best.shift.sub(p.of(round.at))
	return p, s.best.f
}

type search struct {
	a, b   []vec
	radius []float64
	r      float64 // of the smallest circle round a
	discs  []disc
	best   look
}

// A look is the best that can be had at one angle.
type look struct {
	angle, f, slope float64
	shift           vec
}

func (s *search) look(angle float64) look {
	sin, cos := math.Sincos(angle)
	for i := range s.a {
		s.discs[i] = disc{s.b[i].sub(s.a[i].turn(sin, cos)), s.radius[i]}
	}
	e := enclose(s.discs)
	l := look{angle: angle, f: e.r, shift: e.at}

	// The slope is the mean of the slopes of the distances that hold the circle,
	// with the weights at which their directions balance.
	var away [3]vec
	var weight [3]float64
	for k := range e.n {
		d := e.at.sub(s.discs[e.support[k]].at)
		if h := d.abs(); h > 0 {
			away[k] = d.scale(1 / h)
		}
		weight[k] = 1
	}
	if e.n == 3 {
		for k := range 3 {
			weight[k] = away[(k+1)%3].cross(away[(k+2)%3])
		}
	}
	total := weight[0] + weight[1] + weight[2]
	if total != 0 {
		for k := range e.n {
			l.slope += weight[k] / total * away[k].dot(s.a[e.support[k]].turn(sin, cos).left())
		}
	}
	if l.f < s.best.f {
		s.best = l
	}
	return l
}

// A span of angles that may hold a better one, with the bound from its ends and
// the angle at which the bound lies.
type span struct {
	left, right look
	at, bound   float64
}

// spans is a heap with the lowest bound on top.
type spans []span

func (h spans) Len() int           { return len(h) }
func (h spans) Less(i, j int) bool { return h[i].bound < h[j].bound }
func (h spans) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *spans) Push(x any)        { *h = append(*h, x.(span)) }
func (h *spans) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// add adds the span between two looks: the parabolas through them, of curvature
// -r, cross where the bound lies. Where they do not cross inside, an end is the
// lowest.
func (h *spans) add(r float64, left, right look) {
	w := right.angle - left.angle
	bend := right.slope - left.slope + r*w
	if w < 1e-14 || bend <= 0 {
		return
	}
	x := (left.f - right.f + right.slope*w + r*w*w/2) / bend
	if x <= 0 || x >= w || left.angle+x == left.angle || left.angle+x == right.angle {
		return
	}
	heap.Push(h, span{left, right, left.angle + x, left.f + left.slope*x - r*x*x/2})
}
