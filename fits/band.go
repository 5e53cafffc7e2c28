package fits

import "github.com/valvechest/valvechest/units"

// A Band is a length at both ends, such as the clearance that is wanted.
// Clearance below zero is interference.
type Band struct{ Low, High units.Length }

// A Range is a quantity at both ends.
type Range[Q ~float64] struct{ Low, High Q }

// check refuses a band the wrong way round.
func (b Band) check(field string) error {
	if b.Low.Cmp(b.High) <= 0 {
		return nil
	}
	return &units.ArgumentError{Package: "fits", Field: field, Value: b.Low.String() + " to " + b.High.String(), Problem: "the wrong way round", Accepted: "the least first; interference is below zero", Err: units.ErrOutOfRange}
}
