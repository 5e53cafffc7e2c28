package cutting

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
		{"kienzle", "kc11", "0", reader(t, readKienzle), true},
		{"kienzle", "kc11", "-1", reader(t, readKienzle), true},
		{"kienzle", "kc11", "0.0000000001", reader(t, readKienzle), false},
		{"kienzle", "kc11", "0.5", reader(t, readKienzle), false},
		{"kienzle", "exponent", "0", reader(t, readKienzle), true},
		{"kienzle", "exponent", "0.001", reader(t, readKienzle), false},
		{"kienzle", "exponent", "0.999", reader(t, readKienzle), false},
		{"kienzle", "exponent", "1", reader(t, readKienzle), true},
		{"kienzle", "exponent", "1.5", reader(t, readKienzle), true},
		{"kienzle", "materials", "mild steel; cheese", reader(t, readKienzle), true},
		{"kienzle", "materials", "steel", reader(t, readKienzle), true},
		{"kienzle", "materials", ";; mild steel;", reader(t, readKienzle), false},
		{"force_at_feed", "feed", "0", reader(t, readForce), true},
		{"force_at_feed", "feed", "-0.1", reader(t, readForce), true},
		{"force_at_feed", "feed", "0.000000001", reader(t, readForce), false},
		{"force_at_feed", "kc", "0", reader(t, readForce), true},
		{"force_at_feed", "kc", "-1", reader(t, readForce), true},
		{"force_at_feed", "kc", "0.0000000001", reader(t, readForce), false},
		{"unit_power", "kp", "0", reader(t, readPower), true},
		{"unit_power", "kp", "-1", reader(t, readPower), true},
		{"unit_power", "kp", "0.0000000000001", reader(t, readPower), false},
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
