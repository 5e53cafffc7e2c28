package setting

import (
	"math"

	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
)

// PlugTaper returns the included angle of an outside taper that stands on its
// small end on a plate, from two measurements over a pair of equal rollers: laid
// on the plate, then raised on equal blocks:
//
//	tan(a/2) = (M2 - M1) / (2 h)
//
// M1 is measured over the rollers laid on the plate, M2 over the rollers raised,
// h is the height of the blocks; the size of the rollers falls out. Lengths that
// are not above zero, and an M2 that is not above M1, are an
// [*units.ArgumentError].
func PlugTaper(laid, raised, blocks units.Length) (units.Angle, error) {
	if err := above(arg.Named("measurement over the rollers on the plate", laid), arg.Named("measurement over the rollers on the blocks", raised), arg.Named("height of the blocks", blocks)); err != nil {
		return 0, err
	}
	if raised.Cmp(laid) <= 0 {
		return 0, bad("measurement over the rollers on the blocks", raised.String(), "the taper does not widen upwards", "above the one on the plate, "+laid.String()+"; stand it on its small end", units.ErrOutOfRange)
	}
	return units.Angle(2 * math.Atan(raised.Sub(laid).Ratio(blocks)/2)), nil
}

// PlugEnd returns the diameter of the small end of that taper, at the plate:
//
//	d = M1 - w (1 + cot(45 degrees - a/4))
//
// w is the diameter of the rollers and a the included angle, above 0 and below
// 180 degrees. A measurement that the rollers alone would fill is an
// [*units.ArgumentError].
func PlugEnd(laid, roller units.Length, included units.Angle) (units.Length, error) {
	if err := above(arg.Named("measurement over the rollers on the plate", laid), arg.Named("roller", roller)); err != nil {
		return units.Length{}, err
	}
	if !(included > 0 && included < 180*units.Degree) {
		return units.Length{}, badIncluded(included)
	}
	rollers := roller.MM() * (1 + 1/math.Tan(math.Pi/4-included.Radians()/4))
	if rollers >= laid.MM() {
		return units.Length{}, bad("measurement over the rollers on the plate", laid.String(), "leaves nothing between the rollers", "a larger one, or smaller rollers", units.ErrOutOfRange)
	}
	return units.Millimetres.Of(laid.MM() - rollers)
}

// BoreMouth returns the diameter of a taper bore at its face, from the depth of
// the top of a ball that lies in it:
//
//	D = d/cos(a/2) + 2 (t + d/2) tan(a/2)
//
// d is the ball, t the depth of its top below the face, negative when it stands
// out, a the included angle ([BoreTaper]). A ball so high that it rests on the
// edge of the bore is an [*units.ArgumentError].
func BoreMouth(ball, depth units.Length, included units.Angle) (units.Length, error) {
	if err := above(arg.Named("ball", ball)); err != nil {
		return units.Length{}, err
	}
	if err := within(arg.Named("depth of the ball", depth)); err != nil {
		return units.Length{}, err
	}
	if !(included > 0 && included < 180*units.Degree) {
		return units.Length{}, badIncluded(included)
	}
	half := included.Radians() / 2
	centre := depth.MM() + ball.MM()/2 // below the face
	if centre+ball.MM()/2*math.Sin(half) < 0 {
		return units.Length{}, bad("depth of the ball", depth.String(), "it rests on the edge of the bore", "a smaller ball", units.ErrOutOfRange)
	}
	return units.Millimetres.Of(ball.MM()/math.Cos(half) + 2*centre*math.Tan(half))
}

func badIncluded(a units.Angle) error {
	return bad("included angle", a.String(), "", "above 0, below 180 degrees", units.ErrOutOfRange)
}
