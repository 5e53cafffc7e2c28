package dividing

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// StopToIndex is the code of the precaution of [Precautions].
const StopToIndex finding.Code = "stop-to-index"

// Precautions returns what to mind when work is indexed under a cutter or a drill:
// common practice.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: StopToIndex, Ref: source.Practice(),
		Text: "Stop the cutter, or draw it right clear, before the work is turned to the next division, and lock the" +
			" head again before the cut: work that moves under a cutter is thrown.",
	}}
}
