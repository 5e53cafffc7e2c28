package dividing

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("dividing")

// A Head is a dividing head, or a rotary table with plates: a worm of some
// ratio and a set of plates with circles of holes.
type Head struct {
	ratio   int
	circles []int // sorted, without repeats
}

// NewHead returns the head whose crank makes ratio turns for one of the work,
// 1 to 360 (40 for most heads, 90 or 72 for rotary tables), with the given
// circles, 2 to 500 holes each, up to 200 of them. No circles is a head with a
// plain dial of one hole. See the Example of [Head.Divide].
func NewHead(ratio int, circles ...int) (Head, error) {
	if ratio < 1 || ratio > 360 {
		return Head{}, fail.OutOfRange("ratio", ratio, "1 to 360")
	}
	if len(circles) > 200 {
		return Head{}, fail.OutOfRange("circles", fmt.Sprintf("%d of them", len(circles)), "up to 200")
	}
	for _, c := range circles {
		if c < 2 || c > 500 {
			return Head{}, fail.OutOfRange("circle", fmt.Sprintf("%d holes", c), "2 to 500 holes")
		}
	}
	sorted := slices.Clone(circles)
	slices.Sort(sorted)
	return Head{ratio, slices.Compact(sorted)}, nil
}

// Ratio returns the turns of the crank for one turn of the work.
func (h Head) Ratio() int { return h.ratio }

// Circles returns the circles of the plates, from the smallest.
func (h Head) Circles() []int { return slices.Clone(h.circles) }

// ErrNotDivisible marks a number of divisions that the plates do not give; see
// [Head.Nearest].
var ErrNotDivisible = errors.New("dividing: not to be had with these plates")

// Divide returns every move that spaces n divisions exactly:
//
//	turns = ratio / n
//
// on the largest circle first, whose holes lie finest. n from 1 to 10,000. When
// no circle serves, the error is [ErrNotDivisible]. See the Example.
func (h Head) Divide(n int) ([]Setting, error) {
	if err := h.check(n); err != nil {
		return nil, err
	}
	whole, rest := h.ratio/n, h.ratio%n
	if rest == 0 {
		return []Setting{{Turns: whole}}, nil
	}
	var all []Setting
	for _, c := range slices.Backward(h.circles) {
		if rest*c%n == 0 {
			all = append(all, Setting{whole, rest * c / n, c})
		}
	}
	if all == nil {
		return nil, fmt.Errorf("%w: %d divisions of a %d:1 head", ErrNotDivisible, n, h.ratio)
	}
	return all, nil
}

// Validate returns an error for the zero Head, which has no ratio.
func (h Head) Validate() error {
	if h.ratio == 0 {
		return fail.Argument("dividing head", "", "it has no ratio", "a head made by NewHead", units.ErrMissing)
	}
	return nil
}

func (h Head) check(n int) error {
	if err := h.Validate(); err != nil {
		return err
	}
	if n < 1 || n > 10_000 {
		return fail.OutOfRange("divisions", n, "1 to 10,000")
	}
	return nil
}

// Angle returns the move, of one space at least, nearest to an angle of the work
// and the error it leaves, zero when it is exact:
//
//	turns = angle * ratio / 360 degrees
//
// On a 40:1 head one turn is 9 degrees. Angles above 0, up to 360 degrees. See the
// Example.
func (h Head) Angle(a units.Angle) (Setting, units.Angle, error) {
	if err := h.Validate(); err != nil {
		return Setting{}, 0, err
	}
	if !(a > 0 && a <= 360*units.Degree) {
		return Setting{}, 0, fail.OutOfRange("angle", a, "above 0, up to 360 degrees")
	}
	turns := float64(a/(360*units.Degree)) * float64(h.ratio) // turns = angle ratio/360 deg
	s := h.nearest(turns)
	off := units.Angle(s.Crank()-turns) * 360 * units.Degree / units.Angle(h.ratio)
	if math.Abs(float64(off)) < 1e-12 {
		off = 0
	}
	return s, off, nil
}
