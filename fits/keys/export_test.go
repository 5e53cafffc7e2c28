package keys

import (
	"errors"

	"github.com/valvechest/valvechest/internal/table"
)

// Files are the tables, for the test of their headers.
var Files = &files

// ReadTables reads every table as its first use does.
func ReadTables() error {
	_, _, err := table.Read(files, keyTable.Name, readKey)
	_, _, errPins := table.Read(files, pinTable.Name, readPin)
	_, _, errPoints := table.Read(files, pointTable.Name, readPoint)
	return errors.Join(err, errPins, errPoints)
}
