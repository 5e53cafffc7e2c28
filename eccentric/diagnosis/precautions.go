package diagnosis

import (
	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// AirFirst is the code of the precaution of [Precautions] for the first run.
const AirFirst finding.Code = "air-first-steam-last"

// Precautions returns what to mind where a new engine is tried and read, those of
// [eccentric.Precautions] first: common practice.
func Precautions() []finding.Precaution {
	return append(eccentric.Precautions(), finding.Precaution{
		Code: AirFirst, Ref: source.Practice(),
		Text: "Stand clear of flywheel, crank and valve gear, out of the plane of the wheel, and keep your face from the exhaust" +
			" and the drain cocks. Low-pressure air first, from a regulator that is opened slowly, and never to test what holds" +
			" pressure. Steam last, when the engine runs on air the right way round, from a boiler that is tested and certified," +
			" with the drain cocks open.",
	})
}
