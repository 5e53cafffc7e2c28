package spread

import (
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Tolerance is how far a dimension may be off its size on the drawing.
type Tolerance struct {
	Dimension Dimension `json:"dimension"`
	Lower     Deviation `json:"lower"` // usually below zero
	Upper     Deviation `json:"upper"`
}

// A Deviation is how far a dimension is off: the angle of [Advance], the ratio of
// [LeverRatio], the length of every other; the other two are zero.
type Deviation struct {
	Length units.Length `json:"length,omitzero"`
	Angle  units.Angle  `json:"angle,omitzero"`
	Ratio  float64      `json:"ratio,omitzero"`
}

// PlusMinus returns the tolerance of a dimension that may be off by as much either
// way, read from text: "0.05 mm" or "2 thou", for [Advance] "1 deg", for
// [LeverRatio] "0.01". A text that cannot be read or is below zero is a
// [*units.ParseError].
func (d Dimension) PlusMinus(text string) (Tolerance, error) {
	var up, down Deviation
	var err error
	switch d {
	case Advance:
		up.Angle, err = units.ParseAngle(text)
		down.Angle = 0 - up.Angle
	case LeverRatio:
		if up.Ratio, err = strconv.ParseFloat(strings.TrimSpace(text), 64); err != nil {
			err = fail.Unreadable("tolerance of "+d.String(), text, "it is not a number", `a ratio such as "0.01"`)
		}
		down.Ratio = 0 - up.Ratio
	default:
		if !dimensions.Known(int(d)) {
			return Tolerance{}, dimensions.Unknown(int(d))
		}
		up.Length, err = units.ParseLength(text)
		down.Length = up.Length.Neg()
	}
	if err != nil {
		return Tolerance{}, err
	}
	if !(d.count(up) >= 0) {
		return Tolerance{}, fail.Text("tolerance of "+d.String(), text, "", "plus-minus so much, not below zero", units.ErrOutOfRange)
	}
	return Tolerance{Dimension: d, Lower: down, Upper: up}, nil
}

// count returns a deviation in the numbers of the kernel.
func (d Dimension) count(by Deviation) float64 {
	switch d {
	case Advance:
		return float64(by.Angle)
	case LeverRatio:
		return by.Ratio
	}
	return float64(by.Length.Picometres())
}

// deviation is the inverse of count.
func (d Dimension) deviation(by float64) Deviation {
	switch d {
	case Advance:
		return Deviation{Angle: units.Angle(by)}
	case LeverRatio:
		return Deviation{Ratio: by}
	}
	return Deviation{Length: units.Picometres(int64(math.Round(by)))}
}

// validate looks at a tolerance by itself.
func (t *Tolerance) validate() error {
	d := t.Dimension
	if !dimensions.Known(int(d)) {
		return dimensions.Unknown(int(d))
	}
	for _, by := range [...]Deviation{t.Lower, t.Upper} {
		v := d.count(by)
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			return fail.NotFinite("tolerance of "+d.String(), v)
		case math.Abs(v) > kernel.Longest:
			return fail.OutOfRange("tolerance of "+d.String(), by, "up to 1 km")
		case by != d.deviation(v):
			return fail.Wrong("tolerance of "+d.String(), by, "it is measured in something else", d.measure())
		}
	}
	if d.count(t.Lower) > d.count(t.Upper) {
		return fail.Wrong("tolerance of "+d.String(), t.Lower, "the lower deviation is above the upper, "+t.Upper.String(),
			"a lower deviation at most as great as the upper")
	}
	return nil
}

// measure says what a dimension is measured in.
func (d Dimension) measure() string {
	switch d {
	case Advance:
		return "an angle"
	case LeverRatio:
		return "a ratio"
	}
	return aLength
}

const aLength = "a length"
