package material

import "github.com/valvechest/valvechest/units/source"

// A Figure is one property of a material. Its zero value is a property that no
// source at hand gives.
type Figure[Q ~float64] struct {
	Value    Q // what calculations use, from the first source
	Min, Max Q // the spread of all sources; all three are equal when one source gives one value
	Refs     source.Refs
}

// Given returns a figure that the caller knows: from the certificate of a bar,
// or a test. Its spread is zero.
func Given[Q ~float64](value Q, ref source.Ref) Figure[Q] {
	return Figure[Q]{Value: value, Min: value, Max: value, Refs: source.Of(ref)}
}

// Known reports whether there is a figure.
func (f Figure[Q]) Known() bool { return !f.Refs.IsZero() }
