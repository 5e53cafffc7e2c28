package sheet

import (
	"iter"
	"math"
	"slices"
)

// A side is one side of a polyline.
type side struct {
	from, to Point
	bulge    float64
}

// curved reports whether the side is an arc. A bulge below 1e-7, which is less
// than a micrometre on the longest side, would need a radius that floating point
// cannot hold beside the chord, and is straight.
func (s side) curved() bool { return math.Abs(s.bulge) >= 1e-7 }

// sides yields the sides of a polyline in order.
func (p polyline) sides() iter.Seq[side] {
	return func(yield func(side) bool) {
		n := len(p.vertices)
		if !p.closed {
			n--
		}
		for i := range n {
			v := p.vertices[i]
			if !yield(side{v.Point, p.vertices[(i+1)%len(p.vertices)].Point, v.Bulge}) {
				return
			}
		}
	}
}

// BoundsOf returns the box round a closed line, arcs and all.
func BoundsOf(vertices []Vertex) Box {
	var b Box
	for i, s := range slices.Collect((polyline{vertices, true}).sides()) {
		low, high := s.bounds()
		if i == 0 {
			b = Box{low, high}
		}
		b = Box{b.Min.min(low), b.Max.max(high)}
	}
	return b
}

// Corners returns points along a closed line: its vertices and, on every arc,
// points at most 1/64 of a turn apart. It is for placing things, not for
// drawing.
func Corners(vertices []Vertex) []Point {
	var points []Point
	for s := range (polyline{vertices, true}).sides() {
		points = append(points, s.from)
		if !s.curved() {
			continue
		}
		a := s.arc()
		n := math.Ceil(math.Abs(a.sweep) / (math.Pi / 32))
		for i := 1.0; i < n; i++ {
			points = append(points, a.at(i/n))
		}
	}
	return points
}

// arc returns the arc of a side that bulges: its centre, radius, first angle and
// sweep, negative when it runs clockwise.
//
//	radius = c * (1 + b^2) / (4 * |b|)
//	left   = c * (1 - b^2) / (4 * b)
//
//	b     bulge of the side
//	c     length of its chord
//	left  from the middle of the chord to the centre, to the left of the way along it
func (s side) arc() arc {
	b, chord := s.bulge, s.to.sub(s.from)
	centre := s.from.toward(s.to, 0.5).add(chord.left().scale((1 - b*b) / (4 * b)))
	first := s.from.sub(centre)
	return arc{centre, chord.abs() * (1 + b*b) / (4 * math.Abs(b)), math.Atan2(first.Y, first.X), 4 * math.Atan(b)}
}

func (s side) bounds() (low, high Point) {
	if !s.curved() {
		return s.from.min(s.to), s.from.max(s.to)
	}
	low, high = s.arc().bounds()
	return low.min(s.from).min(s.to), high.max(s.from).max(s.to)
}

// bounds returns the corners of the box round an arc.
func (a arc) bounds() (low, high Point) {
	low, high = a.at(0), a.at(0)
	for _, share := range a.quarters() {
		low, high = low.min(a.at(share)), high.max(a.at(share))
	}
	return low, high
}

// at returns the point at a share of the sweep.
func (a arc) at(share float64) Point {
	return a.centre.add(polar(a.radius, a.start+share*a.sweep))
}

// quarters returns the shares of the sweep at which the arc crosses one of the
// axes through its centre, and its end.
func (a arc) quarters() []float64 {
	const quarter = math.Pi / 2
	var shares []float64
	from, to := a.start, a.start+a.sweep
	for k := math.Floor(min(from, to)/quarter) + 1; k*quarter < max(from, to); k++ {
		shares = append(shares, (k*quarter-a.start)/a.sweep)
	}
	return append(shares, 1)
}

const fullTurn = 2 * math.Pi

// A bezier is one cubic of a curve that starts where the last one ended.
type bezier struct{ control1, control2, to Point }

// beziers returns cubics that follow the arc, each over at most an eighth of the
// circle, which keeps them within 5e-6 of the radius.
func (a arc) beziers() []bezier {
	n := max(1, int(math.Ceil(math.Abs(a.sweep)/(math.Pi/4)-1e-9)))
	step := a.sweep / float64(n)
	handle := a.radius * 4 / 3 * math.Tan(step/4)
	curves := make([]bezier, n)
	for i := range curves {
		t0, t1 := a.start+float64(i)*step, a.start+float64(i+1)*step
		p0, p1 := a.centre.add(polar(a.radius, t0)), a.centre.add(polar(a.radius, t1))
		curves[i] = bezier{p0.add(polar(handle, t0+math.Pi/2)), p1.sub(polar(handle, t1+math.Pi/2)), p1}
	}
	return curves
}
