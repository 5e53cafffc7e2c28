package material

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/table"
)

// A row that cannot be is refused by its reader, on both sides of what is accepted.
func TestRows(t *testing.T) {
	for _, tt := range []struct {
		column, cell string
		refused      bool
	}{
		{"value", "0", true}, {"value", "-1", true}, {"value", "0.001", false}, {"value", "", true}, {"low", "7000", true},
	} {
		const name = "tables/density.csv"
		if _, _, err := table.Read(check.WithCell(t, tables, name, tt.column, tt.cell), name, readFigure); (err != nil) != tt.refused {
			t.Errorf("%s of %q: %v", tt.column, tt.cell, err)
		}
	}
}
