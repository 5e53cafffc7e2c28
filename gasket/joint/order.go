package joint

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/gasket"
)

// Order returns the order in which to tighten the studs of a pattern, by their
// numbers in it, the first of which is 1: opposite pairs. On a bolt circle, also one with studs left out, each
// next pair lies as far from those done as can be and then from the last, and an
// odd number is taken in a star; on any other pattern the pair nearest the middle
// comes first and the corners last, so that the cover is pressed flat from the
// inside out.
//
// Go round so in three rounds of a third, two thirds and all of the torque, then
// once more in a ring; look again, cold, after the first steaming.
//
// A pattern has 2 to 500 studs, no two in one place. Source: common practice; the
// thirds are those of Moss, Pressure Vessel Design Manual, fig. 2-25, p. 62. See
// the example.
func Order(p gasket.Pattern) ([]int, error) {
	if err := checkPattern(p); err != nil {
		return nil, err
	}
	order := indices(p)
	for i := range order {
		order[i]++ // people count from 1
	}
	return order, nil
}

func checkPattern(p gasket.Pattern) error {
	if len(p) < 2 || len(p) > 500 {
		return fail.OutOfRange("studs to tighten", len(p), "2 to 500")
	}
	for i, h := range p {
		for j, g := range p[:i] {
			if g.At == h.At {
				field, at := fmt.Sprintf("place of stud %d", i+1), fmt.Sprintf("%v, %v", h.At.X, h.At.Y)
				return fail.OutOfRange(field, at, fmt.Sprintf("a place of its own, not that of stud %d", j+1))
			}
		}
	}
	return nil
}

func indices(p gasket.Pattern) []int {
	places, how := around(p)
	if how == onCircle && len(p)%2 == 1 {
		return star(places)
	}
	var far float64
	for _, q := range places {
		far = max(far, q.r)
	}
	var order []int
	left := make([]bool, len(p))
	for i := range left {
		left[i] = true
	}
	// take the stud of least cost; among equals the one of least second cost, and
	// then the first
	// differences below a tenth of the pitch are those of drilling and measuring
	slack := min(0.02, 0.2*math.Pi/float64(len(p)))
	take := func(cost func(i int) (first, second float64)) place {
		best := -1
		var least, second float64
		for i := range p {
			if !left[i] {
				continue
			}
			c, s := cost(i)
			if best < 0 || c < least-slack || c < least+slack && s < second-slack {
				best, least, second = i, c, s
			}
		}
		left[best] = false
		order = append(order, best)
		return places[best]
	}
	var last place
	for len(order) < len(p) {
		last = take(func(i int) (float64, float64) {
			switch {
			case how != onCircle:
				return places[i].r / far, 0
			case len(order) == 0:
				return 0, 0
			}
			least := math.MaxFloat64 // the least angle to a line through studs that are done
			for _, j := range order {
				least = min(least, places[i].between(places[j]))
			}
			return -least, -places[i].between(last)
		})
		if len(order) < len(p) {
			take(func(i int) (float64, float64) {
				return math.Hypot(places[i].x+last.x, places[i].y+last.y) / far, 0
			})
		}
	}
	return order
}

// A place is where a stud stands from the middle of the pattern, in millimetres.
type place struct{ x, y, r, angle float64 }

// between returns the angle between the lines through two studs and the middle.
func (a place) between(b place) float64 {
	return math.Abs(math.Remainder(a.angle-b.angle, math.Pi))
}

// A layout is how the studs of a pattern stand.
type layout int

const (
	anyhow layout = iota
	onCircle
	inRow
)

// around returns the places of the studs about the centre of their circle, to
// 1 percent of its radius, or else about their mean.
func around(p gasket.Pattern) ([]place, layout) {
	var mx, my float64
	for _, h := range p {
		mx += h.At.X.MM() / float64(len(p))
		my += h.At.Y.MM() / float64(len(p))
	}
	from := func(cx, cy float64) (places []place, near, far float64) {
		near = math.MaxFloat64
		for _, h := range p {
			x, y := h.At.X.MM()-cx, h.At.Y.MM()-cy
			r := math.Hypot(x, y)
			places = append(places, place{x, y, r, math.Atan2(y, x)})
			near, far = min(near, r), max(far, r)
		}
		return places, near, far
	}
	// the circle of least squares in r^2, about the mean: two linear equations
	var xx, xy, yy, xr, yr float64
	mean, _, _ := from(mx, my)
	for _, q := range mean {
		xx, xy, yy = xx+q.x*q.x, xy+q.x*q.y, yy+q.y*q.y
		xr, yr = xr+q.x*q.r*q.r, yr+q.y*q.r*q.r
	}
	det := xx*yy - xy*xy
	switch {
	case len(p) == 2:
		return mean, onCircle
	case det <= 1e-9*(xx+yy)*(xx+yy):
		return mean, inRow
	}
	places, near, far := from(mx+(xr*yy-yr*xy)/(2*det), my+(yr*xx-xr*xy)/(2*det))
	if near > 0.99*far {
		return places, onCircle
	}
	return mean, anyhow
}

// star takes an odd number of studs in steps of nearly half the circle.
func star(places []place) []int {
	n := len(places)
	ring := inOrder(places, onCircle)
	order := make([]int, n)
	for k := range order {
		order[k] = ring[k*(n/2)%n]
	}
	return order
}

// inOrder returns the studs anticlockwise from the first, or along their row.
func inOrder(places []place, how layout) []int {
	ring := make([]int, len(places))
	for i := range ring {
		ring[i] = i
	}
	first := places[0]
	rank := func(i int) float64 {
		turn := places[i].angle - first.angle
		if turn < -1e-9 {
			turn += 2 * math.Pi
		}
		return turn
	}
	if how == inRow {
		end := first // which is far from the middle, as not every stud of a row stands there
		for _, q := range places {
			if q.r > end.r {
				end = q
			}
		}
		rank = func(i int) float64 { return places[i].x*end.x + places[i].y*end.y }
	}
	slices.SortStableFunc(ring, func(i, j int) int { return cmp.Compare(rank(i), rank(j)) })
	return ring
}
