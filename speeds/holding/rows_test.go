package holding

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// A row that cannot be is refused by its reader, on both sides of what is accepted.
func TestRows(t *testing.T) {
	check.Cells(t, tables, "rim_limits", readRim, "limit", []string{"0", "-1"}, []string{"0.001"})
	check.Cells(t, tables, "rim_limits", readRim, "default", []string{"no"}, []string{"yes", ""})
}
