package spread

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Hold is what a dimension does by itself that wanders as far as its tolerance
// lets it, the others as drawn.
type Hold struct {
	Tolerance Tolerance

	// The event whose piston is furthest from where the drawing has it, at which end
	// and by how much, as a share of the stroke; no event where none moves.
	Event  Event
	End    eccentric.End
	Stroke float64
	Crank  units.Angle // by which that event comes earlier or later
	Missed bool        // that event may not happen at all; the other two are then zero

	Lead units.Length // by which the lead of one end changes at most

	Text string // all this in a sentence
}

// Hold returns the dimensions with a tolerance, first the one whose tolerance moves
// an event furthest, as a share of the stroke, and last those that move nothing. It
// is the order in which to hold sizes, and to spend care. What each does is the
// worst case of its tolerance alone, as of [Study.Worst]. It fails only where
// [Study.Validate] does. See the Example.
func (s Study) Hold() ([]Hold, error) {
	b, err := s.box()
	if err != nil {
		return nil, err
	}
	all := make([]Hold, len(b.varied))
	for i, v := range b.varied {
		all[i] = b.hold(v)
	}
	slices.SortStableFunc(all, func(x, y Hold) int {
		missed := func(h Hold) int {
			if h.Missed {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(missed(x), missed(y)), -cmp.Compare(x.Stroke, y.Stroke), -x.Lead.Cmp(y.Lead))
	})
	return all, nil
}

// hold returns what one size does, the others as drawn.
func (b *box) hold(v varied) Hold {
	alone := box{drawn: b.drawn, varied: []varied{v}}
	worst := alone.worst()
	h := Hold{Tolerance: Tolerance{v.dimension, v.dimension.deviation(v.lower - v.drawn).tidied(),
		v.dimension.deviation(v.upper - v.drawn).tidied()}}
	for i, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
		limits := [...]*WorstEnd{&worst.Head, &worst.Crank}[i]
		drawn := eventsOf(&b.drawn, end)
		for _, e := range Events() {
			is, l := e.of(drawn), limits.at(e)
			switch {
			case h.Missed || !is.Occurs:
			case !l.Always:
				h.Event, h.End, h.Stroke, h.Crank, h.Missed = e, eccentric.End(end), 0, 0, true
			default:
				stroke := max(l.MaxStroke.Stroke-is.Stroke, is.Stroke-l.MinStroke.Stroke)
				if stroke > h.Stroke+1e-12 { // or only rounded
					h.Event, h.End, h.Stroke = e, eccentric.End(end), stroke
					at := is.Crank + turnsLess(is.Crank, float64(l.MinCrank.Crank))
					h.Crank = units.Angle(max(float64(l.MaxCrank.Crank)-at, at-float64(l.MinCrank.Crank)))
				}
			}
		}
		for _, limit := range [...]units.Length{limits.Lead.Min.Length, limits.Lead.Max.Length} {
			if by := limit.Sub(toLength(drawn.Lead)).Abs(); by.Cmp(h.Lead) > 0 {
				h.Lead = by
			}
		}
	}
	h.Text = h.text()
	return h
}

// turnsLess returns the whole turns by which one angle is counted short of another.
func turnsLess(angle, other float64) float64 {
	return 2 * math.Pi * math.Round((other-angle)/(2*math.Pi))
}

// text says what the dimension does.
func (h *Hold) text() string {
	var says []string
	switch {
	case h.Missed:
		says = append(says, fmt.Sprintf("%s at the %s end may not happen at all", h.Event, h.End))
	case h.Event != 0:
		text := fmt.Sprintf("%s at the %s end by %s %% of the stroke", h.Event, h.End, fault.Decimal(100*h.Stroke, 1))
		if 100*h.Stroke < 0.1 {
			text = fmt.Sprintf("%s at the %s end by less than 0.1 %% of the stroke", h.Event, h.End)
		}
		says = append(says, text)
	}
	if h.Lead.Cmp(units.Micron(1)) >= 0 {
		says = append(says, fmt.Sprintf("the lead by %s mm (%s thou)",
			h.Lead.Decimal(units.Millimetres, 3), h.Lead.Decimal(units.Thousandths, 1)))
	}
	if len(says) == 0 {
		return "nothing that the valve does"
	}
	return strings.Join(says, ", ")
}
