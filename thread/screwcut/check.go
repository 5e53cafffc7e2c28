package screwcut

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// The findings of [Lathe.Check].
const (
	NoTrain      finding.Code = "no-train"       // nothing comes near the lead
	NoExactTrain finding.Code = "no-exact-train" // the lead comes out a little wrong, and the half nuts stay closed
)

// Check says what is wanting in the trains that [Lathe.Trains] found: that none
// is exact, that none comes near, or, as [Train.Check] has it, that the best of
// the exact ones may foul a stud; and which wheels would put it right, as
// [Lathe.WheelsToBuy] has them. See the Example.
func (l Lathe) Check(t Trains) (finding.List, error) {
	var f finding.Finding
	over := units.MM(100)
	switch {
	case len(t.Exact) > 0:
		fouls := t.Exact[0].Check()
		if len(fouls) == 0 {
			return nil, nil
		}
		f = fouls[0]
	case len(t.Closest) == 0:
		f = finding.Finding{
			Code: NoTrain, Severity: finding.Fails,
			Text: fmt.Sprintf("No train of these wheels comes within %g %% of a lead of %v.", 100*closestWithin, t.Want),
		}
	default:
		off, err := t.Closest[0].ErrorOver(over)
		if err != nil {
			return nil, err
		}
		length := "long"
		if off.Sign() < 0 {
			length = "short"
		}
		f = finding.Finding{
			Code: NoExactTrain, Severity: finding.Caution,
			Text: fmt.Sprintf("No train of these wheels is exact: the lead of the closest comes out %.1f um too %s in %v, "+
				"and the half nuts stay closed.", math.Abs(off.Micron()), length, over),
		}
	}
	buy, err := l.WheelsToBuy(t.Want)
	if err != nil {
		return nil, err
	}
	if len(buy) > 0 {
		f.Remedies = append(f.Remedies, fmt.Sprintf("One more wheel makes an exact train: %s teeth.",
			strings.ReplaceAll(strings.Trim(fmt.Sprint(buy), "[]"), " ", " or ")))
	}
	return finding.List{f}, nil
}
