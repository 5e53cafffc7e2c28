package screwcut

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("screwcut")

// Precautions returns what holds for every setting-up of change wheels and for the
// way back between two passes.
func Precautions() []finding.Precaution {
	return []finding.Precaution{
		{
			Code: "stop-the-lathe", Ref: source.Practice(),
			Text: "Stop the lathe before you touch wheels, banjo or half nuts that stick; keep the gear cover on.",
		},
		{
			Code: "withdraw-before-reversing", Ref: source.Practice(),
			Text: "Before you reverse the lathe to come back, stop it and withdraw the tool clear of the work: the play in the " +
				"wheels and the leadscrew would drag it through the thread.",
		},
		{
			Code: "screwed-on-chuck", Ref: source.Practice(),
			Text: "A chuck that screws on can unscrew and fall when the lathe starts or stops in reverse: reverse only with its " +
				"lock on and at the slowest speed, or turn the spindle back by hand with the motor isolated, and take the handle " +
				"off before power.",
		},
	}
}
