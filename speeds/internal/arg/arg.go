// Package arg refuses arguments that make no sense, for package speeds and those
// below it.
package arg

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
)

// A Quantity is a quantity of package units other than a length.
type Quantity interface {
	~float64
	String() string
}

// The span of the quantities that a workshop can mean, in SI units. Within it no
// product or quotient of these packages overflows.
const (
	least = 1e-15
	most  = 1e15
)

// Positive returns an [*units.ArgumentError] for a quantity that is not finite,
// not above zero, or so large or small that nobody means it.
func Positive[Q Quantity](pkg, field string, v Q) error {
	switch x := float64(v); {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return Bad(pkg, field, fmt.Sprint(x), "", "a finite number above zero", units.ErrNotFinite)
	case x <= 0:
		return Bad(pkg, field, v.String(), "", "above zero", units.ErrOutOfRange)
	case x < least || x > most:
		return Bad(pkg, field, fmt.Sprintf("%g in SI units", x), "", "1e-15 to 1e15", units.ErrOutOfRange)
	}
	return nil
}

const furthest = 1e15 // 1 km in picometres

// A Length is a length with the name that a reader knows it by.
type Length struct {
	field string
	value units.Length
}

// Named returns the length v by the name field.
func Named(field string, v units.Length) Length { return Length{field, v} }

// Above returns an [*units.ArgumentError] for the first length that is not above
// zero, or is beyond 1 km, where sums and products of lengths might not hold.
func Above(pkg string, all ...Length) error {
	for _, l := range all {
		switch {
		case l.value.Sign() <= 0:
			return Bad(pkg, l.field, l.value.String(), "", "above zero", units.ErrOutOfRange)
		case l.value.Picometres() > furthest:
			return Bad(pkg, l.field, l.value.String(), "", "up to 1 km", units.ErrOutOfRange)
		}
	}
	return nil
}

// Within returns an [*units.ArgumentError] for the first length that is beyond 1
// km either way.
func Within(pkg string, all ...Length) error {
	for _, l := range all {
		if pm := l.value.Picometres(); pm > furthest || pm < -furthest {
			return Bad(pkg, l.field, l.value.String(), "", "from -1 km to 1 km", units.ErrOutOfRange)
		}
	}
	return nil
}

// Bad returns an [*units.ArgumentError].
func Bad(pkg, field, value, problem, accepted string, err error) error {
	return &units.ArgumentError{Package: pkg, Field: field, Value: value, Problem: problem, Accepted: accepted, Err: err}
}
