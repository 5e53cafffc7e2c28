package eccentric

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// BlockTheWheel is the code of the precaution of [Precautions].
const BlockTheWheel finding.Code = "block-the-wheel"

// Precautions returns what to mind when an eccentric is set and a valve is
// measured: common practice.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: BlockTheWheel, Ref: source.Practice(),
		Text: "Set the eccentric and measure leads with no pressure on the engine. Where a reading is taken with air on," +
			" such as where a port begins to blow, block the flywheel first so that it cannot turn, and take your" +
			" fingers out of the motion: an engine under air starts by itself.",
	}}
}
