package cutting

import (
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// A row that cannot be is refused by its reader, on both sides of what is accepted.
func TestRows(t *testing.T) {
	check.Cells(t, tables, "kienzle", readKienzle, "kc11", []string{"0", "-1"}, []string{"0.0000000001", "0.5"})
	check.Cells(t, tables, "kienzle", readKienzle, "exponent", []string{"0", "1", "1.5"}, []string{"0.001", "0.999"})
	check.Cells(t, tables, "kienzle", readKienzle, "materials", []string{"mild steel; cheese", "steel"}, []string{";; mild steel;"})
	check.Cells(t, tables, "force_at_feed", readForce, "feed", []string{"0", "-0.1"}, []string{"0.000000001"})
	check.Cells(t, tables, "force_at_feed", readForce, "kc", []string{"0", "-1"}, []string{"0.0000000001"})
	check.Cells(t, tables, "unit_power", readPower, "kp", []string{"0", "-1"}, []string{"0.0000000000001"})
}
