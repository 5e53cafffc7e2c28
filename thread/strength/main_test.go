package strength

import (
	"fmt"
	"os"
	"testing"
)

// A bad cell fails the tests by file and line, before one of them stumbles on it.
func TestMain(m *testing.M) {
	readTables()
	os.Exit(m.Run())
}

func readTables() {
	defer func() {
		if problem := recover(); problem != nil {
			fmt.Println("--- FAIL:", problem)
			os.Exit(1)
		}
	}()
	classes.Rows()
	scatters.Rows()
	nutFactorRows.Rows()
	tappedGrades.Rows()
}
