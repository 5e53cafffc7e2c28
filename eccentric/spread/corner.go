package spread

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
)

// toward returns the end of a varied size that lies the way of a sign.
func (v *varied) toward(sign float64) float64 {
	if sign < 0 {
		return v.lower
	}
	return v.upper
}

// base returns each varied size as drawn, or as near to it as its tolerance lets it.
func (b *box) base() []float64 {
	sizes := make([]float64, len(b.varied))
	for i, v := range b.varied {
		sizes[i] = min(max(v.drawn, v.lower), v.upper)
	}
	return sizes
}

// gear returns the gear of those sizes.
func (b *box) gear(sizes []float64) kernel.Gear {
	g := b.drawn
	for i := range b.varied {
		b.varied[i].set(&g, sizes[i])
	}
	return g
}

// with returns sizes with another one of one dimension.
func with(sizes []float64, i int, size float64) []float64 {
	other := append([]float64(nil), sizes...)
	other[i] = size
	return other
}

// place returns where a dimension stands among those that vary; -1 for not there.
func (b *box) place(d Dimension) int {
	for i, v := range b.varied {
		if v.dimension == d {
			return i
		}
	}
	return -1
}

// cross returns where on the straight way between two combinations of sizes a
// function is nothing, of which it has another sign at each; on the side of the
// first.
func cross(from, to []float64, f func(sizes []float64) float64) []float64 {
	at := func(share float64) []float64 {
		sizes := make([]float64, len(from))
		for i := range from {
			sizes[i] = from[i] + share*(to[i]-from[i])
		}
		return sizes
	}
	low, high := 0.0, 1.0
	negative := math.Signbit(f(from))
	for range 60 {
		middle := (low + high) / 2
		if math.Signbit(f(at(middle))) == negative {
			low = middle
		} else {
			high = middle
		}
	}
	return at(low)
}
