package dial

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// An IndexMove is the turning of the crank of a dividing head or rotary table
// from one hole to the next.
type IndexMove struct {
	Turns  int
	Spaces int // further holes of the index circle
	Circle int // holes of the index circle; 0 when whole turns do
}

// Indexing returns the moves of the crank that divide a circle into n: every
// circle of the plates that divides it, the one with most holes first.
//
//	turns = ratio/n
//
// The ratio is the crank's turns for one turn of the work: 40 for most dividing
// heads, 60 or 90 for many rotary tables. Circles lists the hole circles of the
// plates at hand. No circle that serves is an error that names the multiples
// wanted. Arithmetic; see also the indexing tables of package speeds.
func Indexing(n, ratio int, circles []int) ([]IndexMove, error) {
	if n < 1 || n > maxPoints {
		return nil, bad("divisions", fmt.Sprint(n), fmt.Sprintf("1 to %d", maxPoints))
	}
	if ratio < 1 || ratio > 1000 {
		return nil, bad("ratio of the worm", fmt.Sprint(ratio), "1 to 1000")
	}
	turns, left := ratio/n, ratio%n
	if left == 0 {
		return []IndexMove{{Turns: turns}}, nil
	}
	part := n / gcd(left, n) // the circle must be a multiple of it
	var moves []IndexMove
	for _, c := range circles {
		if c < 1 {
			return nil, bad("holes of an index circle", fmt.Sprint(c), "above zero")
		}
		if c%part == 0 {
			moves = append(moves, IndexMove{Turns: turns, Spaces: left * c / n, Circle: c})
		}
	}
	if len(moves) == 0 {
		return nil, &units.ArgumentError{Package: "dial", Field: "index circles", Value: fmt.Sprint(circles), Problem: fmt.Sprintf("none divides a circle into %d with a ratio of %d", n, ratio), Accepted: fmt.Sprintf("a circle whose holes are a multiple of %d", part), Err: units.ErrUnknown}
	}
	slices.SortFunc(moves, func(a, b IndexMove) int { return cmp.Compare(b.Circle, a.Circle) })
	return moves, nil
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
