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

// positive refuses what is not a finite quantity above zero.
func positive[Q interface {
	~float64
	String() string
}](field string, v Q) error {
	switch {
	case math.IsNaN(float64(v)) || math.IsInf(float64(v), 0):
		return bad(field, fmt.Sprint(float64(v)), "", "a finite number above zero", units.ErrNotFinite)
	case v <= 0:
		return bad(field, v.String(), "", "above zero", units.ErrOutOfRange)
	}
	return nil
}
