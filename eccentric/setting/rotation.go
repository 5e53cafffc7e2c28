package setting

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
)

const fail = fault.Package("setting")

// A Rotation is a way round, as it is seen from one side of the engine. The zero
// value is none.
type Rotation int

// The ways round.
const (
	Clockwise Rotation = iota + 1
	Anticlockwise
)

var rotationNames = names.Set{Package: "setting", Type: "Rotation", Field: "rotation",
	Texts: []string{"", "clockwise", "anticlockwise"}, Also: []names.Name{{Text: "counterclockwise", Value: int(Anticlockwise)}}}

// Rotations returns both.
func Rotations() []Rotation { return []Rotation{Clockwise, Anticlockwise} }

// String returns "clockwise" or "anticlockwise".
func (r Rotation) String() string { return rotationNames.Text(int(r)) }

// ParseRotation returns the way round of that name, in capitals or not. Another text
// is a [*units.ParseError] that lists them.
func ParseRotation(name string) (Rotation, error) {
	v, err := rotationNames.Value(name)
	return Rotation(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (r Rotation) MarshalText() ([]byte, error) { return rotationNames.Marshal(int(r)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (r *Rotation) UnmarshalText(text []byte) error { return names.Unmarshal(&rotationNames, r, text) }

// Opposite returns the other way round, which is the same one seen from the other
// side of the engine; of none it is none.
func (r Rotation) Opposite() Rotation {
	switch r {
	case Clockwise:
		return Anticlockwise
	case Anticlockwise:
		return Clockwise
	}
	return r
}
