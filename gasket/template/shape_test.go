package template

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// Holes on a circle are one of a size, evenly spaced to a hundredth of a millimetre: one
// that is off by a little more, along the circle or across it, is none, nor is one of
// another size.
func TestRingOfHoles(t *testing.T) {
	for n := 3; n <= 9; n++ {
		pattern := func(out, along, size float64) gasket.Pattern {
			var p gasket.Pattern
			for i := range n {
				r, d := 20.0, 3.0
				angle := 0.3 + 2*math.Pi*float64(i)/float64(n)
				if i == n-1 {
					r, d, angle = r+out, d+size, angle+along/r
				}
				p = append(p, drilled("", 5+r*math.Cos(angle), -7+r*math.Sin(angle), d))
			}
			return p
		}
		got, ok := ringOf(pattern(0, 0, 0))
		if !ok || math.Hypot(got.centre.X-5, got.centre.Y+7) > 1e-6 || math.Abs(got.radius-20) > 1e-6 {
			t.Errorf("%d holes: %+v, %v", n, got, ok)
		}
		for _, off := range []struct{ out, along, size float64 }{{0.03, 0, 0}, {-0.03, 0, 0}, {0, 0.03, 0}, {0, -0.03, 0}, {0, 0, 0.001}} {
			if got, ok := ringOf(pattern(off.out, off.along, off.size)); ok {
				t.Errorf("%d holes, %v: %+v", n, off, got)
			}
		}
		if _, ok := ringOf(pattern(0.004, 0.004, 0)); !ok {
			t.Errorf("%d holes, one within a hundredth: no ring", n)
		}
	}
	two := gasket.Pattern{drilled("", 10, 0, 3), drilled("", -10, 0, 3)}
	if _, ok := ringOf(two); ok {
		t.Error("two holes are a ring")
	}
	var many gasket.Pattern
	for i := range 1001 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 1001)
		many = append(many, drilled("", 1000*cos, 1000*sin, 3))
	}
	if _, ok := ringOf(many); ok {
		t.Error("more than 1000 holes")
	}
	for i := range 1000 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 1000)
		many[i] = drilled("", 1000*cos, 1000*sin, 3)
	}
	if _, ok := ringOf(many[:1000]); !ok {
		t.Error("1000 holes are no ring")
	}
}

// A loop is the same on both sides of an axis where its mirror image has the same
// corners.
func TestSymmetricLoops(t *testing.T) {
	corners := func(at ...float64) gasket.Loop {
		var l gasket.Loop
		for i := 0; i < len(at); i += 2 {
			l = append(l, gasket.Vertex{Point: gasket.Point{X: units.MM(at[i]), Y: units.MM(at[i+1])}})
		}
		return l
	}
	middle := sheet.Point{X: 10, Y: 4}
	for _, l := range []struct {
		name       string
		loop       gasket.Loop
		across, up bool
	}{
		{"circle", gasket.Circle(at(50, 50), units.MM(3)), true, true},
		{"rectangle", corners(0, 0, 20, 0, 20, 8, 0, 8), true, true},
		{"rectangle off the middle", corners(1, 0, 20, 0, 20, 8, 1, 8), true, false},
		{"wedge", corners(0, 0, 20, 3, 20, 5, 0, 8), true, false},
		{"roof", corners(0, 0, 20, 0, 20, 6, 10, 8, 0, 6), false, true},
		{"corner off by a micron", corners(0, 0, 20, 0, 20, 8.001, 0, 8), false, false},
	} {
		if across, up := symmetric(l.loop, middle); across != l.across || up != l.up {
			t.Errorf("%s: %v, %v", l.name, across, up)
		}
	}
}

// Lines cross where a point of the one lies on the other, by the place of it along both;
// the distance of a point from a line is the least from points along it; and the outside is
// left where a walk along the direction last comes out of it.
func TestPlaneGeometry(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 16))
	point := func() sheet.Point { return sheet.Point{X: 20*r.Float64() - 10, Y: 20*r.Float64() - 10} }
	on := func(a, b sheet.Point, s float64) sheet.Point {
		return sheet.Point{X: a.X + s*(b.X-a.X), Y: a.Y + s*(b.Y-a.Y)}
	}
	crossed := 0
	for range 400 {
		a, b, c, d := point(), point(), point(), point()
		// Cramer's rule for a + s (b - a) = c + u (d - c)
		det := (b.X-a.X)*(c.Y-d.Y) - (b.Y-a.Y)*(c.X-d.X)
		s := ((c.X-a.X)*(c.Y-d.Y) - (c.Y-a.Y)*(c.X-d.X)) / det
		u := ((b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)) / det
		want := s > 0 && s < 1 && u > 0 && u < 1
		if want {
			crossed++
		}
		if cross(a, b, c, d) != want {
			t.Errorf("%v to %v and %v to %v cross: %v", a, b, c, d, !want)
		}
		least := math.Inf(1)
		for i := range 2001 {
			q := on(a, b, float64(i)/2000)
			least = min(least, math.Hypot(q.X-c.X, q.Y-c.Y))
		}
		if got := distance(c, a, b); got > least+1e-9 || got < least-0.01 {
			t.Errorf("%v is %v from the line from %v to %v, want %v", c, got, a, b, least)
		}
		if got := distance(c, a, a); math.Abs(got-math.Hypot(a.X-c.X, a.Y-c.Y)) > 1e-6 {
			t.Errorf("%v is %v from %v", c, got, a)
		}
	}
	if crossed < 40 {
		t.Errorf("only %d pairs crossed", crossed)
	}
	// a circle of 36 mm, by chords, from a point in it: the root of a quadratic
	outside := sheet.Corners(circle(sheet.Point{X: 3, Y: -2}, 18))
	for range 100 {
		from, angle := sheet.Point{X: 3 + 8*r.Float64(), Y: -2 - 8*r.Float64()}, 2*math.Pi*r.Float64()
		way := direction(angle)
		x, y := from.X-3, from.Y+2
		along := x*way.X + y*way.Y
		want := -along + math.Sqrt(along*along+18*18-x*x-y*y)
		if got := exit(from, way, outside); math.Abs(got-want) > 0.04 { // by chords of 1/64 of a turn
			t.Errorf("from %v at %v the outside is left after %v, want %v", from, angle, got, want)
		}
	}
	// a hollow is crossed twice, and left for the last time behind it
	hollow := []sheet.Point{{}, {X: 30}, {X: 30, Y: 20}, {X: 20, Y: 20}, {X: 20, Y: 5}, {X: 10, Y: 5}, {X: 10, Y: 20}, {Y: 20}}
	if got := exit(sheet.Point{X: 5, Y: 10}, sheet.Point{X: 1}, hollow); math.Abs(got-25) > 1e-9 {
		t.Errorf("the far side of a hollow is left after %v, want 25", got)
	}
	for _, a := range []struct{ a, b, circle, want float64 }{{10, 350, 360, 20}, {45, 225, 180, 0}, {80, 0, 90, 10}, {30, 45, 180, 15}} {
		if got := apart(a.a, a.b, a.circle); math.Abs(got-a.want) > 1e-9 {
			t.Errorf("%v and %v are %v apart of %v", a.a, a.b, got, a.circle)
		}
	}
}
