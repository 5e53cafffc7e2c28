package gasket

import (
	"math"
	"math/rand/v2"
	"testing"
)

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
