package gasket

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Loop is a closed line of straight sides and arcs: the outside of a gasket
// or the edge of an opening. The last vertex joins the first.
type Loop []Vertex

// A Vertex is a corner of a loop and the shape of the side that leaves it.
type Vertex struct {
	Point
	Bulge float64 // of the side to the next vertex: tan(sweep/4), positive anticlockwise, 0 straight, 1 half a circle
}

// An Edge is one side of a loop.
type Edge struct {
	From, To Point
	Centre   Point        // of an arc
	Radius   units.Length // of an arc; zero: the side is straight
	Sweep    units.Angle  // of an arc, from From to To, positive anticlockwise
}

// Straight reports whether the edge is a straight line.
func (e Edge) Straight() bool { return e.Radius.IsZero() }

const (
	maxVertices = 100_000
	maxRadiusMM = 1e6 // of an arc, 1 km
	maxBulge    = 1e3 // leaves a gap of 0.2 degrees in the circle
)

// Edges returns the sides of the loop in order. It takes 2 to 100,000 vertices,
// no two in one place one after the other, bulges up to 1,000 either way, and
// arcs of up to 1 km radius. See the example.
func (l Loop) Edges() ([]Edge, error) {
	if len(l) < 2 || len(l) > maxVertices {
		return nil, fail.OutOfRange("vertices of a loop", len(l), fmt.Sprintf("2 to %d", maxVertices))
	}
	edges := make([]Edge, len(l))
	for i, v := range l {
		next := l[(i+1)%len(l)]
		e := Edge{From: v.Point, To: next.Point}
		a, b := v.vec(), next.vec()
		side := fmt.Sprintf("side %d of the loop", i+1)
		err := fail.Within(fault.Named(side, v.X), fault.Named(side, v.Y),
			fault.Named(side, next.X), fault.Named(side, next.Y))
		if err != nil {
			return nil, err
		}
		switch {
		case v.Point == next.Point:
			return nil, fail.OutOfRange(side, "", "two different vertices")
		case !finite(v.Bulge):
			return nil, fail.NotFinite("bulge of "+side, v.Bulge)
		case math.Abs(v.Bulge) > maxBulge:
			return nil, fail.OutOfRange("bulge of "+side, v.Bulge, "-1000 to 1000")
		}
		if v.Bulge != 0 {
			centre, radius := arcOf(a, b, v.Bulge)
			if radius > maxRadiusMM {
				return nil, fail.OutOfRange("radius of "+side, fmt.Sprintf("%.4g mm", radius), "up to 1 km; a flatter side is a straight one")
			}
			e.Centre, e.Radius = centre.point(), lengthOf(radius)
			e.Sweep = units.Angle(4 * math.Atan(v.Bulge))
		}
		edges[i] = e
	}
	return edges, nil
}

// arcOf returns the centre and radius of the arc from a to b.
//
//	radius = c * (1 + bulge^2) / (4 * |bulge|)
//	left   = c * (1 - bulge^2) / (4 * bulge)
//
//	c     length of the chord from a to b
//	left  from the middle of the chord to the centre, to the left of the way along it
func arcOf(a, b vec, bulge float64) (centre vec, radius float64) {
	chord := b.sub(a)
	centre = a.add(b).scale(0.5).add(chord.left().scale((1 - bulge*bulge) / (4 * bulge)))
	return centre, chord.abs() * (1 + bulge*bulge) / (4 * math.Abs(bulge))
}

// Circle returns the loop of a circle: two half circles, anticlockwise.
func Circle(centre Point, diameter units.Length) Loop {
	r := Point{X: diameter.Scale(0.5)}
	return Loop{{centre.Sub(r), 1}, {centre.Sub(r).Add(Point{X: diameter}), 1}}
}

// Circle returns the centre and diameter of a loop that is one circle, and
// whether it is: two half circles of the same sense.
func (l Loop) Circle() (centre Point, diameter units.Length, ok bool) {
	if len(l) != 2 || l[0].Bulge != l[1].Bulge || math.Abs(l[0].Bulge) != 1 {
		return Point{}, units.Length{}, false
	}
	a, b := l[0].Point, l[1].Point
	return Point{a.X.Add(b.X).Scale(0.5), a.Y.Add(b.Y).Scale(0.5)}, a.Distance(b), true
}

// A Rect is a rectangular opening or outside with its sides along the axes: a
// port, the inside of a chest. Corner is the radius of its corners, at most half
// the shorter side, which is how an end mill leaves a port.
type Rect struct {
	Centre        Point
	Width, Height units.Length // along X and along Y
	Corner        units.Length
}

// Loop returns the rectangle as a loop, anticlockwise. The sides are above zero,
// the radius of the corners from zero to half the shorter side. See the example.
func (r Rect) Loop() (Loop, error) {
	err := fail.Within(
		fault.Named("centre of the rectangle", r.Centre.X), fault.Named("centre of the rectangle", r.Centre.Y),
		fault.Named("side of the rectangle", r.Width), fault.Named("side of the rectangle", r.Height),
		fault.Named("corner radius", r.Corner),
	)
	if err != nil {
		return nil, err
	}
	shorter := r.Width
	if r.Height.Cmp(shorter) < 0 {
		shorter = r.Height
	}
	if shorter.Sign() <= 0 {
		return nil, fail.OutOfRange("side of the rectangle", shorter, "above zero")
	}
	if r.Corner.Sign() < 0 || r.Corner.Add(r.Corner).Cmp(shorter) > 0 {
		half := shorter.Scale(0.5)
		return nil, fail.OutOfRange("corner radius", r.Corner, "zero to half the shorter side, "+half.String())
	}
	low := r.Centre.Sub(Point{r.Width.Scale(0.5), r.Height.Scale(0.5)})
	high := low.Add(Point{r.Width, r.Height})
	if r.Corner.IsZero() {
		return Loop{{low, 0}, {Point{high.X, low.Y}, 0}, {high, 0}, {Point{low.X, high.Y}, 0}}, nil
	}
	c := r.Corner
	quarter := math.Tan(math.Pi / 8) // tan of a quarter of 90 degrees
	corners := Loop{
		{Point{low.X.Add(c), low.Y}, 0}, {Point{high.X.Sub(c), low.Y}, quarter},
		{Point{high.X, low.Y.Add(c)}, 0}, {Point{high.X, high.Y.Sub(c)}, quarter},
		{Point{high.X.Sub(c), high.Y}, 0}, {Point{low.X.Add(c), high.Y}, quarter},
		{Point{low.X, high.Y.Sub(c)}, 0}, {Point{low.X, low.Y.Add(c)}, quarter},
	}
	var l Loop
	for i, v := range corners {
		if next := corners[(i+1)%len(corners)]; v.Point != next.Point {
			l = append(l, v) // a side of no length, between two full radii, is left out
		}
	}
	return l, nil
}
