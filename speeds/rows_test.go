package speeds

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
)

// A row that cannot be is refused by its reader, on both sides of what is accepted.
func TestRows(t *testing.T) {
	for _, tt := range []struct {
		name, column, cell string
		read               func(name, column, cell string) error
		refused            bool
	}{
		{"cutting_speeds", "low", "0", reader(t, readSpeed), true},
		{"cutting_speeds", "low", "-1", reader(t, readSpeed), true},
		{"cutting_speeds", "low", "0.1", reader(t, readSpeed), false},
		{"cutting_speeds", "low", "110", reader(t, readSpeed), false},
		{"cutting_speeds", "low", "110.1", reader(t, readSpeed), true},
		{"cutting_speeds", "unit", "furlong", reader(t, readSpeed), true},
		{"cutting_speeds", "default", "steel", reader(t, readSpeed), true},
		{"cutting_speeds", "default", "", reader(t, readSpeed), false},
		{"cutting_speeds", "operation", "turnin", reader(t, readSpeed), true},
		{"cutting_speeds", "operation", "any", reader(t, readSpeed), false},
		{"cutting_speeds", "operation", "turning; facing", reader(t, readSpeed), false},
		{"feeds", "low", "0", reader(t, readFeed), true},
		{"feeds", "low", "-0.1", reader(t, readFeed), true},
		{"feeds", "low", "0.0000001", reader(t, readFeed), false},
		{"feeds", "low", "0.002", reader(t, readFeed), false},
		{"feeds", "low", "0.0021", reader(t, readFeed), true},
		{"feeds", "per", "day", reader(t, readFeed), true},
		{"feeds", "per", "tooth", reader(t, readFeed), false},
		{"feeds", "size_unit", "", reader(t, readFeed), true},
		{"feeds", "size_high", "", reader(t, readFeed), false},
		{"feeds", "size_high", "x", reader(t, readFeed), true},
		{"feeds", "default", "no", reader(t, readFeed), true},
		{"feeds", "default", "", reader(t, readFeed), false},
		{"operation_ratios", "low", "0", reader(t, readOperationRatio), true},
		{"operation_ratios", "low", "-1", reader(t, readOperationRatio), true},
		{"operation_ratios", "low", "0.001", reader(t, readOperationRatio), false},
		{"operation_ratios", "low", "1.001", reader(t, readOperationRatio), true},
		{"operation_ratios", "high", "0.999", reader(t, readOperationRatio), true},
		{"operation_ratios", "high", "2", reader(t, readOperationRatio), false},
		{"operation_ratios", "default", "y", reader(t, readOperationRatio), true},
		{"preferred_numbers", "index", "-1", reader(t, readPreferred), true},
		{"preferred_numbers", "index", "1", reader(t, readPreferred), true},
		{"preferred_numbers", "index", "39", reader(t, readPreferred), true},
		{"preferred_numbers", "index", "40", reader(t, readPreferred), true},
		{"preferred_numbers", "rounded", "1.0126", reader(t, readPreferred), false},
		{"preferred_numbers", "rounded", "1.0128", reader(t, readPreferred), true},
		{"preferred_numbers", "rounded", "0.9874", reader(t, readPreferred), false},
		{"preferred_numbers", "rounded", "0.9872", reader(t, readPreferred), true},
		{"advice", "kind", "chip", reader(t, readAdvice), true},
		{"advice", "kind", "chips", reader(t, readAdvice), false},
		{"advice", "kind", "speed", reader(t, readAdvice), false},
		{"advice", "materials", "any", reader(t, readAdvice), false},
		{"advice", "materials", "steel", reader(t, readAdvice), true},
		{"advice", "tool", "HSS; carbide", reader(t, readAdvice), false},
	} {
		if err := tt.read(tt.name, tt.column, tt.cell); (err != nil) != tt.refused {
			t.Errorf("%s: %s of %q: %v", tt.name, tt.column, tt.cell, err)
		}
	}
}

// reader reads a table with another cell in its first row.
func reader[T any](t *testing.T, row func(*table.Row) T) func(name, column, cell string) error {
	return func(name, column, cell string) error {
		_, _, err := table.Read(check.WithCell(t, tables, "tables/"+name+".csv", column, cell), "tables/"+name+".csv", row)
		return err
	}
}
