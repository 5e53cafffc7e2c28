package indicator

import "github.com/valvechest/valvechest/internal/names"

// A Medium is what an engine runs on.
type Medium int

// The media. The zero value is none.
const (
	Air Medium = iota + 1
	Steam
)

var mediumNames = names.Set{Package: "indicator", Type: "Medium", Field: "medium",
	Texts: []string{"", "air", "steam"}, Also: []names.Name{{Text: "compressed air", Value: int(Air)}}}

// Media returns all of them.
func Media() []Medium { return []Medium{Air, Steam} }

// String returns "air" or "steam".
func (m Medium) String() string { return mediumNames.Text(int(m)) }

// ParseMedium returns the medium of that name, in capitals or not; see
// [Medium.String]. Another text is a [*units.ParseError] that lists them.
func ParseMedium(name string) (Medium, error) {
	v, err := mediumNames.Value(name)
	return Medium(v), err
}

// MarshalText implements [encoding.TextMarshaler]; no medium has blank text.
func (m Medium) MarshalText() ([]byte, error) { return mediumNames.Marshal(int(m)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (m *Medium) UnmarshalText(text []byte) error { return names.Unmarshal(&mediumNames, m, text) }
