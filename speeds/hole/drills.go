package hole

import (
	"errors"
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
)

// NoDrill, a Note, is a set of drills without one that suits.
const NoDrill finding.Code = "no-drill"

// Drills are the drills of a set that suit a hole.
type Drills struct {
	Sizes    []gauge.Size // from the smallest; the nearest one where none suits and one is near
	Findings finding.List // NoDrill where none suits
}

// Drills returns the drills of a set that are inside the rule. A set without any
// drill at all is an error. See the Example of [ReamingFor].
func (h Reaming) Drills(set gauge.Set) (Drills, error) {
	if set.Len() == 0 {
		return Drills{}, emptySet()
	}
	inside, err := set.Between(h.Min, h.Max)
	if err != nil {
		return Drills{}, err
	}
	d := Drills{Sizes: inside}
	if len(inside) == 0 {
		d.Findings = finding.List{{
			Code: NoDrill,
			Text: fmt.Sprintf("No drill of the set lies from %s to %s, to go before the reamer.",
				h.Min.Text(units.Millimetres, 2), h.Max.Text(units.Millimetres, 2)),
			Remedies: []string{"Bore to size, or drill under and open out."},
			Refs:     h.Refs,
		}}
	}
	return d, nil
}

// DrillsFor returns the drill of a set for a hole of a diameter: the very one,
// or the nearest with a finding. A set without any drill and a diameter that is
// not above zero are errors. See the Example.
func DrillsFor(diameter units.Length, set gauge.Set) (Drills, error) {
	if diameter.Sign() <= 0 {
		return Drills{}, fail.OutOfRange("diameter", diameter, "above zero")
	}
	if set.Len() == 0 {
		return Drills{}, emptySet()
	}
	nearest, err := set.Nearest(diameter)
	switch {
	case errors.Is(err, units.ErrOutOfRange): // smaller or larger than all of them
		sizes := slices.Collect(set.All())
		return Drills{Findings: finding.List{{
			Code:     NoDrill,
			Text:     fmt.Sprintf("There is no drill of %v in the set, which goes from %v to %v.", diameter, sizes[0], sizes[len(sizes)-1]),
			Remedies: []string{"Buy or borrow one, or bore a hole that is too large for them."},
		}}}, nil
	case err != nil:
		return Drills{}, err
	}
	d := Drills{Sizes: []gauge.Size{nearest}}
	if off := nearest.Diameter.Sub(diameter); !off.IsZero() {
		sign := ""
		if off.Sign() > 0 {
			sign = "+"
		}
		d.Findings = finding.List{{
			Code:     NoDrill,
			Text:     fmt.Sprintf("There is no drill of %v in the set.", diameter),
			Remedies: []string{fmt.Sprintf("The drill of %v is nearest, %s%s on the diameter.", nearest, sign, off.Text(units.Millimetres, 3))},
		}}
	}
	return d, nil
}

func emptySet() error {
	return fail.Argument("drills", "", "the set is empty", `a set such as "1-13x0.1 mm"`, units.ErrMissing)
}
