// Package fault makes the errors that the packages of this module return, in
// one voice. A package declares itself once,
//
//	const fail = fault.Package("fits")
//
// and says what was wrong, with which value, and what is accepted:
//
//	return fail.OutOfRange("nominal size", d, "above 0 up to 3150 mm")
package fault

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"github.com/valvechest/valvechest/units"
)

// A Package is the package that refuses, by the name that its errors begin with.
type Package string

// OutOfRange returns the error for a value that is not within what is accepted.
func (p Package) OutOfRange(field string, value any, accepted string) error {
	return p.argument(field, value, "", accepted, units.ErrOutOfRange)
}

// Wrong is [Package.OutOfRange] for a value with which more is wrong than its
// size; problem says what.
func (p Package) Wrong(field string, value any, problem, accepted string) error {
	return p.argument(field, value, problem, accepted, units.ErrOutOfRange)
}

// NotFinite returns the error for a number that is infinite or none.
func (p Package) NotFinite(field string, value any) error {
	return p.argument(field, value, "", "finite numbers", units.ErrNotFinite)
}

// Missing returns the error for an argument that was left out.
func (p Package) Missing(field, accepted string) error {
	return p.argument(field, nil, "", accepted, units.ErrMissing)
}

// Unknown returns the error for a value that a table or an enumeration does not
// have. For text that names nothing there is [Package.UnknownName].
func (p Package) Unknown(field string, value any, accepted string) error {
	return p.argument(field, value, "", accepted, units.ErrUnknown)
}

// Argument returns the error with every word given; the methods above say the
// usual ones.
func (p Package) Argument(field string, value any, problem, accepted string, kind error) error {
	return p.argument(field, value, problem, accepted, kind)
}

func (p Package) argument(field string, value any, problem, accepted string, kind error) error {
	return &units.ArgumentError{
		Package: string(p), Field: field, Value: text(value), Problem: problem, Accepted: accepted, Err: kind,
	}
}

// Unreadable returns the error for text that cannot be read as what is wanted.
func (p Package) Unreadable(what, text, problem, accepted string) error {
	return p.Text(what, text, problem, accepted, units.ErrSyntax)
}

// UnknownName returns the error for text that names nothing, with the names that
// come near or, where none does, those that are accepted.
func (p Package) UnknownName(what, text, accepted string, near ...string) error {
	return p.Text(what, text, "", accepted, units.ErrUnknown, near...)
}

// Text returns the error for text with every word given.
func (p Package) Text(what, text, problem, accepted string, kind error, near ...string) error {
	return &units.ParseError{
		Package: string(p), What: what, Text: text, Problem: problem, Accepted: accepted, Near: near, Err: kind,
	}
}

// text returns a value as an error shows it: a quantity with its unit, a plain
// number as Go writes it, and nothing for nil.
func text(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case string:
		return v
	case int:
		return strconv.Itoa(v)
	case float64:
		return strconv.FormatFloat(v, 'g', 6, 64)
	}
	return fmt.Sprint(value)
}

// A Quantity is a quantity of package units other than a length.
type Quantity interface {
	~float64
	String() string
}

// The span of the quantities that a workshop can mean, in SI units. Within it
// no product or quotient of a few of them overflows.
const (
	least = 1e-15
	most  = 1e15
)

// Positive returns an error for a quantity that is not finite, not above zero,
// or so large or small that nobody means it.
func Positive[Q Quantity](p Package, field string, v Q) error {
	switch x := float64(v); {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return p.Argument(field, x, "", "a finite number above zero", units.ErrNotFinite)
	case x <= 0:
		return p.OutOfRange(field, v, "above zero")
	case x < least || x > most:
		return p.OutOfRange(field, fmt.Sprintf("%g in SI units", x), "1e-15 to 1e15")
	}
	return nil
}

// Finite returns an error for a number that is infinite or none.
func Finite[F ~float64](p Package, field string, v F) error {
	if x := float64(v); math.IsNaN(x) || math.IsInf(x, 0) {
		return p.NotFinite(field, x)
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

// Above returns an error for the first length that is not above zero, or is
// beyond 1 km, where sums and products of lengths might not hold.
func (p Package) Above(all ...Length) error {
	for _, l := range all {
		switch {
		case l.value.Sign() <= 0:
			return p.OutOfRange(l.field, l.value, "above zero")
		case l.value.Picometres() > furthest:
			return p.OutOfRange(l.field, l.value, "up to 1 km")
		}
	}
	return nil
}

// Within returns an error for the first length that is beyond 1 km either way.
func (p Package) Within(all ...Length) error {
	for _, l := range all {
		if pm := l.value.Picometres(); pm > furthest || pm < -furthest {
			return p.OutOfRange(l.field, l.value, "from -1 km to 1 km")
		}
	}
	return nil
}

// Of returns an error about a part of something larger with the name of the
// part in front of the argument's; another error stays as it is.
func Of(part string, err error) error {
	var bad *units.ArgumentError
	if !errors.As(err, &bad) {
		return err
	}
	named := *bad
	named.Field = part + ", " + bad.Field
	return &named
}
