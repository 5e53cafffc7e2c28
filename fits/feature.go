package fits

import "github.com/valvechest/valvechest/internal/names"

// A Feature is the inside or the outside part of a fit.
type Feature int

// The features. The zero value is neither.
const (
	Hole Feature = iota + 1
	Shaft
)

var features = names.Set{
	Package: "fits", Type: "Feature", Field: "feature",
	Texts: []string{"", "hole", "shaft"},
}

// Features returns both.
func Features() []Feature { return []Feature{Hole, Shaft} }

// String returns "hole" or "shaft".
func (f Feature) String() string { return features.Text(int(f)) }

// ParseFeature returns the feature of that name.
func ParseFeature(s string) (Feature, error) {
	v, err := features.Value(s)
	return Feature(v), err
}

// MarshalText implements [encoding.TextMarshaler]; the zero value has blank text.
func (f Feature) MarshalText() ([]byte, error) {
	if f == 0 {
		return nil, nil
	}
	return features.Marshal(int(f))
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Feature) UnmarshalText(text []byte) error { return unmarshal(f, ParseFeature, text) }
