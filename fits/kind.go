package fits

import "github.com/valvechest/valvechest/internal/names"

// A Kind says what a fit does whichever way the parts come out.
type Kind int

// The kinds of fit, ISO 286-1. The zero value is none.
const (
	Clearance    Kind = iota + 1 // never less than none
	Transition                   // clearance or interference
	Interference                 // never clearance
)

var kinds = names.Set{
	Package: "fits", Type: "Kind", Field: "kind of fit",
	Texts: []string{"", "clearance", "transition", "interference"},
}

// Kinds returns all of them, from loose to tight.
func Kinds() []Kind { return []Kind{Clearance, Transition, Interference} }

// String returns "clearance", "transition" or "interference".
func (k Kind) String() string { return kinds.Text(int(k)) }

// ParseKind returns the kind of that name.
func ParseKind(s string) (Kind, error) {
	v, err := kinds.Value(s)
	return Kind(v), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text.
func (k Kind) MarshalText() ([]byte, error) {
	if k == 0 {
		return nil, nil
	}
	return kinds.Marshal(int(k))
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (k *Kind) UnmarshalText(text []byte) error { return unmarshal(k, ParseKind, text) }
