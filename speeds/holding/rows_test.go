package holding

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
		{"rim_limits", "limit", "0", reader(t, readRim), true},
		{"rim_limits", "limit", "-1", reader(t, readRim), true},
		{"rim_limits", "limit", "0.001", reader(t, readRim), false},
		{"rim_limits", "default", "no", reader(t, readRim), true},
		{"rim_limits", "default", "yes", reader(t, readRim), false},
		{"rim_limits", "default", "", reader(t, readRim), false},
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
