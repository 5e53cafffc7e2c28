package eccentric

import (
	"errors"
	"math"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Rod is the length of a rod between centres, or an infinitely long one, which
// has no slant and makes both ends of the cylinder alike. The zero value is no
// rod, which [Gear.Validate] refuses: an infinite one must be asked for.
type Rod struct {
	length   units.Length
	infinite bool
}

// RodOf returns the rod of that length.
func RodOf(length units.Length) Rod { return Rod{length: length} }

// InfiniteRod returns the infinitely long rod of the textbooks.
func InfiniteRod() Rod { return Rod{infinite: true} }

// Length returns the length of the rod; false if it is infinite.
func (r Rod) Length() (units.Length, bool) { return r.length, !r.infinite }

// Infinite reports whether the rod is infinitely long.
func (r Rod) Infinite() bool { return r.infinite }

// IsZero reports whether there is no rod, neither a length nor an infinite one.
func (r Rod) IsZero() bool { return r == Rod{} }

const (
	infinite    = "infinite"
	rodAccepted = `a length above zero, or "` + infinite + `"`
)

// String returns the length with its unit, "infinite", or for no rod "none".
func (r Rod) String() string {
	switch {
	case r.infinite:
		return infinite
	case r.IsZero():
		return "none"
	}
	return r.length.String()
}

// ParseRod reads a length above zero with its unit, or the word infinite.
// Anything else is a [*units.ParseError].
func ParseRod(text string) (Rod, error) {
	if strings.EqualFold(strings.TrimSpace(text), infinite) {
		return InfiniteRod(), nil
	}
	l, err := units.ParseLength(text)
	if bad := (*units.ParseError)(nil); errors.As(err, &bad) {
		return Rod{}, fail.Text("rod", text, bad.Problem, bad.Accepted+`; or "`+infinite+`"`, bad.Err)
	}
	if l.Sign() <= 0 {
		return Rod{}, fail.Text("rod", text, "", rodAccepted, units.ErrOutOfRange)
	}
	return RodOf(l), nil
}

// MarshalText implements [encoding.TextMarshaler]; no rod has blank text.
func (r Rod) MarshalText() ([]byte, error) {
	if r.IsZero() {
		return nil, nil
	}
	return []byte(r.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (r *Rod) UnmarshalText(text []byte) error {
	rod := Rod{}
	if len(text) > 0 {
		var err error
		if rod, err = ParseRod(string(text)); err != nil {
			return err
		}
	}
	*r = rod
	return nil
}

// GobEncode implements [gob.GobEncoder] with [Rod.MarshalText].
func (r Rod) GobEncode() ([]byte, error) { return r.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Rod.UnmarshalText].
func (r *Rod) GobDecode(text []byte) error { return r.UnmarshalText(text) }

// count returns the length in picometres, infinity for an infinite rod and zero
// for none.
func (r Rod) count() float64 {
	if r.infinite {
		return math.Inf(1)
	}
	return count(r.length)
}
