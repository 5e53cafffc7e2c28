package fits

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// Limits are the largest and the smallest size that a part may have. The zero
// value is a part of no size.
type Limits struct {
	Nominal  units.Length // size that the limits are laid off from
	Min, Max units.Length
	Refs     source.Refs `json:",omitzero"` // first of the tolerance, then of the deviation; none: not from a table
}

// Upper returns the upper deviation, Max less Nominal.
func (l Limits) Upper() units.Length { return l.Max.Sub(l.Nominal) }

// Lower returns the lower deviation, Min less Nominal.
func (l Limits) Lower() units.Length { return l.Min.Sub(l.Nominal) }

// Tolerance returns Max less Min.
func (l Limits) Tolerance() units.Length { return l.Max.Sub(l.Min) }

// Mean returns the size halfway between the limits, the one to aim at, to the
// nearest picometre.
func (l Limits) Mean() units.Length { return l.Min.Add(l.Tolerance().Scale(0.5)) }

// Contains reports whether a measured size is within the limits.
func (l Limits) Contains(size units.Length) bool { return size.Cmp(l.Min) >= 0 && size.Cmp(l.Max) <= 0 }

// Exact returns limits with no tolerance: a part that has been measured.
func Exact(size units.Length) Limits { return Limits{Nominal: size, Min: size, Max: size} }

// Measurable are limits on steps that the bench can measure.
type Measurable struct {
	Limits              // rounded inward: a part within them is within the true limits
	Step   units.Length // of the micrometer or dial
	Lost   units.Length // how much of the tolerance the rounding took
}

// RoundInward returns the limits on steps that can be measured, the upper limit
// rounded down and the lower one up, so that no part passes that the drawing
// would refuse; the tolerance that this costs is in Lost. The step is that of
// the instrument, in its own unit: 0.01 mm, or half a thou. Where no step lies
// between the limits the instrument is too coarse for the part, an error.
//
// Rounding to the nearest step instead may pass a bad part. 11 +/- 0.3 mm to
// three places of an inch is 0.422 to 0.444; to the nearest it would be 0.421
// to 0.445, beyond both limits (ANSI/IEEE 268, as a drawing-practice tip cites
// it). See the Example.
func (l Limits) RoundInward(step units.Length) (Measurable, error) {
	lo, hi, err := units.RoundInward(l.Min, l.Max, step)
	if err != nil {
		return Measurable{}, err
	}
	lost := l.Tolerance().Sub(hi.Sub(lo))
	return Measurable{Limits{l.Nominal, lo, hi, l.Refs}, step, lost}, nil
}

// Text returns both limits in a unit, rounded inward as by
// [Limits.RoundInward] to a number of decimal places, 0 to 6: 6.000 to 6.018 mm
// is "0.2363 to 0.2369 in". Limits with no size of so few places between them
// are given with more. It panics on an unknown unit and on places outside that
// range.
func (l Limits) Text(unit units.LengthUnit, places int) string {
	if places < 0 || places > 6 {
		panic(fmt.Sprintf("fits: %d decimal places; accepted: 0 to 6", places))
	}
	low, high := l.Min, l.Max
	for ; places < 9; places++ {
		step := units.Picometres(unit.Length().Picometres() / int64(math.Pow10(places)))
		if lo, hi, err := units.RoundInward(l.Min, l.Max, step); err == nil {
			low, high = lo, hi
			break
		}
	}
	return low.Decimal(unit, places) + " to " + high.Text(unit, places)
}

// Gauges are the two sizes that a limit gauge is made to, before the makers'
// own tolerance.
type Gauges struct{ Go, NotGo units.Length }

// Gauges returns the sizes of a plug gauge for a hole, or of a gap gauge for a
// shaft: go is the limit with the most metal. The gauge maker's tolerance and
// the allowance for wear come on top (ISO 1938-1); they are not here.
// See the Example.
func (l Limits) Gauges(f Feature) (Gauges, error) {
	switch f {
	case Hole:
		return Gauges{Go: l.Min, NotGo: l.Max}, nil
	case Shaft:
		return Gauges{Go: l.Max, NotGo: l.Min}, nil
	}
	return Gauges{}, features.Unknown(int(f))
}

// Validate returns an error for limits that are the wrong way round or not of a
// part.
func (l Limits) Validate() error { return l.validate("limits") }

func (l Limits) validate(field string) error {
	if l.Min.Cmp(l.Max) > 0 || l.Min.Sign() <= 0 {
		return fail.Wrong(field, l.Min.String()+" to "+l.Max.String(), "not the limits of a part",
			"Min above zero, Max not below Min")
	}
	return fail.Within(fault.Named(field, l.Max))
}
