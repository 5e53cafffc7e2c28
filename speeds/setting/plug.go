package setting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// PlugTaper returns the included angle of an outside taper that stands on its
// small end on a plate, from two measurements over a pair of equal rollers: laid
// on the plate, then raised on equal blocks:
//
//	tan(a/2) = (M2 - M1) / (2 * h)
//
//	M1  measured over the rollers laid on the plate
//	M2  measured over the rollers raised, above M1
//	h   height of the blocks
//
// The size of the rollers falls out. See the Example.
func PlugTaper(laid, raised, blocks units.Length) (units.Angle, error) {
	if err := fail.Above(fault.Named("measurement over the rollers on the plate", laid),
		fault.Named("measurement over the rollers on the blocks", raised), fault.Named("height of the blocks", blocks)); err != nil {
		return 0, err
	}
	if raised.Cmp(laid) <= 0 {
		return 0, fail.Wrong("measurement over the rollers on the blocks", raised, "the taper does not widen upwards",
			"above the one on the plate, "+laid.String()+"; stand it on its small end")
	}
	return units.Angle(2 * math.Atan(raised.Sub(laid).Ratio(blocks)/2)), nil // tan(a/2) = (M2 - M1)/(2 h)
}

// PlugEnd returns the diameter of the small end of that taper, at the plate:
//
//	d = M1 - w * (1 + cot(45 degrees - a/4))
//
//	M1  measured over the rollers laid on the plate, more than they fill alone
//	w   diameter of the rollers
//	a   included angle, above 0 and below 180 degrees
//
// See the Example of [PlugTaper].
func PlugEnd(laid, roller units.Length, included units.Angle) (units.Length, error) {
	if err := fail.Above(fault.Named("measurement over the rollers on the plate", laid), fault.Named("roller", roller)); err != nil {
		return units.Length{}, err
	}
	if !(included > 0 && included < 180*units.Degree) {
		return units.Length{}, badIncluded(included)
	}
	rollers := roller.MM() * (1 + 1/math.Tan(math.Pi/4-included.Radians()/4)) // w (1 + cot(45 deg - a/4))
	if rollers >= laid.MM() {
		return units.Length{}, fail.Wrong("measurement over the rollers on the plate", laid, "leaves nothing between the rollers", "a larger one, or smaller rollers")
	}
	return units.Millimetres.Of(laid.MM() - rollers)
}

func badIncluded(a units.Angle) error {
	return fail.OutOfRange("included angle", a, "above 0, below 180 degrees")
}
