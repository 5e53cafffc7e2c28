package template

import (
	"slices"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// Holes is one size of hole in a part and the punch to take for it.
type Holes struct {
	Diameter units.Length
	Count    int
	Punch    units.Length // zero: no punch of the set will do
}

// CommonPunches returns the hollow punches of a well-filled rack: 2 to 12 mm in
// steps of 0.5 mm, and on to 25 mm in steps of 1 mm. Common practice, no source. See
// the example.
func CommonPunches() []units.Length {
	var set []units.Length
	for half := 4; half < 24; half++ {
		set = append(set, units.MM(float64(half)/2))
	}
	for whole := 12; whole <= 25; whole++ {
		set = append(set, units.MM(float64(whole)))
	}
	return set
}

// InchPunches returns the same in inches: 1/8 to 1/2 in in steps of 1/32 in, and on to
// 1 in in steps of 1/16 in. Common practice, no source. See the example.
func InchPunches() []units.Length {
	var set []units.Length
	for n := 4; n < 16; n++ {
		set = append(set, units.InchFraction(n, 32))
	}
	for n := 8; n <= 16; n++ {
		set = append(set, units.InchFraction(n, 16))
	}
	return set
}

// largestExcess is how much larger than the hole a punch may be: the greater of
// half a millimetre and a tenth of the hole. Common practice.
func largestExcess(hole units.Length) units.Length {
	tenth := hole.Scale(0.1)
	if half := units.MM(0.5); tenth.Cmp(half) < 0 {
		return half
	}
	return tenth
}

// punchFor returns the smallest punch of the set that is not smaller than the
// hole, or zero when that is too large for it.
func punchFor(hole units.Length, set []units.Length) units.Length {
	var best units.Length
	for _, p := range set {
		if p.Cmp(hole) >= 0 && (best.IsZero() || p.Cmp(best) < 0) {
			best = p
		}
	}
	if best.Sub(hole).Cmp(largestExcess(hole)) > 0 {
		return units.Length{}
	}
	return best
}

// bySize returns the sizes of hole in a pattern, largest first.
func bySize(p gasket.Pattern, set []units.Length) []Holes {
	count := map[units.Length]int{}
	for _, h := range p {
		count[h.Diameter]++
	}
	var list []Holes
	for diameter, n := range count {
		list = append(list, Holes{Diameter: diameter, Count: n, Punch: punchFor(diameter, set)})
	}
	slices.SortFunc(list, func(a, b Holes) int { return b.Diameter.Cmp(a.Diameter) })
	return list
}
