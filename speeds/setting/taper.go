package setting

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("setting")

// A Taper is a cone by its two diameters and the length between them.
type Taper struct {
	Large, Small units.Length
	Length       units.Length // of the taper, along the axis
}

// TaperOfAngle returns the taper of an included angle on a length that starts
// from the large diameter, up to the point of the cone. Angles above 0 and below
// 180 degrees. See the Example of [Taper].
func TaperOfAngle(included units.Angle, large, length units.Length) (Taper, error) {
	if !(included > 0 && included < 180*units.Degree) {
		return Taper{}, badIncluded(included)
	}
	if err := fail.Above(fault.Named("length of the taper", length), fault.Named("large diameter", large)); err != nil {
		return Taper{}, err
	}
	if math.Tan(included.Radians()/2)*length.MM()*2 > large.MM() {
		return Taper{}, fail.Wrong("length of the taper", length, "runs past the point of the cone", "a shorter length, a smaller angle or a larger diameter")
	}
	t := Taper{large, large.Sub(length.Scale(2 * math.Tan(included.Radians()/2))), length}
	return t, t.Validate()
}

// Validate returns an error for a taper that is none: without a length, or whose
// small end is not the smaller one.
func (t Taper) Validate() error {
	if err := fail.Above(fault.Named("length of the taper", t.Length), fault.Named("large diameter", t.Large)); err != nil {
		return err
	}
	if t.Small.Sign() < 0 || t.Small.Cmp(t.Large) >= 0 {
		return fail.OutOfRange("small diameter", t.Small, "zero or more, below the large diameter "+t.Large.String())
	}
	return nil
}

// Rate returns the taper on the diameter for a unit of length: taper per inch,
// or mm per mm.
//
//	(D - d) / l = 2 * tan(a/2)
//
// with the included angle a. It is not tan(a): for 60 degrees 1.155, not 1.732.
// See the Example of [Taper].
func (t Taper) Rate() (float64, error) {
	if err := t.Validate(); err != nil {
		return 0, err
	}
	return t.Large.Sub(t.Small).Ratio(t.Length), nil // (D - d)/l
}

// Included returns the included angle. Limits as for [Taper.Rate].
func (t Taper) Included() (units.Angle, error) {
	rate, err := t.Rate()
	return units.Angle(2 * math.Atan(rate/2)), err // a = 2 atan((D - d)/(2 l))
}

// Topslide returns the angle to swing the topslide from the lathe axis, half
// the included angle:
//
//	a/2 = atan((D - d) / (2 * l))
//
//	D, d  large and small diameter
//	l     length of the taper
//
// Topslides with the zero of their scale square to the axis are set to 90
// degrees less this. Their scales are good to half a degree: cut a test piece
// and go by its diameters. See the Example of [Taper].
func (t Taper) Topslide() (units.Angle, error) {
	included, err := t.Included()
	return included / 2, err
}

// SetOver returns how far to set the tailstock over for work of a given length
// between centres:
//
//	s = L * (D - d) / (2 * l)
//
//	L     whole length between centres, wherever on it the taper lies (Rose)
//	D, d  large and small diameter
//	l     length of the taper, up to L
//
// The dial of the tailstock, or a dial gauge, shows the set-over; the diameter
// changes by twice as much. A set-over of more than a twentieth of the length is
// an error: the centres no longer sit in their holes (common practice). See the
// Example.
func (t Taper) SetOver(between units.Length) (units.Length, error) {
	rate, err := t.Rate()
	if err != nil {
		return units.Length{}, err
	}
	if between.Cmp(t.Length) < 0 {
		return units.Length{}, fail.Wrong("length between centres", between, "shorter than the taper", "at least "+t.Length.String())
	}
	if rate > 0.1 {
		return units.Length{}, fail.Wrong("taper", fmt.Sprintf("%.4g on the diameter for a length of 1", rate),
			"too steep to set the tailstock over", "up to 0.1; swing the topslide instead")
	}
	return between.Scale(rate / 2), nil // s = L (D - d)/(2 l)
}
