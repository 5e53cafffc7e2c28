package assembly

import (
	"errors"

	"github.com/valvechest/valvechest/internal/table"
)

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// ReadTables reads every table as its first use does.
func ReadTables() error {
	_, _, err := table.Read(tables, frictions.Name, readFriction)
	_, _, errScrews := table.Read(tables, setScrews.Name, readSetScrew)
	return errors.Join(err, errScrews)
}
