package eccentric

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Part is a part of the engine on which the valve gear depends.
type Part int

// The parts. The first four may be made or not, see [Made].
const (
	PartPorts     Part = iota + 1 // the port face
	PartValve                     // the valve and the nut that holds it on its rod
	PartEccentric                 // the sheave
	PartRods                      // connecting rod and eccentric rod
	PartChest                     // the steam chest
	PartBearings                  // the main bearings, with what they stand on
	PartCylinder                  // the cylinder, with what it stands on
)

var partNames = names.Set{Package: "eccentric", Type: "Part", Field: "part",
	Texts: []string{"", "ports", "valve", "eccentric", "rods", "chest", "bearings", "cylinder"},
	Also:  []names.Name{{Text: "sheave", Value: int(PartEccentric)}}}

// Parts returns all of them.
func Parts() []Part {
	return []Part{PartPorts, PartValve, PartEccentric, PartRods, PartChest, PartBearings, PartCylinder}
}

// String returns "ports", "valve", "eccentric", "rods", "chest", "bearings" or "cylinder".
func (p Part) String() string { return partNames.Text(int(p)) }

// ParsePart returns the part of that name, in capitals or not; see [Part.String].
// Another text is a [*units.ParseError] that lists them.
func ParsePart(name string) (Part, error) {
	v, err := partNames.Value(name)
	return Part(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (p Part) MarshalText() ([]byte, error) { return partNames.Marshal(int(p)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (p *Part) UnmarshalText(text []byte) error { return names.Unmarshal(&partNames, p, text) }

// Made says which parts are made already. What is made is altered as a workshop
// can; what is not may still be drawn to any size. The zero value is a gear on
// paper. Chest, bearings and cylinder always count as made.
type Made struct{ Ports, Valve, Eccentric, Rods bool }

// With returns the same with one more part made. It fails for a part that is none
// of the four.
func (m Made) With(p Part) (Made, error) {
	switch p {
	case PartPorts:
		m.Ports = true
	case PartValve:
		m.Valve = true
	case PartEccentric:
		m.Eccentric = true
	case PartRods:
		m.Rods = true
	default:
		return m, fail.Argument("part that is made", p, "not one of those that may be", "ports, valve, eccentric, rods",
			units.ErrOutOfRange)
	}
	return m, nil
}
