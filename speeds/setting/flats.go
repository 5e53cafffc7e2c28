package setting

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// RoundCorners, a Caution, is a bar that is too small for sharp corners.
const RoundCorners finding.Code = "round-corners"

// Flats is a square, a hexagon or another even number of flats cut on round bar.
type Flats struct {
	Depth    units.Length // of each flat, from the bar's surface
	Corners  units.Length // across sharp corners: the smallest bar that gives them
	Findings finding.List // RoundCorners where the bar is smaller
}

// FlatsOn returns how deep each of n flats is cut on a bar to measure so much across
// two that face each other.
//
//	depth   = (bar - across) / 2
//	corners = across / cos(180 degrees / n)
//
//	bar     diameter of the bar, above across
//	across  across the flats
//	n       number of flats, even, 4 to 100
//
// A bar smaller than across the corners leaves them round, which is a finding. Source:
// geometry. See the Example.
func FlatsOn(bar, across units.Length, n int) (Flats, error) {
	if err := fail.Above(fault.Named("diameter of the bar", bar), fault.Named("across the flats", across)); err != nil {
		return Flats{}, err
	}
	if n < 4 || n > 100 || n%2 != 0 {
		return Flats{}, fail.OutOfRange("number of flats", n, "an even number from 4 to 100")
	}
	if bar.Cmp(across) <= 0 {
		return Flats{}, fail.Wrong("across the flats", across, "not below the bar, "+bar.String(), "less than the bar")
	}
	f := Flats{
		Depth:   bar.Sub(across).Scale(0.5),
		Corners: across.Scale(1 / math.Cos(math.Pi/float64(n))), // across / cos(180 deg / n)
	}
	if bar.Cmp(f.Corners) < 0 {
		f.Findings = finding.List{{
			Code: RoundCorners, Severity: finding.Caution,
			Text: fmt.Sprintf("The corners stay round: across sharp corners it is %s, and the bar is %s.",
				f.Corners.Text(units.Millimetres, 2), bar.Text(units.Millimetres, 2)),
			Remedies: []string{fmt.Sprintf("Take bar of %s or more for sharp corners.", f.Corners.Text(units.Millimetres, 2))},
		}}
	}
	return f, nil
}
