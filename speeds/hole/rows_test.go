package hole

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// A row that cannot be is refused by its reader, on both sides of what is accepted.
func TestRows(t *testing.T) {
	check.Cells(t, tables, "reaming", readReaming, "size_low", []string{"5", "6"}, []string{"4.999"})
	check.Cells(t, tables, "reaming", readReaming, "low", []string{"0", "-0.1", "0.201"}, []string{"0.000000001", "0.2"})
	check.Cells(t, tables, "reaming", readReaming, "default", []string{"no"}, []string{""})
	check.Cells(t, tables, "drill_points", readPoint, "materials", []string{"steel"}, []string{"brass;; cork"})
	check.Cells(t, tables, "drill_points", readPoint, "point", []string{"x"}, nil)
	check.Cells(t, tables, "drilled_holes", readDrilled, "plus", []string{"x"}, []string{"0"})
}
