package pages

import (
	"errors"

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

// flagged names the flag behind an argument that a package of the library refused,
// by what the package calls it.
func flagged(err error, flags map[string]string) error {
	var bad *units.ArgumentError
	if errors.As(err, &bad) && flags[bad.Field] != "" {
		return cli.Named(flags[bad.Field], err)
	}
	return err
}
