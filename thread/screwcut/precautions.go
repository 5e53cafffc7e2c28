package screwcut

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("screwcut")

// Precautions returns what holds for every setting-up of change wheels.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: "stop-the-lathe", Ref: source.Practice(),
		Text: "Stop the lathe before you touch wheels, banjo or half nuts that stick; keep the gear cover on.",
	}}
}
