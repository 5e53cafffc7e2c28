package gasket

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// leastOf returns the least value of a function that falls, then rises, on an
// interval, by golden section.
func leastOf(f func(float64) float64, lo, hi float64) float64 {
	const g = 0.6180339887498949
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := f(a), f(b)
	for range 48 {
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = f(b)
		}
	}
	return min(fa, fb)
}

// bruteCircle is the radius of the smallest circle round discs by a search over
// x and, inside it, over y: the greatest distance is convex in both.
func bruteCircle(discs []disc) float64 {
	return leastOf(func(x float64) float64 {
		return leastOf(func(y float64) float64 {
			greatest := 0.0
			for _, d := range discs {
				greatest = max(greatest, math.Hypot(x-d.at.x, y-d.at.y)+d.r)
			}
			return greatest
		}, -200, 200)
	}, -200, 200)
}

func TestEncloseBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for k := range 150 {
		discs := make([]disc, 1+r.IntN(9))
		for i := range discs {
			discs[i].at = vec{100*r.Float64() - 50, 100*r.Float64() - 50}
			if k%2 == 1 {
				discs[i].r = 30 * r.Float64()
			}
			if k%5 == 0 { // many on one circle, and in one place
				sin, cos := math.Sincos(float64(i%4) * math.Pi / 2)
				discs[i].at = vec{20 * cos, 20 * sin}
			}
		}
		e := enclose(discs)
		if want := bruteCircle(discs); math.Abs(e.r-want) > 1e-6 {
			t.Errorf("%d: radius %.9g, search %.9g, of %v", k, e.r, want, discs)
		}
		for _, d := range discs {
			if e.reach(d) > e.r+1e-9 {
				t.Errorf("%d: %v sticks out", k, d)
			}
		}
	}
}

// Without a turn the best shift is the centre of the circle round the error
// vectors, which a linear program found too.
func TestEncloseShiftOnly(t *testing.T) {
	points := map[string][]disc{}
	for _, r := range check.Given(t, "gasket/registration_points.csv") {
		c := r.Text("case")
		off := vec{r.Float("q_x_mm") - r.Float("p_x_mm"), r.Float("q_y_mm") - r.Float("p_y_mm")}
		points[c] = append(points[c], disc{at: off})
	}
	f := check.Open(t, "gasket/registration.csv")
	for r := range f.Rows() {
		if r.Text("method") == "shift only" {
			e := enclose(points[r.Text("case")])
			r.Compare("shift_x_mm", e.at.x)
			r.Compare("shift_y_mm", e.at.y)
			r.Within("max_mm", e.r, 1e-5) // the polygon of the linear program lies inside the circle
		}
	}
}
