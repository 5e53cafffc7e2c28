package dividing

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Near is what can be had in place of a number of divisions that cannot.
type Near struct {
	Setting Setting     // the move nearest to a division
	Step    units.Angle // error of each division
	Closing units.Angle // error gathered by n moves, as they come round: positive overruns the start
	Below   int         // the next smaller number that can be had; one at the least
	Above   int         // and the next larger, zero if there is none

	Findings finding.List // NotDivisible; none for a number that can be had
}

// NotDivisible, which fails, is a number of divisions that the plates do not give.
const NotDivisible finding.Code = "not-divisible"

// Nearest returns the move, of one space at least, that comes nearest to n
// divisions, with the error that it gathers round the work, and the numbers of
// divisions on either side that can be had. For n that [Head.Divide] gives, the
// errors are zero. A closing error of a few minutes of arc, all in one gap, may
// do for a grip or a dial, never for a gear. See the Example.
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
	for near.Below = n - 1; !h.divides(near.Below); near.Below-- { // down to one, which every head gives
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
	near.Findings = finding.List{{
		Code: NotDivisible, Severity: finding.Fails,
		Text: fmt.Sprintf("%d divisions cannot be had with these plates: at the nearest move each is out by %s arc minutes, "+
			"and %d of them miss the start by %s, all of it in the last gap: never for a gear.",
			n, fault.Signed(near.Step.In(units.ArcMinute), 2), n, fault.Signed(near.Closing.In(units.ArcMinute), 1)),
		Remedies: []string{
			near.neighbours(),
			"Take another plate, change gears (differential indexing), or a rotary table by angle.",
		},
		Refs: source.Of(source.Practice()),
	}}
	return near, nil
}

func (near Near) neighbours() string {
	if near.Above == 0 {
		return fmt.Sprintf("Take %d, which can be had.", near.Below)
	}
	return fmt.Sprintf("Take %d or %d, which can be had.", near.Below, near.Above)
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
