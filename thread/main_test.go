package thread

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
	catalogue()
	isoTables()
	charts.Rows()
	depths.Rows()
	clearanceISO273.Rows()
	clearanceBS4186.Rows()
	hexagonsISO.Rows()
	hexagonsBS.Rows()
	hexagonsASME.Rows()
	trapezoidalScrews.Rows()
	trapezoidalNuts.Rows()
	acmeAllowances.Rows()
	nutHeights.Rows()
	pipeInternals.Rows()
	pipeDrills.Rows()
	pipeGauges.Rows()
}
