package joint

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// The codes of the precautions with a bolted joint.
const (
	EmptyFirst  finding.Code = "empty-before-undoing"
	TightenCold finding.Code = "tighten-cold"
)

// Precautions returns what to mind when a joint that holds steam is undone or
// tightened: common practice, to be shown wherever somebody is told to.
func Precautions() []finding.Precaution {
	return []finding.Precaution{
		{Code: EmptyFirst, Ref: source.Practice(), Text: "Before a nut is undone shut off the steam, open the drains " +
			"and let the engine cool: a cover that is let go under pressure flies, and hot water behind it " +
			"turns to steam."},
		{Code: TightenCold, Ref: source.Practice(), Text: "Never tighten or undo a nut under pressure; look at the nuts again cold, after the first steaming."},
	}
}
