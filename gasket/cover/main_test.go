package cover

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
)

// A bad cell fails the tests by file and line, before one of them stumbles on it.
func TestMain(m *testing.M) {
	check.Main(m, func() error {
		_, _, err := table.Read(files, practices.Name, practices.Row)
		return err
	})
}
