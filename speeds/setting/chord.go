package setting

import (
	"math"
	"strconv"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// Chord returns the straight distance between neighbours of n points spaced
// evenly on a circle, what dividers are set to:
//
//	c = d * sin(180 degrees / n)
//
// for n from 2 to 10,000. See the Example.
func Chord(diameter units.Length, n int) (units.Length, error) {
	return ChordAcross(diameter, n, 1)
}

// ChordAcross returns the distance between a point and the one k places on:
//
//	c = d * sin(180 degrees * k / n)
//
// k is 1 to n - 1; other limits as for [Chord]. See its Example.
func ChordAcross(diameter units.Length, n, k int) (units.Length, error) {
	if err := fail.Above(fault.Named("diameter", diameter)); err != nil {
		return units.Length{}, err
	}
	if n < 2 || n > 10_000 {
		return units.Length{}, fail.OutOfRange("number of points", n, "2 to 10,000")
	}
	if k < 1 || k >= n {
		return units.Length{}, fail.OutOfRange("places on", k, "1 to "+strconv.Itoa(n-1))
	}
	return diameter.Scale(math.Sin(math.Pi * float64(k) / float64(n))), nil // c = d sin(180 deg k/n)
}
