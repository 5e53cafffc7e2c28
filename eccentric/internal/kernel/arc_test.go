package kernel

import (
	"math"
	"testing"
)

// An angle comes back from the sine and the cosine of its half, at the seams of
// the table too.
func TestArc(t *testing.T) {
	worst := 0.0
	try := func(p float64) {
		sin, cos := math.Sincos(p / 2)
		worst = max(worst, math.Abs(arc(allMarks(), sin, cos)-p))
	}
	const steps = 1_000_000
	for i := range steps {
		try(math.Pi * float64(i) / steps)
	}
	for i := range markRows {
		seam := 2 * math.Asin(math.Sqrt(float64(i)/(markRows-1)))
		for _, p := range []float64{seam, math.Nextafter(seam, 0), math.Nextafter(seam, 4)} {
			try(min(p, math.Pi))
		}
	}
	if !(worst <= 1e-15) {
		t.Errorf("off by %g", worst)
	}
	t.Logf("off by %g at most", worst)
	// At the ends of the first row, the furthest from any mark, the angle is small, so that the last terms of the
	// series show: sin(p/2) of 0 and 1e-3.
	for _, sin := range []float64{0, 1e-3} {
		want := 2 * math.Asin(sin)
		if got := arc(allMarks(), sin, math.Sqrt(1-sin*sin)); math.Abs(got-want) > 6e-17 {
			t.Errorf("angle of %v off by %g", sin, got-want)
		}
	}
}
