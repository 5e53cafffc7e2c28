package gasket

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Points crowded together have the partners that a trial of all pairings finds:
// as many as can be, at the least sum of squares, none beyond reach.
func TestAssignBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	clashes := 0
	for k := range 400 {
		size := []float64{0.01, 1, 100}[k%3] // of everything
		reach := 1.2 * size
		a, b := make([]vec, 1+r.IntN(5)), make([]vec, 5+r.IntN(2))
		for _, points := range [][]vec{a, b} {
			for i := range points {
				points[i] = vec{3 * r.Float64(), 3 * r.Float64()}.scale(size)
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
		if got != most || math.Abs(sum-least) > 1e-9*size*size {
			t.Errorf("%d: %d pairs at %g, want %d at %g", k, got, sum, most, least)
		}
	}
	if clashes < 50 {
		t.Errorf("only %d of the cases are crowded", clashes)
	}
}

// A far point that the first pose leaves out of reach is paired once the others have
// mended the pose, and pairs that came up before are not gone through again.
func TestSettle(t *testing.T) {
	a := []vec{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {100, 5}}
	known := map[string]bool{}
	partner, count := settle(a, byX(a), pose{turn: 0.02}, 1, known)
	if count != 5 || len(partner) != 5 || partner[4] != 4 || partner[0] != 0 {
		t.Errorf("%v, %d", partner, count)
	}
	if partner, count := settle(a, byX(a), pose{turn: 0.02}, 1, known); partner != nil || count != 0 {
		t.Errorf("again: %v, %d", partner, count)
	}
	if _, count := settle(a, byX(a), pose{shift: vec{99.5, 5}}, 1, map[string]bool{}); count != 1 {
		t.Errorf("a single point in reach: %d", count)
	}
}
