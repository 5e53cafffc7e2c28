package seal

import (
	"slices"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// RingsOnPiston returns the rings that sit on a piston in a bore with a stretch
// of up to 5 percent, or on size at their lower limit, the one with the largest
// section first. Where they go round less than 1/2 in and a section has no such
// ring, its ring of up to 10 percent is returned: the sizes lie far apart there.
// None is an error. See the example.
func RingsOnPiston(bore units.Length, duty Duty) ([]Ring, error) {
	return choose(bore, "bore", duty, func(r Ring) (Seat, error) { return r.OnPiston(bore, duty) })
}

// RingsInGland returns the rings that fit a rod in the same way. Errors are
// those of [RingsOnPiston].
func RingsInGland(rod units.Length, duty Duty) ([]Ring, error) {
	return choose(rod, "rod", duty, func(r Ring) (Seat, error) { return r.InGland(rod, duty) })
}

func choose(diameter units.Length, what string, duty Duty, seat func(Ring) (Seat, error)) ([]Ring, error) {
	if err := fail.Above(fault.Named(what, diameter)); err != nil {
		return nil, err
	}
	if err := radial(duty); err != nil {
		return nil, err
	}
	var fit, tight []Ring
	for _, r := range rings.Rows() {
		s, err := seat(r)
		switch {
		case err != nil || s.Stretch < r.leastStretch():
		case s.Stretch <= mostStretch:
			fit = append(fit, r)
		case s.Stretch <= smallStretch && small(r.Inside.Scale(1+s.Stretch)):
			tight = append(tight, r)
		}
	}
	for i, r := range tight {
		same := func(other Ring) bool { return other.Section == r.Section }
		// in a section the sizes rise: a later ring is stretched less
		if !slices.ContainsFunc(fit, same) && !slices.ContainsFunc(tight[i+1:], same) {
			fit = append(fit, r)
		}
	}
	if len(fit) == 0 {
		return nil, fail.Wrong(what, diameter, "no ring of the table fits it with a stretch of up to 5 percent, or 10 below 1/2 in",
			"another diameter, or a ring that is not in the table")
	}
	slices.SortStableFunc(fit, func(a, b Ring) int { return b.Section.Cmp(a.Section) })
	return fit, nil
}
