package gasket

import (
	"errors"
	"math"

	"github.com/valvechest/valvechest/units"
)

func outOfRange(field, value, accepted string) error {
	return &units.ArgumentError{Package: "gasket", Field: field, Value: value, Accepted: accepted, Err: units.ErrOutOfRange}
}

func notFinite(field string) error {
	return &units.ArgumentError{Package: "gasket", Field: field, Accepted: "finite numbers", Err: units.ErrNotFinite}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// of returns an error about a part of something larger with its name.
func of(part string, err error) error {
	var bad *units.ArgumentError
	if !errors.As(err, &bad) {
		return err
	}
	named := *bad
	named.Field = part + ", " + bad.Field
	return &named
}
