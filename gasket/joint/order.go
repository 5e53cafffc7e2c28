package joint

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/gasket"
)

// Order returns the order in which to tighten the studs of a pattern, as indices
// from 0: opposite pairs. On a bolt circle each next pair lies as far from those
// done as can be, and an odd number is taken in a star; on any other pattern the
// pair nearest the middle comes first and the corners last, so that the cover is
// pressed flat from the inside out.
//
// Go round so in three rounds of a third, two thirds and all of the torque, then
// once more in a ring; look again, cold, after the first steaming.
//
// Source: common practice; the thirds are those of Moss, Pressure Vessel Design
// Manual, fig. 2-25, p. 62. Fewer than 2 or more than 500 studs, and two in one
// place, are errors.
func Order(p gasket.Pattern) ([]int, error) {
	if len(p) < 2 || len(p) > 500 {
		return nil, bad("studs to tighten", fmt.Sprint(len(p)), "2 to 500")
	}
	type place struct{ x, y, r, angle float64 }
	places := make([]place, len(p))
	var mx, my float64
	for i, h := range p {
		for _, g := range p[:i] {
			if g.At == h.At {
				return nil, bad("stud "+h.Name, "", "a place of its own, not that of stud "+g.Name)
			}
		}
		mx += h.At.X.MM() / float64(len(p))
		my += h.At.Y.MM() / float64(len(p))
	}
	near, far := math.Inf(1), 0.0
	for i, h := range p {
		x, y := h.At.X.MM()-mx, h.At.Y.MM()-my
		places[i] = place{x, y, math.Hypot(x, y), math.Atan2(y, x)}
		near, far = min(near, places[i].r), max(far, places[i].r)
	}
	onCircle := near > 0.95*far
	if onCircle && len(p)%2 == 1 {
		return star(len(p), func(i int) float64 { return places[i].angle }), nil
	}
	const slack = 1e-6 // differences below it are those of rounding: the first in order is taken
	var order []int
	left := make([]bool, len(p))
	for i := range left {
		left[i] = true
	}
	take := func(cost func(i int) float64) {
		best := -1
		for i := range p {
			if left[i] && (best < 0 || cost(i) < cost(best)-slack) {
				best = i
			}
		}
		if best >= 0 {
			left[best] = false
			order = append(order, best)
		}
	}
	for len(order) < len(p) {
		take(func(i int) float64 {
			if !onCircle {
				return places[i].r
			}
			// the least angle to a line through studs that are done, as large as can be
			least := math.Pi / 2
			for _, j := range order {
				least = min(least, math.Abs(math.Remainder(places[i].angle-places[j].angle, math.Pi)))
			}
			return -least
		})
		last := places[order[len(order)-1]]
		take(func(i int) float64 { return math.Hypot(places[i].x+last.x, places[i].y+last.y) })
	}
	return order, nil
}

// star takes an odd number of studs in steps of nearly half the circle.
func star(n int, angle func(int) float64) []int {
	ring := make([]int, n)
	for i := range ring {
		ring[i] = i
	}
	turn := func(i int) float64 { // anticlockwise from the first stud
		t := math.Mod(angle(i)-angle(0), 2*math.Pi)
		if t < -1e-9 {
			t += 2 * math.Pi
		}
		return t
	}
	slices.SortStableFunc(ring, func(i, j int) int {
		switch d := turn(i) - turn(j); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	order := make([]int, n)
	for k := range order {
		order[k] = ring[k*(n/2)%n]
	}
	return order
}
