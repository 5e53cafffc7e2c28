package template

import (
	"math"
	"slices"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
)

// A ring is the circle through evenly spaced holes.
type ring struct {
	centre sheet.Point
	radius float64
}

// ringOf returns the circle on which three or more holes of one size are evenly
// spaced, to a hundredth of a millimetre.
func ringOf(holes gasket.Pattern) (ring, bool) {
	const within = 0.01
	n := len(holes)
	if n < 3 || n > 1000 {
		return ring{}, false
	}
	var r ring
	for _, h := range holes {
		if h.Diameter != holes[0].Diameter {
			return ring{}, false
		}
		r.centre = r.centre.At(h.At.X.MM()/float64(n), h.At.Y.MM()/float64(n))
	}
	angles := make([]float64, n)
	for i, h := range holes {
		at := place(h.At)
		radius := math.Hypot(at.X-r.centre.X, at.Y-r.centre.Y)
		if i == 0 {
			r.radius = radius
		}
		if math.Abs(radius-r.radius) > within {
			return ring{}, false
		}
		angles[i] = math.Atan2(at.Y-r.centre.Y, at.X-r.centre.X)
	}
	slices.Sort(angles)
	for i, a := range angles {
		if math.Abs(a-angles[0]-2*math.Pi*float64(i)/float64(n))*r.radius > within {
			return ring{}, false
		}
	}
	return r, r.radius > within
}

// symmetric reports whether the vertices of a loop are the same on both sides of
// the axis across and of the axis up through a point.
func symmetric(l gasket.Loop, mid sheet.Point) (across, up bool) {
	if _, _, ok := l.Circle(); ok {
		return true, true
	}
	type key struct{ x, y int64 }
	round := func(x, y float64) key { return key{int64(math.Round(x * 1e4)), int64(math.Round(y * 1e4))} }
	have := map[key]bool{}
	for _, v := range l {
		at := place(v.Point)
		have[round(at.X-mid.X, at.Y-mid.Y)] = true
	}
	across, up = true, true
	for k := range have {
		across = across && have[key{k.x, -k.y}]
		up = up && have[key{-k.x, k.y}]
	}
	return across, up
}

// vertices returns a loop for the drawing.
func vertices(l gasket.Loop) []sheet.Vertex {
	v := make([]sheet.Vertex, len(l))
	for i := range l {
		v[i] = sheet.Vertex{Point: place(l[i].Point), Bulge: l[i].Bulge}
	}
	return v
}

func circle(at sheet.Point, radius float64) []sheet.Vertex {
	return []sheet.Vertex{{Point: at.At(-radius, 0), Bulge: 1}, {Point: at.At(radius, 0), Bulge: 1}}
}

func place(p gasket.Point) sheet.Point { return sheet.Point{X: p.X.MM(), Y: p.Y.MM()} }

func near(a, b sheet.Point) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) < 1e-3 }
