package holding

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// A bad cell fails the tests by file and line, before one of them stumbles on it.
func TestMain(m *testing.M) {
	check.Main(m, func() error {
		rimTable.Rows()
		return nil
	})
}
