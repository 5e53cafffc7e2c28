package diagnosis

import "github.com/valvechest/valvechest/internal/names"

// A Kind is what a reading is of. It goes by the name that the engine file has for
// it; the zero Kind is none.
type Kind int

// What can be read. The events are crank angles from that end's own dead centre.
const (
	Admission      Kind = iota + 1 // the port cracks open to steam
	CutOff                         // it shuts to steam
	Release                        // it cracks open to exhaust
	Compression                    // it shuts to exhaust
	Lead                           // opening to steam at that end's dead centre; negative: still shut by so much
	Opening                        // greatest opening to steam
	ExhaustOpening                 // greatest opening to exhaust
	Travel                         // of the valve, in all
	ValveAt                        // how far the valve stands from the middle of the ports towards the crank
	OpensNext                      // what the port does as the crank moves on from that end's dead centre
)

var kindNames = names.Set{Package: "diagnosis", Type: "Kind", Field: "kind of reading", Texts: []string{
	Admission: "admission", CutOff: "cut_off", Release: "release", Compression: "compression",
	Lead: "lead", Opening: "opening", ExhaustOpening: "exhaust_opening",
	Travel: "travel", ValveAt: "valve_at", OpensNext: "opens_next",
}}

// Kinds returns all of them.
func Kinds() []Kind {
	var all []Kind
	for k := Admission; kindNames.Known(int(k)); k++ {
		all = append(all, k)
	}
	return all
}

// String returns the name: "cut_off".
func (k Kind) String() string { return kindNames.Text(int(k)) }

// ParseKind returns the kind of that name, in capitals or not; see [Kind.String].
// Another text is a [*units.ParseError] that lists them.
func ParseKind(name string) (Kind, error) {
	v, err := kindNames.Value(name)
	return Kind(v), err
}

// MarshalText implements [encoding.TextMarshaler]; no kind has blank text.
func (k Kind) MarshalText() ([]byte, error) { return kindNames.Marshal(int(k)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (k *Kind) UnmarshalText(text []byte) error { return names.Unmarshal(&kindNames, k, text) }

// isEvent reports whether it is a crank angle or a place of the piston.
func (k Kind) isEvent() bool { return k >= Admission && k <= Compression }

// isLength reports whether it is a length.
func (k Kind) isLength() bool { return k >= Lead && k <= ValveAt }

// ofTheValve reports whether it belongs to neither end.
func (k Kind) ofTheValve() bool { return k == Travel || k == ValveAt }

// A Side is what a port opens to; the zero Side is none.
type Side int

// The sides of a port to the cylinder.
const (
	Steam Side = iota + 1
	Exhaust
)

var sideNames = names.Set{Package: "diagnosis", Type: "Side", Field: "side to which a port opens",
	Texts: []string{Steam: "steam", Exhaust: "exhaust"}}

// Sides returns both.
func Sides() []Side { return []Side{Steam, Exhaust} }

// String returns "steam" or "exhaust".
func (s Side) String() string { return sideNames.Text(int(s)) }

// ParseSide returns the side of that name; see [Side.String]. Another text is a
// [*units.ParseError].
func ParseSide(name string) (Side, error) {
	v, err := sideNames.Value(name)
	return Side(v), err
}

// MarshalText implements [encoding.TextMarshaler]; no side has blank text.
func (s Side) MarshalText() ([]byte, error) { return sideNames.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Side) UnmarshalText(text []byte) error { return names.Unmarshal(&sideNames, s, text) }
