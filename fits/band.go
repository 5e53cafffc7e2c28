package fits

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Band is a length at both ends, such as the clearance that is wanted.
// Clearance below zero is interference.
type Band struct{ Min, Max units.Length }

// Contains reports whether a length is within the band, its ends included.
func (b Band) Contains(l units.Length) bool { return l.Cmp(b.Min) >= 0 && l.Cmp(b.Max) <= 0 }

// Validate returns an error for a band the wrong way round.
func (b Band) Validate() error { return b.validate("band") }

func (b Band) validate(field string) error {
	if b.Min.Cmp(b.Max) <= 0 {
		return fail.Within(fault.Named(field, b.Min), fault.Named(field, b.Max))
	}
	return fail.Wrong(field, b.Min.String()+" to "+b.Max.String(), "the wrong way round",
		"the least first; interference is below zero")
}
