package spread

import (
	"math/rand/v2"
	"slices"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
)

// searchFor returns the sizes that make a part of the motion as large as can be
// found along some of the sizes, or as small for a sign below zero: from each of
// some starts, and from others all over the box, it goes along one size after the
// other until nothing is gained. It is for what cannot be shown to go one way, and
// proves nothing.
func (b *box) searchFor(starts [][]float64, along []int, sign float64, part func(*kernel.Gear) float64) []float64 {
	random := rand.New(rand.NewPCG(1, 1)) // the same in every run
	starts = slices.Clone(starts)
	for range 12 {
		sizes := slices.Clone(starts[0])
		for _, i := range along {
			v := b.varied[i]
			sizes[i] = v.lower + (v.upper-v.lower)*random.Float64()
		}
		starts = append(starts, sizes)
	}
	value := func(sizes []float64) float64 {
		g := b.gear(sizes)
		return sign * part(&g)
	}
	var all []point
	for _, sizes := range starts {
		best := point{value(sizes), slices.Clone(sizes)}
		for range 10 {
			before := best.value
			for _, i := range along {
				b.along(&best, i, value)
			}
			if best.value <= before {
				break
			}
		}
		all = append(all, best)
	}
	return furthest(all, 1).sizes
}

// along moves a point along one size to where the value is largest: the best of its
// ends and of places between them, and closer and closer round that.
func (b *box) along(best *point, i int, value func([]float64) float64) {
	low, high := b.varied[i].lower, b.varied[i].upper
	for range 6 {
		const steps = 16
		step := (high - low) / steps
		for k := range steps + 1 {
			sizes := with(best.sizes, i, low+step*float64(k))
			if v := value(sizes); v > best.value {
				*best = point{v, sizes}
			}
		}
		low = max(low, best.sizes[i]-step)
		high = min(high, best.sizes[i]+step)
	}
}
