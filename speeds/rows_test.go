package speeds

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// A row that cannot be is refused by its reader, on both sides of what is accepted.
func TestRows(t *testing.T) {
	check.Cells(t, tables, "cutting_speeds", readSpeed, "low", []string{"0", "-1", "110.1"}, []string{"0.1", "110"})
	check.Cells(t, tables, "cutting_speeds", readSpeed, "unit", []string{"furlong"}, nil)
	check.Cells(t, tables, "cutting_speeds", readSpeed, "default", []string{"steel"}, []string{""})
	check.Cells(t, tables, "cutting_speeds", readSpeed, "operation", []string{"turnin"}, []string{"any", "turning; facing"})
	check.Cells(t, tables, "feeds", readFeed, "low", []string{"0", "-0.1", "0.0021"}, []string{"0.0000001", "0.002"})
	check.Cells(t, tables, "feeds", readFeed, "per", []string{"day"}, []string{"tooth"})
	check.Cells(t, tables, "feeds", readFeed, "size_unit", []string{""}, nil)
	check.Cells(t, tables, "feeds", readFeed, "size_high", []string{"x"}, []string{""})
	check.Cells(t, tables, "feeds", readFeed, "default", []string{"no"}, []string{""})
	check.Cells(t, tables, "operation_ratios", readOperationRatio, "low", []string{"0", "-1", "1.001"}, []string{"0.001"})
	check.Cells(t, tables, "operation_ratios", readOperationRatio, "high", []string{"0.999"}, []string{"2"})
	check.Cells(t, tables, "operation_ratios", readOperationRatio, "default", []string{"y"}, nil)
	check.Cells(t, tables, "preferred_numbers", readPreferred, "index", []string{"-1", "1", "39", "40"}, nil)
	check.Cells(t, tables, "preferred_numbers", readPreferred, "rounded", []string{"1.0128", "0.9872"}, []string{"1.0126", "0.9874"})
	check.Cells(t, tables, "advice", readAdvice, "kind", []string{"chip"}, []string{"chips", "speed"})
	check.Cells(t, tables, "advice", readAdvice, "materials", []string{"steel"}, []string{"any"})
	check.Cells(t, tables, "advice", readAdvice, "tool", nil, []string{"HSS; carbide"})
}
