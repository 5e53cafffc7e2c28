package engine

import (
	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/names"
)

// A Part is a part of the valve gear that may be made already. The zero value is
// none.
type Part int

// The parts.
const (
	PortFace Part = iota + 1
	SlideValve
	Sheave
	Rods
)

var partNames = names.Set{Package: "engine", Type: "Part", Field: "part",
	Texts: []string{"", "ports", "valve", "eccentric", "rods"}, Also: []names.Name{{Text: "sheave", Value: int(Sheave)}}}

// String returns "ports", "valve", "eccentric" or "rods".
func (p Part) String() string { return partNames.Text(int(p)) }

// MarshalText implements [encoding.TextMarshaler].
func (p Part) MarshalText() ([]byte, error) { return partNames.Marshal(int(p)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (p *Part) UnmarshalText(text []byte) error { return names.Unmarshal(&partNames, p, text) }

// PartsMade returns which parts of the gear are made; all of them, where the file
// does not say.
func (e *Engine) PartsMade() (made eccentric.Made) {
	parts := e.Made
	if !e.Has("made") {
		parts = []Part{PortFace, SlideValve, Sheave, Rods}
	}
	for _, p := range parts {
		switch p {
		case PortFace:
			made.Ports = true
		case SlideValve:
			made.Valve = true
		case Sheave:
			made.Eccentric = true
		case Rods:
			made.Rods = true
		}
	}
	return made
}
