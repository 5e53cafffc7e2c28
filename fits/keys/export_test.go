package keys

import (
	"errors"
	"io/fs"

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

// ReadKeyRows reads a table of keys from other files.
func ReadKeyRows(files fs.FS, name string) error {
	_, _, err := table.Read(files, name, readKey)
	return err
}

// ReadPointRows reads a table of cup points from other files.
func ReadPointRows(files fs.FS, name string) error {
	_, _, err := table.Read(files, name, readPoint)
	return err
}
