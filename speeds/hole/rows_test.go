package hole

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
		{"reaming", "size_low", "5", reader(t, readReaming), true},
		{"reaming", "size_low", "4.999", reader(t, readReaming), false},
		{"reaming", "size_low", "6", reader(t, readReaming), true},
		{"reaming", "low", "0", reader(t, readReaming), true},
		{"reaming", "low", "-0.1", reader(t, readReaming), true},
		{"reaming", "low", "0.000000001", reader(t, readReaming), false},
		{"reaming", "low", "0.2", reader(t, readReaming), false},
		{"reaming", "low", "0.201", reader(t, readReaming), true},
		{"reaming", "default", "no", reader(t, readReaming), true},
		{"reaming", "default", "", reader(t, readReaming), false},
		{"drill_points", "materials", "steel", reader(t, readPoint), true},
		{"drill_points", "materials", "brass;; cork", reader(t, readPoint), false},
		{"drill_points", "point", "x", reader(t, readPoint), true},
		{"drilled_holes", "plus", "x", reader(t, readDrilled), true},
		{"drilled_holes", "plus", "0", reader(t, readDrilled), false},
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
