package setting

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// BoreTaper returns the included angle of a taper bore from two balls laid in
// it one after the other and the distance of their centres along the axis:
//
//	sin(a/2) = (R - r) / c
//
//	R, r  radii of the large and the small ball
//	c     distance of their centres, above R - r, see [BallCentres]
//
// See the Example.
func BoreTaper(large, small, centres units.Length) (units.Angle, error) {
	if err := fail.Above(fault.Named("small ball", small), fault.Named("distance of centres", centres)); err != nil {
		return 0, err
	}
	if large.Cmp(small) <= 0 {
		return 0, fail.OutOfRange("large ball", large, "above the small ball "+small.String())
	}
	sine := large.Sub(small).Scale(0.5).Ratio(centres) // sin(a/2) = (R - r)/c
	if sine >= 1 {
		return 0, fail.Wrong("distance of centres", centres, "the balls cannot both touch", "above half the difference of the balls")
	}
	return units.Angle(2 * math.Asin(sine)), nil
}

// BallCentres returns the distance of the centres of two balls from the depths
// of their tops below the face; a ball that stands above it has a negative
// depth:
//
//	c = (t2 + d2/2) - (t1 + d1/2)
//
//	t  depths of the tops, 1 of the large ball, 2 of the small
//	d  diameters
//
// Depths at which the small one is not below the large one are an error. See the
// Example of [BoreTaper].
func BallCentres(large, small, largeDepth, smallDepth units.Length) (units.Length, error) {
	if err := fail.Above(fault.Named("large ball", large), fault.Named("small ball", small)); err != nil {
		return units.Length{}, err
	}
	if err := fail.Within(fault.Named("depth of the large ball", largeDepth), fault.Named("depth of the small ball", smallDepth)); err != nil {
		return units.Length{}, err
	}
	c := smallDepth.Sub(largeDepth).Add(small.Sub(large).Scale(0.5)) // (t2 + d2/2) - (t1 + d1/2)
	if c.Sign() <= 0 {
		return units.Length{}, fail.Wrong("depths", largeDepth.String()+", "+smallDepth.String(),
			"the small ball is not below the large one", "depths of the tops below the face, negative above it")
	}
	return c, nil
}

// BoreMouth returns the diameter of a taper bore at its face, from the depth of
// the top of a ball that lies in it:
//
//	D = d/cos(a/2) + 2 * (t + d/2) * tan(a/2)
//
//	d  the ball
//	t  depth of its top below the face, negative when it stands out
//	a  included angle, see [BoreTaper]
//
// A ball so high that it rests on the edge of the bore is an error. See the
// Example of BoreTaper.
func BoreMouth(ball, depth units.Length, included units.Angle) (units.Length, error) {
	if err := fail.Above(fault.Named("ball", ball)); err != nil {
		return units.Length{}, err
	}
	if err := fail.Within(fault.Named("depth of the ball", depth)); err != nil {
		return units.Length{}, err
	}
	if !(included > 0 && included < 180*units.Degree) {
		return units.Length{}, badIncluded(included)
	}
	half := included.Radians() / 2
	centre := depth.MM() + ball.MM()/2 // below the face
	if centre+ball.MM()/2*math.Sin(half) < 0 {
		return units.Length{}, fail.Wrong("depth of the ball", depth, "it rests on the edge of the bore", "a smaller ball")
	}
	// D = d/cos(a/2) + 2 (t + d/2) tan(a/2)
	return units.Millimetres.Of(ball.MM()/math.Cos(half) + 2*centre*math.Tan(half))
}
