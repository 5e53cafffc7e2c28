package thread

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// A bad cell fails the tests by file and line, before one of them stumbles on it.
func TestMain(m *testing.M) {
	check.Main(m, func() error {
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
		return nil
	})
}
