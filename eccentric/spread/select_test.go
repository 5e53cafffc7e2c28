package spread

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// sorted returns the percentiles of numbers by putting them in order.
func sorted(x []float64) (p [len(shares)]float64) {
	x = slices.Clone(x)
	slices.Sort(x)
	for i, share := range shares {
		if len(x) == 0 {
			continue
		}
		h := share * float64(len(x)-1)
		k := int(math.Floor(h))
		p[i] = x[k]
		if k+1 < len(x) {
			p[i] += (h - float64(k)) * (x[k+1] - x[k])
		}
	}
	return p
}

func TestPercentiles(t *testing.T) {
	var p picker // used again, as a run does
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.OneOf(
			rapid.Float64Range(-1, 1), rapid.Float64Range(-1e-3, 1e-3),
			rapid.SampledFrom([]float64{0, 1, 2}), rapid.SampledFrom([]float64{-1e300, 5e-324, math.MaxFloat64, -math.MaxFloat64}),
		)
		parts := rapid.SliceOfN(rapid.SliceOfN(number, 0, 400), 0, 5).Draw(t, "parts")
		all := slices.Concat(parts...)
		want := sorted(all)
		for i, got := range p.percentiles(parts) {
			if got != want[i] && !(math.Abs(got-want[i]) <= 1e-15*math.Abs(want[i])) && !math.IsInf(want[i], 0) && !math.IsNaN(want[i]) {
				t.Errorf("%v of %d numbers is %v, want %v", shares[i], len(all), got, want[i])
			}
		}
		if !slices.Equal(slices.Concat(parts...), all) {
			t.Error("the numbers have changed")
		}
	})
}

// Of 100,001 numbers the percentiles are numbers of their own, which gonum picks
// from those in order; of shapes with peaks, gaps and far ends.
func TestPercentilesAgainstGonum(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for name, draw := range map[string]func() float64{
		"normal":    rng.NormFloat64,
		"uniform":   rng.Float64,
		"far ends":  func() float64 { return math.Tan(math.Pi * (rng.Float64() - 0.5)) },
		"two peaks": func() float64 { return math.Copysign(1e6, rng.Float64()-0.5) + rng.NormFloat64() },
		"cut off":   func() float64 { return min(rng.NormFloat64(), 0.2) },
		"all alike": func() float64 { return 2 },
		"steps":     func() float64 { return math.Floor(5 * rng.Float64()) },
	} {
		x := make([]float64, 100_001)
		for i := range x {
			x[i] = draw()
		}
		var p picker
		got := p.percentiles([][]float64{x[:3], x[3:60_000], x[60_000:]})
		slices.Sort(x)
		for i, share := range shares {
			if want := stat.Quantile(share, stat.Empirical, x, nil); got[i] != want {
				t.Errorf("%s: %v is %v, want %v", name, share, got[i], want)
			}
		}
	}
}
