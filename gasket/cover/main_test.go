package cover

import (
	"fmt"
	"os"
	"testing"

	"github.com/valvechest/valvechest/internal/table"
)

// A bad cell fails the tests by file and line, before one of them stumbles on it.
func TestMain(m *testing.M) {
	if _, _, err := table.Read(files, practices.Name, practices.Row); err != nil {
		fmt.Println("--- FAIL:", err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}
