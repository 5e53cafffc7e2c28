package units

import (
	"fmt"
	"math"
	"math/bits"
	"strconv"
)

// A RoundMode says which way [Length.Round] goes.
type RoundMode int

// The directions of rounding.
const (
	Nearest RoundMode = iota // to the nearest step, halves away from zero
	Up                       // to the step at or above: the larger, more positive length
	Down                     // to the step at or below
)

const roundModesAccepted = "nearest, up, down"

var roundModes = [...]string{Nearest: "nearest", Up: "up", Down: "down"}

// RoundModes returns all of them, in order.
func RoundModes() []RoundMode { return []RoundMode{Nearest, Up, Down} }

func (m RoundMode) known() bool { return m >= 0 && int(m) < len(roundModes) }

func (m RoundMode) unknown() error {
	return &ArgumentError{Package: "units", Field: "rounding mode", Value: m.String(), Accepted: roundModesAccepted, Err: ErrUnknown}
}

// String returns "nearest", "up" or "down".
func (m RoundMode) String() string {
	if !m.known() {
		return "RoundMode(" + strconv.Itoa(int(m)) + ")"
	}
	return roundModes[m]
}

// ParseRoundMode returns the mode of that name; see [RoundMode.String].
func ParseRoundMode(s string) (RoundMode, error) {
	for m, name := range roundModes {
		if name == s {
			return RoundMode(m), nil
		}
	}
	return 0, &ParseError{What: "direction of rounding", Text: s, Problem: "unknown", Accepted: roundModesAccepted, Err: ErrUnknown}
}

// MarshalText implements [encoding.TextMarshaler].
func (m RoundMode) MarshalText() ([]byte, error) {
	if !m.known() {
		return nil, m.unknown()
	}
	return []byte(m.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (m *RoundMode) UnmarshalText(text []byte) error {
	v, err := ParseRoundMode(string(text))
	if err == nil {
		*m = v
	}
	return err
}

// Round returns the multiple of step that lies nearest to l, at or above it, or
// at or below it. The step is what a dial, a scale or a gauge can show, in any
// unit: 0.01 mm, a thou, a 64th. A step that is not positive is an
// [*ArgumentError], as is a length or a step beyond 4,600 km.
func (l Length) Round(step Length, mode RoundMode) (Length, error) {
	if step.pm <= 0 {
		return Length{}, outOfRange("rounding step", step, "", "a length above zero")
	}
	if max(l.pm, -l.pm, step.pm) > math.MaxInt64/2 || l.pm == math.MinInt64 {
		return Length{}, outOfRange("length to round", l, "", "lengths and steps up to 4,600 km")
	}
	over := l.pm % step.pm // how far l lies above the step below it
	if over < 0 {
		over += step.pm
	}
	below := Length{l.pm - over}
	switch rest := step.pm - over; mode {
	case Down:
		return below, nil
	case Up:
		if over == 0 {
			return below, nil
		}
		return below.Add(step), nil
	case Nearest:
		if over > rest || over == rest && l.pm > 0 {
			return below.Add(step), nil
		}
		return below, nil
	}
	return Length{}, mode.unknown()
}

func outOfRange(field string, value Length, problem, accepted string) error {
	return &ArgumentError{
		Package: "units", Field: field, Value: value.String(), Problem: problem, Accepted: accepted, Err: ErrOutOfRange,
	}
}

// RoundInward rounds the limits of a part to steps that can be measured, the
// smaller one up and the larger one down, so that a part inside the rounded
// limits is inside the true ones. Limits that leave no step between them, or
// that are the wrong way round, are an [*ArgumentError].
func RoundInward(min, max, step Length) (roundedMin, roundedMax Length, err error) {
	if min.Cmp(max) > 0 {
		return Length{}, Length{}, outOfRange("least size", min, "above the greatest, "+max.String(), "at most the greatest")
	}
	if roundedMin, err = min.Round(step, Up); err != nil {
		return Length{}, Length{}, err
	}
	if roundedMax, err = max.Round(step, Down); err != nil {
		return Length{}, Length{}, err
	}
	if roundedMin.Cmp(roundedMax) > 0 {
		problem := fmt.Sprintf("no multiple of it lies from %v to %v", min, max)
		return Length{}, Length{}, outOfRange("rounding step", step, problem, "a finer step")
	}
	return roundedMin, roundedMax, nil
}

// A Fraction is an inch fraction in its lowest terms and what it leaves over.
type Fraction struct {
	Num, Den int    // Num/Den of an inch; Num carries the sign and may exceed Den
	Rest     Length // the exact length less the fraction
}

// NearestFraction returns the inch fraction nearest to l whose lower number
// divides den, a power of two from 1 to 512, with what it leaves over: 10 mm is
// 25/64 in and 0.078125 mm.
func (l Length) NearestFraction(den int) (Fraction, error) {
	if den < 1 || den > 512 || bits.OnesCount(uint(den)) != 1 {
		return Fraction{}, &ArgumentError{
			Package: "units", Field: "lower number of the fraction", Value: strconv.Itoa(den),
			Accepted: "1, 2, 4, 8, 16, 32, 64, 128, 256, 512", Err: ErrOutOfRange,
		}
	}
	step := Length{pmPerInch / int64(den)}
	rounded, err := l.Round(step, Nearest)
	if err != nil {
		return Fraction{}, err
	}
	num := int(rounded.pm / step.pm)
	for den > 1 && num%2 == 0 {
		num, den = num/2, den/2
	}
	return Fraction{Num: num, Den: den, Rest: l.Sub(rounded)}, nil
}

// Length returns the exact length of the fraction, without the rest. A fraction
// without a lower number above zero, other than the zero value, and one beyond
// 1 km are an [*ArgumentError].
func (f Fraction) Length() (Length, error) {
	if f.Den <= 0 && (f.Num != 0 || f.Den != 0) {
		return Length{}, &ArgumentError{
			Package: "units", Field: "lower number of the fraction", Value: strconv.Itoa(f.Den),
			Accepted: "above zero", Err: ErrOutOfRange,
		}
	}
	return Inches.Of(float64(f.Num) / float64(max(f.Den, 1)))
}

// String returns the fraction as it stands on a drawing, with what it leaves over:
// "1 3/8 in", "-1/64 in", "2 in", "1 1/8 in less 0.075 mm", "25/64 in and
// 0.078125 mm". Without a rest it reads back with [ParseLength].
func (f Fraction) String() string {
	text := f.inch()
	switch f.Rest.Sign() {
	case -1:
		return text + " less " + f.Rest.text(true)
	case +1:
		return text + " and " + f.Rest.String()
	}
	return text
}

// inch is the fraction without the rest.
func (f Fraction) inch() string {
	if f.Den <= 0 && (f.Num != 0 || f.Den != 0) {
		return fmt.Sprintf("%d/%d in", f.Num, f.Den)
	}
	num, den, sign := uint64(f.Num), uint64(max(f.Den, 1)), ""
	if f.Num < 0 {
		num, sign = -num, "-"
	}
	whole, part := num/den, num%den
	switch {
	case part == 0:
		return fmt.Sprintf("%s%d in", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d in", sign, part, den)
	}
	return fmt.Sprintf("%s%d %d/%d in", sign, whole, part, den)
}
