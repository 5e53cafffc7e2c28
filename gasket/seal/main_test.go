package seal

import (
	"errors"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
)

// A bad cell fails the tests by file and line, before one of them stumbles on it.
func TestMain(m *testing.M) {
	check.Main(m, func() error {
		return errors.Join(bad(&rings), bad(&grooves), bad(&limits.table), bad(&factors.table), bad(&sheets.table), bad(&pressed.table))
	})
}

// bad returns what is wrong with a table.
func bad[T any](t *table.Table[T]) error {
	_, _, err := table.Read(files, t.Name, t.Row)
	return err
}
