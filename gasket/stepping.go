package gasket

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A Stepping is how evenly spaced holes are stepped off round a circle with dividers.
type Stepping struct {
	Number   int
	Diameter units.Length
	Chords   []units.Length // from a hole to the next, to the next but one, and on to the one furthest from it
}

// StepOff returns the chords of n holes evenly spaced on a circle of a diameter.
//
//	chord = d * sin(k * 180°/n),  k = 1 to n/2
//
// It takes 2 to 1000 holes and a diameter above zero, up to 1 km. Source: geometry;
// the first of them is the table of chords of handbooks. See the example.
func StepOff(n int, diameter units.Length) (Stepping, error) {
	const most = 1000
	if n < 2 || n > most {
		return Stepping{}, fail.OutOfRange("number of holes", n, "2 to 1000")
	}
	if err := fail.Above(fault.Named("diameter of the circle", diameter)); err != nil {
		return Stepping{}, err
	}
	s := Stepping{Number: n, Diameter: diameter}
	for k := 1; k <= n/2; k++ {
		s.Chords = append(s.Chords, diameter.Scale(math.Sin(math.Pi*float64(k)/float64(n))))
	}
	return s, nil
}

// Opening returns what to set the dividers to: the chord from a hole to the next; zero
// for the zero Stepping.
func (s Stepping) Opening() units.Length {
	if len(s.Chords) == 0 {
		return units.Length{}
	}
	return s.Chords[0]
}

// HolesMeet is the code of the finding that the holes of a circle run into each other.
const HolesMeet finding.Code = "holes-meet"

// Check returns what is to be said of holes of a diameter on the circle: that they run
// into each other, which fails.
func (s Stepping) Check(hole units.Length) finding.List {
	if hole.Cmp(s.Opening()) < 0 {
		return nil
	}
	return finding.List{{
		Code: HolesMeet, Severity: finding.Fails,
		Text:     fmt.Sprintf("Holes of %v run into each other, as the next is %s away.", hole, s.Opening().Text(units.Millimetres, 3)),
		Remedies: []string{"Take fewer or smaller holes, or a larger circle."},
	}}
}

// Reopened returns what to set dividers to that did not close: all steps but the last
// were taken with the opening, and the gap is what was left for the last.
//
//	next opening = opening + (gap - opening) / n
//
// Each of the n - 1 steps takes its share of the difference, and the last one too. It
// is so to the first order, and closes as well as dividers can be set when it is done
// twice. Both lengths are above zero, the gap below the diameter. Source: geometry. See
// the example of [StepOff].
func (s Stepping) Reopened(opening, gap units.Length) (units.Length, error) {
	if s.Number < 2 {
		return units.Length{}, fail.OutOfRange("number of holes", s.Number, "2 to 1000")
	}
	if err := fail.Above(fault.Named("opening of the dividers", opening), fault.Named("gap that is left", gap)); err != nil {
		return units.Length{}, err
	}
	if gap.Cmp(s.Diameter) >= 0 || opening.Cmp(s.Diameter) >= 0 {
		return units.Length{}, fail.OutOfRange("opening and gap", opening.String()+" and "+gap.String(), "below the diameter, "+s.Diameter.String())
	}
	return opening.Add(gap.Sub(opening).Scale(1 / float64(s.Number))), nil
}
