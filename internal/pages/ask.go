package pages

import (
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("pages")

// lengthOf returns the length that a flag gave, which is above zero; zero where
// the flag was not given.
func lengthOf(flag, field string, l *units.Length) (units.Length, error) {
	if l == nil {
		return units.Length{}, nil
	}
	return *l, cli.Named(flag, fail.Above(fault.Named(field, *l)))
}
