package setting

import (
	"math"

	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
)

// VeeHeight returns the height of the top of a roller above the root of a vee,
// where its sides would meet:
//
//	H = d/2 (1 + 1/sin(a/2))      1.2071 d at 90 degrees, 1.5 d at 60
//
// with the included angle a, 10 to 170 degrees. Another angle, and a roller
// that is not above zero, are an [*units.ArgumentError].
func VeeHeight(roller units.Length, vee units.Angle) (units.Length, error) {
	if err := checkVee(roller, vee); err != nil {
		return units.Length{}, err
	}
	return roller.Scale((1 + 1/math.Sin(vee.Radians()/2)) / 2), nil
}

// VeeHeightAboveFace returns the height of the top of a roller above the top
// face of a block whose vee is w wide at the mouth:
//
//	H - w / (2 tan(a/2))
//
// A roller that would rest on the edges, or lie below the face, is an
// [*units.ArgumentError].
func VeeHeightAboveFace(roller units.Length, vee units.Angle, mouth units.Length) (units.Length, error) {
	top, err := VeeHeight(roller, vee)
	if err != nil {
		return units.Length{}, err
	}
	if err := above(arg.Named("mouth of the vee", mouth)); err != nil {
		return units.Length{}, err
	}
	half := vee.Radians() / 2
	if touch := roller.Scale(math.Cos(half)); touch.Cmp(mouth) > 0 {
		return units.Length{}, bad("roller", roller.String(), "rests on the edges of the vee", "up to "+mouth.Scale(1/math.Cos(half)).String(), units.ErrOutOfRange)
	}
	height := top.Sub(mouth.Scale(1 / (2 * math.Tan(half))))
	if height.Sign() <= 0 {
		return units.Length{}, bad("roller", roller.String(), "lies below the face", "a larger roller", units.ErrOutOfRange)
	}
	return height, nil
}

func checkVee(roller units.Length, vee units.Angle) error {
	if err := above(arg.Named("roller", roller)); err != nil {
		return err
	}
	if !(vee >= 10*units.Degree && vee <= 170*units.Degree) {
		return bad("angle of the vee", vee.String(), "", "10 to 170 degrees, included", units.ErrOutOfRange)
	}
	return nil
}

// VeeAngle returns the included angle of a vee from the heights of the tops of
// two rollers laid in it one after the other, both from the same face:
//
//	sin(a/2) = (D1 - D2) / (2 (H1 - H2) - (D1 - D2))
//
// An examination site marks the cosine as right; it is the sine. Rollers that
// are not above zero or not of two sizes, and heights that no vee gives, are an
// [*units.ArgumentError].
func VeeAngle(large, small, largeHeight, smallHeight units.Length) (units.Angle, error) {
	if err := above(arg.Named("small roller", small), arg.Named("large roller", large)); err != nil {
		return 0, err
	}
	if err := within(arg.Named("height over the large roller", largeHeight), arg.Named("height over the small roller", smallHeight)); err != nil {
		return 0, err
	}
	if large.Cmp(small) <= 0 {
		return 0, bad("large roller", large.String(), "", "above the small roller "+small.String(), units.ErrOutOfRange)
	}
	d := large.Sub(small)
	rest := largeHeight.Sub(smallHeight).Scale(2).Sub(d)
	sine := d.Ratio(rest)
	if rest.Sign() <= 0 || !(sine > 0 && sine <= 1) {
		return 0, bad("heights", largeHeight.String()+", "+smallHeight.String(), "no vee has these rollers at these heights", "a difference of heights above that of the diameters", units.ErrOutOfRange)
	}
	return units.Angle(2 * math.Asin(sine)), nil
}

// BoreTaper returns the included angle of a taper bore from two balls laid in
// it one after the other and the distance of their centres along the axis:
//
//	sin(a/2) = (R - r) / c
//
// with the radii R and r of the balls. The distance follows from the depths of
// their tops below the face ([BallCentres]). Sizes that are not above zero,
// balls that are not of two sizes and a distance that is not above R - r are an
// [*units.ArgumentError].
func BoreTaper(large, small, centres units.Length) (units.Angle, error) {
	if err := above(arg.Named("small ball", small), arg.Named("distance of centres", centres)); err != nil {
		return 0, err
	}
	if large.Cmp(small) <= 0 {
		return 0, bad("large ball", large.String(), "", "above the small ball "+small.String(), units.ErrOutOfRange)
	}
	sine := large.Sub(small).Scale(0.5).Ratio(centres)
	if sine >= 1 {
		return 0, bad("distance of centres", centres.String(), "the balls cannot both touch", "above half the difference of the balls", units.ErrOutOfRange)
	}
	return units.Angle(2 * math.Asin(sine)), nil
}

// BallCentres returns the distance of the centres of two balls from the depths
// of their tops below the face; a ball that stands above it has a negative
// depth. With t the depths and d the diameters, 1 of the large ball, 2 of the small:
//
//	c = (t2 + d2/2) - (t1 + d1/2)
//
// Balls that are not above zero, and depths at which the small one is not below
// the large one, are an [*units.ArgumentError].
func BallCentres(large, small, largeDepth, smallDepth units.Length) (units.Length, error) {
	if err := above(arg.Named("large ball", large), arg.Named("small ball", small)); err != nil {
		return units.Length{}, err
	}
	if err := within(arg.Named("depth of the large ball", largeDepth), arg.Named("depth of the small ball", smallDepth)); err != nil {
		return units.Length{}, err
	}
	c := smallDepth.Sub(largeDepth).Add(small.Sub(large).Scale(0.5))
	if c.Sign() <= 0 {
		return units.Length{}, bad("depths", largeDepth.String()+", "+smallDepth.String(), "the small ball is not below the large one", "depths of the tops below the face, negative above it", units.ErrOutOfRange)
	}
	return c, nil
}
