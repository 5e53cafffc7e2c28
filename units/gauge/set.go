package gauge

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Set holds sizes from the smallest to the largest. It does not change and
// may be shared; the zero value is an empty set.
type Set struct{ sizes []Size }

// NewSet returns the set of the given sizes. Sizes that are equal in name and
// diameter become one. A size without a name, or whose diameter is not above
// zero, is an [*units.ArgumentError]; so are two diameters under one name.
func NewSet(sizes ...Size) (Set, error) {
	own := slices.Clone(sizes)
	slices.SortStableFunc(own, compareSizes)
	own = slices.CompactFunc(own, func(a, b Size) bool { return compareSizes(a, b) == 0 })
	names := make(map[string]Size, len(own))
	for _, s := range own {
		switch other, double := names[s.Name]; {
		case s.Name == "" || strings.ContainsAny(s.Name, ",;\n"):
			return Set{}, fail.Argument("name of a size", fmt.Sprintf("%q", s.Name), "",
				"a name without comma, semicolon or line end", units.ErrMissing)
		case s.Diameter.Sign() <= 0 || s.Diameter.Cmp(largest) > 0:
			return Set{}, fail.OutOfRange("diameter of "+s.Name, s.Diameter, "above zero up to "+largest.String())
		case double:
			return Set{}, fail.Wrong("size "+s.Name, nil,
				fmt.Sprintf("given as %v and as %v", other.Diameter, s.Diameter), "one diameter to a name")
		}
		names[s.Name] = s
	}
	return Set{own}, nil
}

// Len returns the number of sizes.
func (s Set) Len() int { return len(s.sizes) }

// All yields the sizes from the smallest to the largest.
func (s Set) All() iter.Seq[Size] { return slices.Values(s.sizes) }

// With returns the set of the sizes in s and in all others. It fails as
// [NewSet] does, when one name stands for two diameters.
func (s Set) With(others ...Set) (Set, error) {
	all := slices.Clone(s.sizes)
	for _, other := range others {
		all = append(all, other.sizes...)
	}
	return NewSet(all...)
}

// Nearest returns the size nearest to d; of two equally near, the larger. A
// diameter that lies beyond the smallest or the largest size by more than half
// the step there is an error that names the ends of the set, as the answer
// would be a different size and not a near one.
func (s Set) Nearest(d units.Length) (Size, error) {
	if err := s.check(d); err != nil {
		return Size{}, err
	}
	i := s.search(d)
	last := len(s.sizes) - 1
	switch {
	case i == 0:
		first := s.sizes[0].Diameter
		if beyond := first.Sub(d); beyond.Cmp(s.stepFrom(0).Scale(0.5)) > 0 {
			return Size{}, s.outside(d, "below the set")
		}
		return s.sizes[0], nil
	case i > last:
		top := s.sizes[last].Diameter
		if beyond := d.Sub(top); beyond.Cmp(s.stepFrom(last).Scale(0.5)) > 0 {
			return Size{}, s.outside(d, "above the set")
		}
		return s.sizes[s.search(top)], nil
	}
	above, below := s.sizes[i], s.sizes[i-1]
	if above.Diameter.Sub(d).Cmp(d.Sub(below.Diameter)) <= 0 {
		return above, nil
	}
	return s.sizes[s.search(below.Diameter)], nil
}

// stepFrom returns the distance from the size at an end of the set to the next
// diameter, zero if there is none.
func (s Set) stepFrom(end int) units.Length {
	d := s.sizes[end].Diameter
	if end == 0 {
		for _, next := range s.sizes {
			if next.Diameter != d {
				return next.Diameter.Sub(d)
			}
		}
		return units.Length{}
	}
	if i := s.search(d); i > 0 {
		return d.Sub(s.sizes[i-1].Diameter)
	}
	return units.Length{}
}

// AtLeast returns the smallest size that is not below d. A diameter above the
// set, one that is not above zero and an empty set are an
// [*units.ArgumentError].
func (s Set) AtLeast(d units.Length) (Size, error) {
	if err := s.check(d); err != nil {
		return Size{}, err
	}
	i := s.search(d)
	if i == len(s.sizes) {
		return Size{}, s.outside(d, "above the set")
	}
	return s.sizes[i], nil
}

// AtMost returns the largest size that is not above d. A diameter below the
// set, one that is not above zero and an empty set are an
// [*units.ArgumentError].
func (s Set) AtMost(d units.Length) (Size, error) {
	if err := s.check(d); err != nil {
		return Size{}, err
	}
	i := s.search(d)
	if i < len(s.sizes) && s.sizes[i].Diameter == d {
		return s.sizes[i], nil
	}
	if i == 0 {
		return Size{}, s.outside(d, "below the set")
	}
	return s.sizes[s.search(s.sizes[i-1].Diameter)], nil
}

// Between returns the sizes from lo to hi, both ends included, from the
// smallest; there may be none. An upper end below the lower is an
// [*units.ArgumentError].
func (s Set) Between(lo, hi units.Length) ([]Size, error) {
	if lo.Cmp(hi) > 0 {
		return nil, fail.Wrong("lower end", lo, "above the upper end "+hi.String(), "at most the upper end")
	}
	from, to := s.search(lo), s.search(hi)
	for to < len(s.sizes) && s.sizes[to].Diameter == hi {
		to++
	}
	return slices.Clone(s.sizes[from:to]), nil
}

// Lookup returns the size that [Parse] reads from name, if the set has it under
// that name or, failing that, under another name for the same diameter. What
// Parse cannot read must be a name in the set, letter for letter. A size that
// is not in the set is an [*units.ArgumentError], and text that is no size a
// [*units.ParseError].
func (s Set) Lookup(name string) (Size, error) {
	if size, err := s.at(name); err == nil {
		return size, nil
	}
	want, err := Parse(name)
	if err != nil {
		return Size{}, err
	}
	if size, err := s.at(want.Name); err == nil {
		return size, nil
	}
	if i := s.search(want.Diameter); i < len(s.sizes) && s.sizes[i].Diameter == want.Diameter {
		return s.sizes[i], nil
	}
	return Size{}, fail.Argument("size", want.Name, "not in the set", s.extent(), units.ErrUnknown)
}

// at returns the size with exactly that name.
func (s Set) at(name string) (Size, error) {
	for _, size := range s.sizes {
		if size.Name == name {
			return size, nil
		}
	}
	return Size{}, units.ErrUnknown
}

// search returns the index of the first size not below d.
func (s Set) search(d units.Length) int {
	i, _ := slices.BinarySearchFunc(s.sizes, d, func(size Size, d units.Length) int { return size.Diameter.Cmp(d) })
	return i
}

func (s Set) check(d units.Length) error {
	switch {
	case len(s.sizes) == 0:
		return fail.Argument("set", nil, "empty", "a set with at least one size", units.ErrMissing)
	case d.Sign() <= 0:
		return fail.OutOfRange("diameter", d, "above zero")
	}
	return nil
}

func (s Set) outside(d units.Length, problem string) error {
	return fail.Wrong("diameter", d, problem, s.extent())
}

// extent describes the set for an error message.
func (s Set) extent() string {
	switch len(s.sizes) {
	case 0:
		return "nothing, the set is empty"
	case 1:
		return s.sizes[0].Name + " only"
	}
	return fmt.Sprintf("%d sizes from %s to %s", len(s.sizes), s.sizes[0].Name, s.sizes[len(s.sizes)-1].Name)
}

// String returns the names of the sizes, separated by commas. It reads back
// with [ParseSet] when every name is one that [Parse] reads.
func (s Set) String() string {
	names := make([]string, len(s.sizes))
	for i, size := range s.sizes {
		names[i] = size.Name
	}
	return strings.Join(names, ", ")
}

// MarshalText implements [encoding.TextMarshaler]. A set with a name that does
// not read back to its diameter is an error.
func (s Set) MarshalText() ([]byte, error) {
	for _, size := range s.sizes {
		if back, err := Parse(size.Name); err != nil || back.Diameter != size.Diameter {
			return nil, fail.Argument("size", size.Name,
				"the name does not read back as "+size.Diameter.String(), sizeAccepted, units.ErrUnknown)
		}
	}
	return []byte(s.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [ParseSet]; blank
// text is the empty set.
func (s *Set) UnmarshalText(text []byte) error {
	if len(strings.TrimSpace(string(text))) == 0 {
		*s = Set{}
		return nil
	}
	v, err := ParseSet(string(text))
	if err == nil {
		*s = v
	}
	return err
}

// GobEncode implements [gob.GobEncoder] with [Set.MarshalText].
func (s Set) GobEncode() ([]byte, error) { return s.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Set.UnmarshalText].
func (s *Set) GobDecode(text []byte) error { return s.UnmarshalText(text) }
