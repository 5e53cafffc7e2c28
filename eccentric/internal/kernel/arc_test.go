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
}
