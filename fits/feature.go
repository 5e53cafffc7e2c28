package fits

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// A Feature is the inside or the outside part of a fit.
type Feature int

// The features. The zero value is neither.
const (
	Hole Feature = iota + 1
	Shaft
)

var features = []string{"neither", "hole", "shaft"}

// String returns "hole", "shaft", or "neither" for the zero value.
func (f Feature) String() string { return name(features, int(f), "Feature") }

// ParseFeature returns the feature of that name.
func ParseFeature(s string) (Feature, error) {
	return parseName[Feature](features, 1, s, "feature")
}

// MarshalText implements [encoding.TextMarshaler].
func (f Feature) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Feature) UnmarshalText(text []byte) error { return unmarshal(f, ParseFeature, text) }

// name returns the name of an enumerated value.
func name(names []string, i int, typ string) string {
	if i < 0 || i >= len(names) {
		return fmt.Sprintf("%s(%d)", typ, i)
	}
	return names[i]
}

// parseName returns the enumerated value of a name, from the first one that may
// be asked for.
func parseName[T ~int](names []string, first int, s, field string) (T, error) {
	if i := slices.Index(names, s); i >= first {
		return T(i), nil
	}
	return 0, &units.ArgumentError{Package: "fits", Field: field, Value: quoted(s), Accepted: list(names[first:]), Err: units.ErrUnknown}
}
