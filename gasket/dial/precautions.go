package dial

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// The codes of the precautions of [Precautions].
const (
	ClampThinWork finding.Code = "clamp-thin-work"
	StopToMove    finding.Code = "stop-to-move"
)

// Precautions returns what to mind when holes are drilled under a spindle: common
// practice.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: ClampThinWork, Ref: source.Practice(),
		Text: "Clamp the work down on something that the drill may run into, thin covers above all: what is held in the" +
			" hand is snatched up as the drill breaks through, and spins. Wear eye protection; no gloves, sleeves or hair" +
			" near the spindle.",
	}, {
		Code: StopToMove, Ref: source.Practice(),
		Text: "Draw the drill right out before a slide or a table is moved, and stop the spindle to measure, to clamp and" +
			" to clear the swarf, with a brush.",
	}}
}
