package fits

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// parseSized reads a nominal size, in millimetres unless it has a unit, and
// what parse reads behind it.
func parseSized[T any](s, field, examples string, parse func(string) (T, error)) (nominal units.Length, v T, err error) {
	text := strings.TrimSpace(s)
	for i := range len(text) {
		v, err = parse(text[i:])
		if err != nil {
			continue
		}
		size := strings.TrimSpace(text[:i])
		if nominal, err = units.ParseLength(size); err != nil {
			nominal, err = units.ParseLength(size + " mm")
		}
		if err == nil {
			return nominal, v, nil
		}
		break
	}
	var none T
	return units.Length{}, none, &units.ArgumentError{Package: "fits", Field: field, Value: quoted(s), Problem: "cannot be read", Accepted: "a size in millimetres, or with its unit, and a class or fit behind it, such as " + examples, Err: units.ErrSyntax}
}

// quoted returns text for an error message, cut short if need be.
func quoted(s string) string {
	if len(s) > 40 {
		return fmt.Sprintf("%q...", s[:40])
	}
	return fmt.Sprintf("%q", s)
}

func list(names []string) string { return strings.Join(names, ", ") }

// unmarshal sets *p to what parse makes of text, or leaves it as it was.
func unmarshal[T any](p *T, parse func(string) (T, error), text []byte) error {
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

// plain returns a number without an exponent where that stays readable.
func plain(v float64) string { return fmt.Sprintf("%.6g", v) }
