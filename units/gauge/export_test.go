package gauge

import (
	"errors"
	"io/fs"

	"github.com/valvechest/valvechest/internal/table"
)

// ReadTables reads the shipped tables as their first use does.
func ReadTables() error {
	names, err := fs.Glob(&tables, "tables/*.csv")
	for _, name := range names {
		_, _, bad := table.Read(&tables, name, readSize("", ""))
		err = errors.Join(err, bad)
	}
	return err
}
