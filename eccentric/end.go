package eccentric

import "github.com/valvechest/valvechest/internal/names"

// An End is an end of the cylinder.
type End int

// The ends of the cylinder, with the values that they have in the kernel.
const (
	BothEnds End = iota
	HeadEnd      // away from the crank
	CrankEnd
)

var endNames = names.Set{Package: "eccentric", Type: "End", Field: "end of the cylinder",
	Texts: []string{"both", "head", "crank"}}

// Ends returns all of them: both, the head end and the crank end.
func Ends() []End { return []End{BothEnds, HeadEnd, CrankEnd} }

// String returns "both", "head" or "crank".
func (e End) String() string { return endNames.Text(int(e)) }

// ParseEnd returns the end of that name, in capitals or not; see [End.String].
// Another text is a [*units.ParseError] that lists them.
func ParseEnd(name string) (End, error) {
	v, err := endNames.Value(name)
	return End(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (e End) MarshalText() ([]byte, error) { return endNames.Marshal(int(e)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (e *End) UnmarshalText(text []byte) error { return names.Unmarshal(&endNames, e, text) }
