package setting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// VeeHeight returns the height of the top of a roller above the root of a vee,
// where its sides would meet:
//
//	H = d/2 * (1 + 1/sin(a/2))
//
//	d  the roller
//	a  included angle, 10 to 170 degrees
//
// which is 1.2071 d at 90 degrees and 1.5 d at 60. See the Example.
func VeeHeight(roller units.Length, vee units.Angle) (units.Length, error) {
	if err := checkVee(roller, vee); err != nil {
		return units.Length{}, err
	}
	return roller.Scale((1 + 1/math.Sin(vee.Radians()/2)) / 2), nil // H = d/2 (1 + 1/sin(a/2))
}

// VeeHeightAboveFace returns the height of the top of a roller above the top
// face of a block whose vee is w wide at the mouth:
//
//	h = H - w / (2 * tan(a/2))
//
// H is that of [VeeHeight]. A roller that would rest on the edges, or lie below
// the face, is an error. See the Example of VeeHeight.
func VeeHeightAboveFace(roller units.Length, vee units.Angle, mouth units.Length) (units.Length, error) {
	top, err := VeeHeight(roller, vee)
	if err != nil {
		return units.Length{}, err
	}
	if err := fail.Above(fault.Named("mouth of the vee", mouth)); err != nil {
		return units.Length{}, err
	}
	half := vee.Radians() / 2
	if touch := roller.Scale(math.Cos(half)); touch.Cmp(mouth) > 0 {
		return units.Length{}, fail.Wrong("roller", roller, "rests on the edges of the vee", "up to "+mouth.Scale(1/math.Cos(half)).String())
	}
	height := top.Sub(mouth.Scale(1 / (2 * math.Tan(half)))) // H - w/(2 tan(a/2))
	if height.Sign() <= 0 {
		return units.Length{}, fail.Wrong("roller", roller, "lies below the face", "a larger roller")
	}
	return height, nil
}

func checkVee(roller units.Length, vee units.Angle) error {
	if err := fail.Above(fault.Named("roller", roller)); err != nil {
		return err
	}
	if !(vee >= 10*units.Degree && vee <= 170*units.Degree) {
		return fail.OutOfRange("angle of the vee", vee, "10 to 170 degrees, included")
	}
	return nil
}

// VeeAngle returns the included angle of a vee from the heights of the tops of
// two rollers laid in it one after the other, both from the same face:
//
//	sin(a/2) = (D1 - D2) / (2 * (H1 - H2) - (D1 - D2))
//
//	D1, D2  large and small roller
//	H1, H2  heights of their tops
//
// An examination site marks the cosine as right; it is the sine. Heights that no
// vee gives are an error. See the Example.
func VeeAngle(large, small, largeHeight, smallHeight units.Length) (units.Angle, error) {
	if err := fail.Above(fault.Named("small roller", small), fault.Named("large roller", large)); err != nil {
		return 0, err
	}
	if err := fail.Within(fault.Named("height over the large roller", largeHeight), fault.Named("height over the small roller", smallHeight)); err != nil {
		return 0, err
	}
	if large.Cmp(small) <= 0 {
		return 0, fail.OutOfRange("large roller", large, "above the small roller "+small.String())
	}
	d := large.Sub(small)
	rest := largeHeight.Sub(smallHeight).Scale(2).Sub(d)
	sine := d.Ratio(rest) // sin(a/2) = (D1 - D2)/(2 (H1 - H2) - (D1 - D2))
	if rest.Sign() <= 0 || !(sine > 0 && sine <= 1) {
		return 0, fail.Wrong("heights", largeHeight.String()+", "+smallHeight.String(),
			"no vee has these rollers at these heights", "a difference of heights above that of the diameters")
	}
	return units.Angle(2 * math.Asin(sine)), nil
}
