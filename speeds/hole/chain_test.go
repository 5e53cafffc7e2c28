package hole_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// A port of 10 by 2 mm, drilled 1.8 mm before it is milled.
func ExampleChainFor() {
	c, err := hole.ChainFor(units.MM(10), units.MM(2), units.MM(1.8))
	fmt.Println(c.Centres, c.Pitch, err)
	// Output:
	// [1 mm 3 mm 5 mm 7 mm 9 mm] 2 mm <nil>
}

func TestChain(t *testing.T) {
	for _, tt := range []struct {
		l, w, d float64
		holes   int // 0: refused
	}{
		{10, 2, 1.8, 5}, {2, 2, 1.8, 1}, {3, 2, 1.8, 1}, {4, 2, 1.8, 2}, {10, 2, 1.9, 0}, {1, 2, 1, 0}, {10, 0, 1, 0}, {10, 2, 0, 0}, {5000, 2, 1, 0},
	} {
		c, err := hole.ChainFor(units.MM(tt.l), units.MM(tt.w), units.MM(tt.d))
		var bad *units.ArgumentError
		if len(c.Centres) != tt.holes || (tt.holes == 0) != errors.As(err, &bad) {
			t.Errorf("%v: %v, %v", tt, c.Centres, err)
		}
	}
	// Every hole is inside the slot and leaves metal to the next one.
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(0.5, 20).Draw(t, "width")
		l := w * rapid.Float64Range(1, 20).Draw(t, "length")
		d := w * rapid.Float64Range(0.2, 0.89).Draw(t, "drill")
		c, err := hole.ChainFor(units.MM(l), units.MM(w), units.MM(d))
		if err != nil {
			t.Fatal(err)
		}
		for i, at := range c.Centres {
			if at.MM()-d/2 < 0 || at.MM()+d/2 > l {
				t.Fatalf("hole %d at %v of %v", i, at, l)
			}
			if i > 0 && (at.Sub(c.Centres[i-1]).MM() < 1.1*d-1e-6 || math.Abs(at.Sub(c.Centres[i-1]).MM()-c.Pitch.MM()) > 1e-6) {
				t.Fatalf("hole %d at %v, %v apart", i, at, c.Pitch)
			}
		}
	})
}

// The largest drill along a port of 2 mm, and the chain of holes that it makes.
func ExampleChainDrill() {
	drill, err := hole.ChainDrill(units.MM(2))
	fmt.Println(drill, err)
	// Output:
	// 1.8 mm <nil>
}
