package setting

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
)

// A Taper is a cone by its two diameters and the length between them.
type Taper struct {
	Large, Small units.Length
	Length       units.Length // of the taper, along the axis
}

// TaperOfAngle returns the taper of an included angle on a length that starts
// from the large diameter. An angle outside 0 to 180 degrees, lengths that are
// not above zero and a length that runs past the point of the cone are an
// [*units.ArgumentError].
func TaperOfAngle(included units.Angle, large, length units.Length) (Taper, error) {
	if !(included > 0 && included < 180*units.Degree) {
		return Taper{}, badIncluded(included)
	}
	if err := above(arg.Named("length of the taper", length), arg.Named("large diameter", large)); err != nil {
		return Taper{}, err
	}
	if math.Tan(included.Radians()/2)*length.MM()*2 > large.MM() {
		return Taper{}, bad("length of the taper", length.String(), "runs past the point of the cone", "a shorter length, a smaller angle or a larger diameter", units.ErrOutOfRange)
	}
	t := Taper{large, large.Sub(length.Scale(2 * math.Tan(included.Radians()/2))), length}
	return t, t.check()
}

func (t Taper) check() error {
	if err := above(arg.Named("length of the taper", t.Length), arg.Named("large diameter", t.Large)); err != nil {
		return err
	}
	if t.Small.Sign() < 0 || t.Small.Cmp(t.Large) >= 0 {
		return bad("small diameter", t.Small.String(), "", "zero or more, below the large diameter "+t.Large.String(), units.ErrOutOfRange)
	}
	return nil
}

// Rate returns the taper on the diameter for a unit of length: taper per inch,
// or mm per mm.
//
//	(D - d)/l = 2 tan(a/2)
//
// with the included angle a. It is not tan(a): for 60 degrees 1.155, not 1.732.
// A length or a large diameter that is not above zero, and a small diameter
// that is negative or not below the large one, are an [*units.ArgumentError].
func (t Taper) Rate() (float64, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	return t.Large.Sub(t.Small).Ratio(t.Length), nil
}

// Included returns the included angle. Limits as for [Taper.Rate].
func (t Taper) Included() (units.Angle, error) {
	rate, err := t.Rate()
	return units.Angle(2 * math.Atan(rate/2)), err
}

// Topslide returns the angle to swing the topslide from the lathe axis, half
// the included angle:
//
//	a/2 = atan((D - d) / (2 l))
//
// Topslides with the zero of their scale square to the axis are set to 90
// degrees less this. Their scales are good to half a degree: cut a test piece
// and go by its diameters. Limits as for [Taper.Rate].
func (t Taper) Topslide() (units.Angle, error) {
	included, err := t.Included()
	return included / 2, err
}

// SetOver returns how far to set the tailstock over for work of a given length
// between centres:
//
//	s = L (D - d) / (2 l)
//
// L is the whole length between centres, wherever on it the taper lies (Rose).
// The dial of the tailstock, or a dial gauge, shows the set-over; the diameter
// changes by twice as much. Work shorter than its taper is an
// [*units.ArgumentError], and so is a set-over of more than a twentieth of the
// length: the centres no longer sit in their holes (common practice).
func (t Taper) SetOver(between units.Length) (units.Length, error) {
	rate, err := t.Rate()
	if err != nil {
		return units.Length{}, err
	}
	if between.Cmp(t.Length) < 0 {
		return units.Length{}, bad("length between centres", between.String(), "shorter than the taper", "at least "+t.Length.String(), units.ErrOutOfRange)
	}
	if rate > 0.1 {
		return units.Length{}, bad("taper", fmt.Sprintf("%.4g on the diameter for a length of 1", rate), "too steep to set the tailstock over", "up to 0.1; swing the topslide instead", units.ErrOutOfRange)
	}
	return between.Scale(rate / 2), nil
}

func within(all ...arg.Length) error { return arg.Within("setting", all...) }

func above(all ...arg.Length) error { return arg.Above("setting", all...) }

func bad(field, value, problem, accepted string, err error) error {
	return arg.Bad("setting", field, value, problem, accepted, err)
}
