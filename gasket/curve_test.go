package gasket

import (
	"math"
	"math/rand/v2"
	"testing"
)

func randomCurve(r *rand.Rand) curve {
	p := func() vec { return vec{40*r.Float64() - 20, 40*r.Float64() - 20} }
	if r.IntN(2) == 0 {
		return curve{from: p(), to: p()}
	}
	sin, cos := math.Sincos(2 * math.Pi * r.Float64())
	return arcAbout(p(), vec{cos, sin}.scale(1+15*r.Float64()), 4*math.Pi*(r.Float64()-0.5)*0.99)
}

// sample returns n points along a curve, by the formula of the line and the
// circle.
func sample(c curve, n int) []vec {
	points := make([]vec, n+1)
	for i := range points {
		t := float64(i) / float64(n)
		if c.straight() {
			points[i] = vec{c.from.x + t*(c.to.x-c.from.x), c.from.y + t*(c.to.y-c.from.y)}
		} else {
			points[i] = vec{c.centre.x + c.r*math.Cos(c.start+t*c.sweep), c.centre.y + c.r*math.Sin(c.start+t*c.sweep)}
		}
	}
	return points
}

// The closest points of two curves, against all pairs of points along them: no
// pair lies nearer, and one lies nearly as near.
func TestClosestSampled(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for k := range 400 {
		a, b := randomCurve(r), randomCurve(r)
		p, q := closest(a, b)
		got := p.sub(q).abs()
		least := math.Inf(1)
		const n = 250
		for _, x := range sample(a, n) {
			for _, y := range sample(b, n) {
				least = min(least, x.sub(y).abs())
			}
		}
		step := (a.length() + b.length()) / n
		if got > least+1e-9 || got < least-step {
			t.Errorf("%d: %.9g, sampled %.9g, of %+v and %+v", k, got, least, a, b)
		}
		if d := a.nearest(p).sub(p).abs() + b.nearest(q).sub(q).abs(); d > 1e-7 {
			t.Errorf("%d: the points lie %g off their curves", k, d)
		}
		low, high := a.box()
		for _, x := range sample(a, n) {
			if x.x < low.x-1e-9 || x.y < low.y-1e-9 || x.x > high.x+1e-9 || x.y > high.y+1e-9 {
				t.Fatalf("%d: %v outside the box %v %v", k, x, low, high)
			}
		}
	}
}

// Whether a point is inside a loop with large arcs, against counting crossings
// of a ray with the loop cut up fine.
func TestInsideSampled(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for k := range 300 {
		n := 3 + r.IntN(6)
		l := make(Loop, n)
		for i := range l {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			radius := 10 + 10*r.Float64()
			l[i] = Vertex{vec{radius * cos, radius * sin}.point(), []float64{0, 0.3, -0.3, 0.8, 1}[r.IntN(5)]}
		}
		cs, err := curves(l)
		if err != nil {
			t.Fatal(err)
		}
		for range 20 {
			p := vec{60*r.Float64() - 30, 60*r.Float64() - 30}
			if nearestOn(cs, p).sub(p).abs() < 0.01 {
				continue // too near to the edge for a loop that is cut up
			}
			winding := 0.0
			for _, c := range cs {
				points := sample(c, 400)
				for i := range points[1:] {
					a, b := points[i].sub(p), points[i+1].sub(p)
					winding += math.Atan2(a.cross(b), a.dot(b))
				}
			}
			if want := math.Abs(winding) > math.Pi; inside(cs, p) != want {
				t.Errorf("%d: %v inside %v, want %v", k, p, !want, want)
			}
		}
	}
}
