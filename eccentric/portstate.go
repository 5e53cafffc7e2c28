package eccentric

import "github.com/valvechest/valvechest/internal/names"

// A PortState says whether a port both opens and closes in a turn.
type PortState int

// What a port may do in a turn, with the values that it has in the kernel.
const (
	OpensAndCloses PortState = iota
	NeverOpens
	NeverCloses
)

var portStateNames = names.Set{Package: "eccentric", Type: "PortState", Field: "state of a port", Texts: []string{
	OpensAndCloses: "opens and closes",
	NeverOpens:     "never opens",
	NeverCloses:    "never closes",
}}

// PortStates returns all of them.
func PortStates() []PortState { return []PortState{OpensAndCloses, NeverOpens, NeverCloses} }

// String returns "opens and closes", "never opens" or "never closes".
func (s PortState) String() string { return portStateNames.Text(int(s)) }

// ParsePortState returns the state of that name, in capitals or not; see
// [PortState.String]. Another text is a [*units.ParseError] that lists them.
func ParsePortState(name string) (PortState, error) {
	v, err := portStateNames.Value(name)
	return PortState(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (s PortState) MarshalText() ([]byte, error) { return portStateNames.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *PortState) UnmarshalText(text []byte) error {
	return names.Unmarshal(&portStateNames, s, text)
}
