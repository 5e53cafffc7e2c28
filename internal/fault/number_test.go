package fault_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/fault"
)

func TestDecimal(t *testing.T) {
	for _, test := range []struct {
		v               float64
		places          int
		decimal, signed string
	}{
		{0, 2, "0.00", "0.00"}, {math.Copysign(0, -1), 0, "0", "0"}, {-0.004, 2, "0.00", "0.00"}, {0.004, 2, "0.00", "0.00"},
		{-0.006, 2, "-0.01", "-0.01"}, {0.006, 2, "0.01", "+0.01"}, {-10, 0, "-10", "-10"}, {100, 1, "100.0", "+100.0"},
	} {
		if got := fault.Decimal(test.v, test.places); got != test.decimal {
			t.Errorf("%g to %d places is %s, want %s", test.v, test.places, got, test.decimal)
		}
		if got := fault.Signed(test.v, test.places); got != test.signed {
			t.Errorf("%g to %d places with its sign is %s, want %s", test.v, test.places, got, test.signed)
		}
	}
}
