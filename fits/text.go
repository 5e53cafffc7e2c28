package fits

import (
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("fits")

// parseSized reads a nominal size, in millimetres unless it has a unit, and
// what parse reads behind it. A diameter sign in front is passed over.
func parseSized[T any](s, what, examples string, parse func(string) (T, error)) (nominal units.Length, v T, err error) {
	text := strings.TrimSpace(s)
	for _, sign := range []string{"\u2300", "\u00d8", "\u00f8"} { // the diameter sign, and letters that stand for it
		text = strings.TrimPrefix(text, sign)
	}
	var problem error                       // with what is behind the longest size
	for i := range min(len(text), 60) + 1 { // no size is longer
		size, errSize := sizeOf(text[:i])
		v, err = parse(text[i:])
		switch {
		case err == nil && errSize == nil:
			return size, v, nil
		case errSize == nil:
			if problem = nil; startsWithLetter(text[i:]) {
				problem = err
			}
		}
	}
	var none T
	if problem != nil {
		return units.Length{}, none, problem
	}
	return units.Length{}, none, fail.Unreadable(what, s, "",
		"a size in millimetres, or with its unit, and a class or fit behind it, such as "+examples)
}

func startsWithLetter(s string) bool {
	s = strings.TrimSpace(s)
	return s != "" && (s[0] >= 'A' && s[0] <= 'Z' || s[0] >= 'a' && s[0] <= 'z')
}

// sizeOf reads a length, in millimetres unless it has a unit.
func sizeOf(text string) (units.Length, error) {
	text = strings.TrimSpace(text)
	l, err := units.ParseLength(text)
	if err != nil {
		l, err = units.ParseLength(text + " mm")
	}
	return l, err
}

// unmarshal sets *p to what parse makes of text, to its zero value where there
// is none, or leaves it as it was.
func unmarshal[T any](p *T, parse func(string) (T, error), text []byte) error {
	if len(text) == 0 {
		var none T
		*p = none
		return nil
	}
	v, err := parse(string(text))
	if err == nil {
		*p = v
	}
	return err
}

// both returns a length as the two halves of the trade read it.
func both(l units.Length) string {
	return l.Decimal(units.Millimetres, 3) + " mm (" + l.Decimal(units.Thousandths, 2) + " thou)"
}

// bothEnds returns a range of lengths so.
func bothEnds(least, most units.Length) string {
	mm, thou := units.Millimetres, units.Thousandths
	return least.Decimal(mm, 3) + " to " + most.Decimal(mm, 3) + " mm (" +
		least.Decimal(thou, 2) + " to " + most.Decimal(thou, 2) + " thou)"
}

func longest(a, b units.Length) units.Length {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}

func shortest(a, b units.Length) units.Length {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}
