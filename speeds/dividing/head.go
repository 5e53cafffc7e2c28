package dividing

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Head is a dividing head, or a rotary table with plates: a worm of some
// ratio and a set of plates with circles of holes.
type Head struct {
	ratio   int
	circles []int // sorted, without repeats
}

// NewHead returns the head whose crank makes ratio turns for one of the work,
// 1 to 360 (40 for most heads, 90 or 72 for rotary tables), with the given
// circles, 2 to 500 holes each. No circles is a head with a plain dial of one
// hole. Others are an [*units.ArgumentError].
func NewHead(ratio int, circles ...int) (Head, error) {
	if ratio < 1 || ratio > 360 {
		return Head{}, bad("ratio", strconv.Itoa(ratio), "", "1 to 360", units.ErrOutOfRange)
	}
	if len(circles) > 200 {
		return Head{}, bad("circles", fmt.Sprintf("%d of them", len(circles)), "", "up to 200", units.ErrOutOfRange)
	}
	for _, c := range circles {
		if c < 2 || c > 500 {
			return Head{}, bad("circle", fmt.Sprintf("%d holes", c), "", "2 to 500 holes", units.ErrOutOfRange)
		}
	}
	sorted := slices.Clone(circles)
	slices.Sort(sorted)
	return Head{ratio, slices.Compact(sorted)}, nil
}

// TwoSidedPlate returns the circles of the plate of US Army OD1644 (figure 11),
// with 24 to 43 holes on one side and 46 to 66 on the other.
func TwoSidedPlate() []int {
	return []int{24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43, 46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66}
}

// ThreePlates returns the circles of the usual set of three plates with six
// circles each, as a hobby society's article on compound indexing gives them.
func ThreePlates() []int {
	return []int{15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49}
}

// ParseCircles reads the circles of plates, such as "15 16 17 18 19 20 / 21 23
// 27 29 31 33": numbers parted by spaces, commas or slashes.
func ParseCircles(s string) ([]int, error) {
	if len(s) > 2000 {
		return nil, bad("circles", fmt.Sprintf("%d characters", len(s)), "", "up to 2000 characters", units.ErrSyntax)
	}
	var circles []int
	for field := range strings.FieldsFuncSeq(s, func(r rune) bool { return strings.ContainsRune(" ,;/\t\n", r) }) {
		c, err := strconv.Atoi(field)
		if err != nil || c < 2 || c > 500 {
			return nil, bad("circle", fmt.Sprintf("%.20q", field), "", `whole numbers of holes from 2 to 500, such as "15 16 17 / 21 23 27"`, units.ErrSyntax)
		}
		circles = append(circles, c)
	}
	if circles == nil {
		return nil, bad("circles", fmt.Sprintf("%.20q", s), "none given", `whole numbers of holes, such as "15 16 17 / 21 23 27"`, units.ErrMissing)
	}
	return circles, nil
}

// Ratio returns the turns of the crank for one turn of the work.
func (h Head) Ratio() int { return h.ratio }

// Circles returns the circles of the plates, from the smallest.
func (h Head) Circles() []int { return slices.Clone(h.circles) }

// A Setting is one move of the crank.
type Setting struct {
	Turns  int // whole turns
	Spaces int // and so many spaces
	Circle int // on the circle of so many holes; zero when whole turns are all
}

// Crank returns the move in turns.
func (s Setting) Crank() float64 {
	if s.Circle == 0 {
		return float64(s.Turns)
	}
	return float64(s.Turns) + float64(s.Spaces)/float64(s.Circle)
}

// String returns the move in words: "6 turns and 26 spaces on the 39 circle
// (sector over 27 holes)". A sector spans one hole more than there are spaces,
// which is the usual slip.
func (s Setting) String() string {
	turns := fmt.Sprintf("%d turns", s.Turns)
	if s.Turns == 1 {
		turns = "1 turn"
	}
	if s.Circle == 0 || s.Spaces == 0 {
		return turns
	}
	word := "spaces"
	if s.Spaces == 1 {
		word = "space"
	}
	spaces := fmt.Sprintf("%d %s on the %d circle (sector over %d holes)", s.Spaces, word, s.Circle, s.Spaces+1)
	if s.Turns == 0 {
		return spaces
	}
	return turns + " and " + spaces
}

// ErrNotDivisible marks a number of divisions that the plates do not give; see
// [Head.Nearest].
var ErrNotDivisible = errors.New("dividing: not to be had with these plates")

// Divide returns every move that spaces n divisions exactly:
//
//	turns = ratio / n
//
// on the largest circle first, whose holes lie finest. n from 1 to 10,000. When
// no circle serves, the error is [ErrNotDivisible].
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

func (h Head) check(n int) error {
	if h.ratio == 0 {
		return bad("dividing head", "", "it has no ratio", "a head made by NewHead", units.ErrMissing)
	}
	if n < 1 || n > 10_000 {
		return bad("divisions", strconv.Itoa(n), "", "1 to 10,000", units.ErrOutOfRange)
	}
	return nil
}

// A Near is what can be had in place of a number of divisions that cannot.
type Near struct {
	Setting Setting     // the move nearest to a division
	Step    units.Angle // error of each division
	Closing units.Angle // error gathered by n moves, as they come round: positive overruns the start
	Below   int         // the next smaller number that can be had, zero if there is none
	Above   int         // and the next larger
}

// Nearest returns the move, of one space at least, that comes nearest to n
// divisions, with the error that it gathers round the work, and the numbers of
// divisions on either side that can be had. For n that [Head.Divide] gives, the
// errors are zero. A closing error of a few minutes of arc, all in one gap, may
// do for a grip or a dial, never for a gear.
func (h Head) Nearest(n int) (Near, error) {
	if err := h.check(n); err != nil {
		return Near{}, err
	}
	if exact, err := h.Divide(n); err == nil {
		return Near{Setting: exact[0], Below: n, Above: n}, nil
	}
	near := Near{Setting: h.nearest(float64(h.ratio) / float64(n))}
	turn := 360 * units.Degree / units.Angle(h.ratio)
	step := units.Angle(near.Setting.Crank())*turn - 360*units.Degree/units.Angle(n)
	near.Step, near.Closing = step, step*units.Angle(n)
	for m := n - 1; m >= 1 && near.Below == 0; m-- {
		if h.divides(m) {
			near.Below = m
		}
	}
	most := h.ratio // one space on the largest circle is the least move
	if len(h.circles) > 0 {
		most *= h.circles[len(h.circles)-1]
	}
	for m := n + 1; m <= min(most, 10_000) && near.Above == 0; m++ {
		if h.divides(m) {
			near.Above = m
		}
	}
	return near, nil
}

// divides reports whether n divisions can be had.
func (h Head) divides(n int) bool {
	rest := h.ratio % n
	return rest == 0 || slices.ContainsFunc(h.circles, func(c int) bool { return rest*c%n == 0 })
}

// nearest returns the move closest to a number of turns, on the smallest circle
// when several are as close. To stay where it is is no move.
func (h Head) nearest(turns float64) Setting {
	best := Setting{Turns: max(1, int(math.Round(turns)))}
	off := math.Abs(best.Crank() - turns)
	for _, c := range h.circles {
		spaces := max(1, int(math.Round(turns*float64(c))))
		s := Setting{spaces / c, spaces % c, c}
		if d := math.Abs(s.Crank() - turns); d < off-1e-12 {
			best, off = s, d
		}
	}
	if best.Spaces == 0 {
		best.Circle = 0
	}
	return best
}

// Angle returns the move, of one space at least, nearest to an angle of the work
// and the error it leaves, zero when it is exact:
//
//	turns = angle ratio / 360 degrees
//
// On a 40:1 head one turn is 9 degrees. Angles above 0, up to 360 degrees; others
// are an [*units.ArgumentError].
func (h Head) Angle(a units.Angle) (Setting, units.Angle, error) {
	if err := h.check(1); err != nil {
		return Setting{}, 0, err
	}
	if !(a > 0 && a <= 360*units.Degree) {
		return Setting{}, 0, bad("angle", a.String(), "", "above 0, up to 360 degrees", units.ErrOutOfRange)
	}
	turns := float64(a/(360*units.Degree)) * float64(h.ratio)
	s := h.nearest(turns)
	off := units.Angle(s.Crank()-turns) * 360 * units.Degree / units.Angle(h.ratio)
	if math.Abs(float64(off)) < 1e-12 {
		off = 0
	}
	return s, off, nil
}

func bad(field, value, problem, accepted string, err error) error {
	return &units.ArgumentError{Package: "dividing", Field: field, Value: value, Problem: problem, Accepted: accepted, Err: err}
}
