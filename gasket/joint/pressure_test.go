package joint

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestEndForceRefuses(t *testing.T) {
	second := check.Only
	nan := math.NaN()
	check.Refuses(t, "pressure", second(EndForce(units.Pressure(nan), 1)), units.ErrNotFinite, "pressure")
	check.Refuses(t, "vacuum", second(EndForce(-1, 1)), units.ErrOutOfRange, "pressure")
	check.Refuses(t, "area", second(EndForce(1, 0)), units.ErrOutOfRange, "area")
	check.Refuses(t, "absurd area", second(EndForce(1, 1e300)), units.ErrOutOfRange, "area under pressure")
}
