package material

import (
	"slices"

	"github.com/valvechest/valvechest/units/source"
)

// A Figure is one property of a material. Its zero value is a property that no
// source at hand gives.
type Figure[Q ~float64] struct {
	Value     Q // what calculations use, from the first source
	Low, High Q // the spread of all sources; all three are equal when one source gives one value
	refs      []source.Ref
}

// Given returns a figure that the caller knows: from the certificate of a bar,
// or a test. Its spread is zero.
func Given[Q ~float64](value Q, ref source.Ref) Figure[Q] {
	return Figure[Q]{Value: value, Low: value, High: value, refs: []source.Ref{ref}}
}

// Known reports whether there is a figure.
func (f Figure[Q]) Known() bool { return len(f.refs) > 0 }

// Ref returns where the value is from; the zero Ref when there is none.
func (f Figure[Q]) Ref() source.Ref {
	if len(f.refs) == 0 {
		return source.Ref{}
	}
	return f.refs[0]
}

// Refs returns the sources of the value and of the spread, that of the value
// first.
func (f Figure[Q]) Refs() []source.Ref { return slices.Clone(f.refs) }
