package marking

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// SetOverFlies is the code of the first precaution of [Precautions].
const SetOverFlies finding.Code = "set-over-flies"

// Precautions returns what to mind with work that is set over in a chuck: common
// practice.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: SetOverFlies, Ref: source.Practice(),
		Text: "Work that is set over is held by less than a chuck's whole grip and swings: packing of one hard piece that" +
			" cannot slip out, every jaw tight once more after a turn by hand, the lowest speed and light cuts at first," +
			" and nobody in its plane when it starts.",
	}, {
		Code: "dial-by-hand", Ref: source.Practice(),
		Text: "Turn the chuck by hand, with the motor isolated, whenever a dial stands on the work.",
	}}
}
