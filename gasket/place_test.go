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

// The best pose for known partners, against a scan of all angles with a search
// for the shift at each: no line of the two methods is shared.
func TestMinimaxBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for k := range 24 {
		n := 2 + k%6
		a, b, radius := make([]vec, n), make([]vec, n), make([]float64, n)
		for i := range a {
			a[i] = vec{60*r.Float64() - 30, 60*r.Float64() - 30}
			b[i] = vec{60*r.Float64() - 30, 60*r.Float64() - 30} // nothing to do with a: many valleys
			if k%3 == 1 {
				b[i] = vec{a[i].x + r.Float64(), a[i].y + r.Float64()}
			}
			if k%2 == 1 {
				radius[i] = r.Float64()
			}
		}
		at := func(angle float64) float64 {
			sin, cos := math.Sincos(angle)
			discs := make([]disc, n)
			for i := range a {
				discs[i] = disc{vec{b[i].x - a[i].x*cos + a[i].y*sin, b[i].y - a[i].x*sin - a[i].y*cos}, radius[i]}
			}
			return bruteCircle(discs)
		}
		const steps = 90
		values := make([]float64, steps)
		for i := range values {
			values[i] = at(2 * math.Pi * float64(i) / steps)
		}
		want := math.Inf(1)
		for i, v := range values {
			if v <= values[(i+1)%steps] && v <= values[(i+steps-1)%steps] {
				want = min(want, leastOf(at, 2*math.Pi*float64(i-1)/steps, 2*math.Pi*float64(i+1)/steps))
			}
		}
		p, f := minimax(a, b, radius, r.Float64())
		if math.Abs(f-want) > 1e-5 {
			t.Errorf("%d: greatest error %.9g, scan %.9g", k, f, want)
		}
		greatest := 0.0
		for i := range a {
			greatest = max(greatest, p.of(a[i]).sub(b[i]).abs()+radius[i])
		}
		if math.Abs(greatest-f) > 1e-9 {
			t.Errorf("%d: the pose gives %.12g, reported %.12g", k, greatest, f)
		}
	}
}

// Without a turn the best shift is the centre of the circle round the error
// vectors, which a linear program found too.
func TestEncloseShiftOnly(t *testing.T) {
	points := map[string][]disc{}
	f := check.Open(t, "gasket/registration_points.csv")
	for r := range f.Rows() {
		c := r.Text("case")
		off := vec{r.Float("q_x_mm") - r.Float("p_x_mm"), r.Float("q_y_mm") - r.Float("p_y_mm")}
		points[c] = append(points[c], disc{at: off})
		r.Compare("weight", r.Float("weight"))
	}
	f = check.Open(t, "gasket/registration.csv")
	for r := range f.Rows() {
		if r.Text("method") == "shift only" {
			e := enclose(points[r.Text("case")])
			r.Compare("shift_x_mm", e.at.x)
			r.Compare("shift_y_mm", e.at.y)
			r.Within("max_mm", e.r, 1e-5) // the polygon of the linear program lies inside the circle
		}
	}
}

// Points crowded together have the partners that a trial of all pairings finds:
// as many as can be, at the least sum of squares, none beyond reach.
func TestAssignBruteForce(t *testing.T) {
	const reach = 1.2
	r := rand.New(rand.NewPCG(17, 18))
	clashes := 0
	for k := range 400 {
		a, b := make([]vec, 1+r.IntN(5)), make([]vec, 5+r.IntN(2))
		for _, points := range [][]vec{a, b} {
			for i := range points {
				points[i] = vec{3 * r.Float64(), 3 * r.Float64()}
			}
		}
		taken := make([]bool, len(b))
		most, least := -1, 0.0
		var try func(i, pairs int, sum float64)
		try = func(i, pairs int, sum float64) {
			if i == len(a) {
				if pairs > most || pairs == most && sum < least {
					most, least = pairs, sum
				}
				return
			}
			try(i+1, pairs, sum)
			for j := range b {
				if d := a[i].sub(b[j]); !taken[j] && d.abs() <= reach {
					taken[j] = true
					try(i+1, pairs+1, sum+d.dot(d))
					taken[j] = false
				}
			}
		}
		try(0, 0, 0)
		targets := byX(b)
		got, sum, used := 0, 0.0, map[int]bool{}
		nearest := map[int]bool{}
		clash := false
		for i, j := range assign(a, targets, pose{}, reach) {
			if n := targets.nearest(a[i], reach); n >= 0 {
				clash = clash || nearest[n]
				nearest[n] = true
			}
			if j < 0 {
				continue
			}
			if used[j] {
				t.Fatalf("%d: point %d of the second set is taken twice", k, j)
			}
			used[j] = true
			d := a[i].sub(b[j])
			got, sum = got+1, sum+d.dot(d)
		}
		if clash {
			clashes++
		}
		if got != most || math.Abs(sum-least) > 1e-9 {
			t.Errorf("%d: %d pairs at %g, want %d at %g", k, got, sum, most, least)
		}
	}
	if clashes < 50 {
		t.Errorf("only %d of the cases are crowded", clashes)
	}
}
