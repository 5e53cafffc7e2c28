package cutting

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
)

func bad(field, value, problem, accepted string, err error) error {
	return &units.ArgumentError{Package: "cutting", Field: field, Value: value, Problem: problem, Accepted: accepted, Err: err}
}

// a length that must be above zero, by the name that a reader knows it by
type named struct {
	field string
	value units.Length
}

func above(all ...named) error {
	for _, n := range all {
		if n.value.Sign() <= 0 {
			return bad(n.field, n.value.String(), "", "above zero", units.ErrOutOfRange)
		}
	}
	return nil
}

func positive(field string, v float64, text fmt.Stringer) error {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return bad(field, fmt.Sprint(v), "", "a finite number above zero", units.ErrNotFinite)
	case v <= 0:
		return bad(field, text.String(), "", "above zero", units.ErrOutOfRange)
	}
	return nil
}
