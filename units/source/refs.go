package source

import (
	"encoding/json"
	"iter"
	"slices"
	"strings"
)

// Refs are the sources of one result, each once, that of the value itself first.
// They do not change once made, so that results share them freely. The zero value
// is a result that rests on arithmetic alone. In JSON they are an array.
type Refs struct {
	few  [few]*Ref // filled from the front
	more []*Ref    // what does not fit there
}

const few = 3

// Of returns references as the sources of a result. A zero Ref is left out.
func Of(refs ...Ref) Refs {
	var all Refs
	for _, ref := range refs {
		all.add(&ref)
	}
	return all
}

// Shared is [Of] for references that live as long as the program and never
// change, such as those of a table's rows; for up to three it allocates nothing.
func Shared(refs ...*Ref) Refs {
	var all Refs
	for _, ref := range refs {
		all.add(ref)
	}
	return all
}

// With returns the sources of r and, behind them, those of the others.
func (r Refs) With(others ...Refs) Refs {
	for _, other := range others {
		for _, ref := range other.few {
			if ref != nil {
				r.add(ref)
			}
		}
		for _, ref := range other.more {
			r.add(ref)
		}
	}
	return r
}

// And is [Refs.With] for references.
func (r Refs) And(refs ...Ref) Refs { return r.With(Of(refs...)) }

func (r *Refs) add(ref *Ref) {
	if *ref == (Ref{}) {
		return
	}
	for i, have := range r.few {
		switch {
		case have == nil:
			r.few[i] = ref
			return
		case have == ref || *have == *ref:
			return
		}
	}
	for _, have := range r.more {
		if *have == *ref {
			return
		}
	}
	r.more = append(slices.Clip(r.more), ref)
}

// All returns the references in order.
func (r Refs) All() iter.Seq[Ref] {
	return func(yield func(Ref) bool) {
		for _, ref := range r.few {
			if ref == nil || !yield(*ref) {
				return
			}
		}
		for _, ref := range r.more {
			if !yield(*ref) {
				return
			}
		}
	}
}

// Len returns how many there are.
func (r Refs) Len() int {
	n := len(r.more)
	for _, ref := range r.few {
		if ref != nil {
			n++
		}
	}
	return n
}

// First returns the source of the value itself; the zero Ref where there is none.
func (r Refs) First() Ref {
	if r.few[0] == nil {
		return Ref{}
	}
	return *r.few[0]
}

// Recalled reports whether the result rests on a figure that nobody has read in
// a reviewed work; see [Ref.Recalled].
func (r Refs) Recalled() bool {
	for ref := range r.All() {
		if ref.Recalled() {
			return true
		}
	}
	return false
}

// IsZero reports whether there are none.
func (r Refs) IsZero() bool { return r.few[0] == nil }

// Equal reports whether both are the same references in the same order.
func (r Refs) Equal(other Refs) bool {
	return slices.Equal(slices.Collect(r.All()), slices.Collect(other.All()))
}

// String returns the references in one line, "no source" where there are none.
func (r Refs) String() string {
	if r.IsZero() {
		return Ref{}.String()
	}
	var texts []string
	for ref := range r.All() {
		texts = append(texts, ref.String())
	}
	return strings.Join(texts, "; ")
}

// MarshalJSON implements [json.Marshaler].
func (r Refs) MarshalJSON() ([]byte, error) {
	list := slices.AppendSeq([]Ref{}, r.All())
	return json.Marshal(list)
}

// UnmarshalJSON implements [json.Unmarshaler].
func (r *Refs) UnmarshalJSON(data []byte) error {
	var list []Ref
	err := json.Unmarshal(data, &list)
	if err == nil {
		*r = Of(list...)
	}
	return err
}
