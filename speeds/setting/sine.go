package setting

import (
	"math"
	"strconv"

	"github.com/valvechest/valvechest/speeds/internal/arg"
	"github.com/valvechest/valvechest/units"
)

// SineBar returns the height of the gauge blocks under one roller of a sine bar:
//
//	h = L sin(a)
//
// with L the distance of the rollers. Angles from 0 to 60 degrees; above 45 a
// small error of the stack is a large one of the angle: turn the work through
// the complement where that can be done. Another angle, and a bar that is not
// above zero, are an [*units.ArgumentError].
func SineBar(rollers units.Length, angle units.Angle) (units.Length, error) {
	if err := above(arg.Named("distance of the rollers", rollers)); err != nil {
		return units.Length{}, err
	}
	if !(angle >= 0 && angle <= 60*units.Degree) {
		return units.Length{}, bad("angle", angle.String(), "", "0 to 60 degrees", units.ErrOutOfRange)
	}
	return rollers.Scale(math.Sin(angle.Radians())), nil
}

// SineBarAngle returns the angle that a stack under a sine bar gives, the
// inverse of [SineBar]. A stack below zero or above sin(60 degrees) of the bar
// is an [*units.ArgumentError].
func SineBarAngle(rollers, stack units.Length) (units.Angle, error) {
	if err := above(arg.Named("distance of the rollers", rollers)); err != nil {
		return 0, err
	}
	ratio := stack.Ratio(rollers)
	if !(ratio >= 0 && ratio <= math.Sin(60*units.Degree.Radians())*(1+1e-12)) {
		return 0, bad("stack", stack.String(), "", "zero up to 0.866 of the distance of the rollers", units.ErrOutOfRange)
	}
	return units.Angle(math.Asin(ratio)), nil
}

// Chord returns the straight distance between neighbours of n points spaced
// evenly on a circle, what dividers are set to:
//
//	c = d sin(180 degrees / n)
//
// for n from 2 to 10,000. Another number, and a diameter that is not above
// zero, are an [*units.ArgumentError].
func Chord(diameter units.Length, n int) (units.Length, error) {
	return ChordAcross(diameter, n, 1)
}

// ChordAcross returns the distance between a point and the one k places on:
//
//	c = d sin(180 degrees k / n)
//
// k is 1 to n - 1; other limits as for [Chord].
func ChordAcross(diameter units.Length, n, k int) (units.Length, error) {
	if err := above(arg.Named("diameter", diameter)); err != nil {
		return units.Length{}, err
	}
	if n < 2 || n > 10_000 {
		return units.Length{}, bad("number of points", strconv.Itoa(n), "", "2 to 10,000", units.ErrOutOfRange)
	}
	if k < 1 || k >= n {
		return units.Length{}, bad("places on", strconv.Itoa(k), "", "1 to "+strconv.Itoa(n-1), units.ErrOutOfRange)
	}
	return diameter.Scale(math.Sin(math.Pi * float64(k) / float64(n))), nil
}
