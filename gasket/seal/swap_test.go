package seal

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func TestSwap(t *testing.T) {
	for _, test := range []struct {
		place                           Place
		from, to                        float64
		end, spindle, chest, projection float64
		findings                        int
	}{
		{CylinderCover, 0.1, 0.5, 0.4, 0, 0, -0.4, 0},
		{CylinderCover, 0.5, 0.1, -0.4, 0, 0, 0.4, 1},
		{ChestToCylinder, 0.1, 0.5, 0, 0.4, 0.4, -0.4, 1},
		{ChestCover, 0.25, 0, 0, 0, -0.25, 0.25, 1},
		{ChestCover, 0.2, 0.2, 0, 0, 0, 0, 0},
	} {
		c, err := Swap(test.place, units.MM(test.from), units.MM(test.to))
		if err != nil {
			t.Fatal(err)
		}
		if c.EndClearance != units.MM(test.end) || c.SpindleHeight != units.MM(test.spindle) || c.ChestHeight != units.MM(test.chest) || c.StudProjection != units.MM(test.projection) || len(c.Findings) != test.findings {
			t.Errorf("%+v: %+v", test, c)
		}
	}
	if got, err := Squeezed(units.MM(0.5), 0.2); err != nil || got != units.MM(0.4) {
		t.Errorf("squeezed %v, %v", got, err)
	}
}

// A thinner gasket brings the piston nearer to its cover, and that is a danger.
func TestSwapDanger(t *testing.T) {
	c, err := Swap(CylinderCover, units.MM(0.5), units.MM(0.1))
	if err != nil || len(c.Findings) != 1 || c.Findings[0].Code != PistonStrikes || c.Findings[0].Severity != finding.Danger ||
		!strings.Contains(c.Findings[0].Text, "0.40 mm nearer to the cover") {
		t.Errorf("%v, %v", c.Findings, err)
	}
}

func TestSwapRefuses(t *testing.T) {
	second := check.Only
	check.Refuses(t, "place", second(Swap(7, units.MM(0), units.MM(0))), units.ErrUnknown, "cylinder cover, chest to cylinder")
	check.Refuses(t, "negative gasket", second(Swap(ChestCover, units.MM(-1), units.MM(0))), units.ErrOutOfRange, "thickness of the gasket")
	check.Refuses(t, "no gasket", second(Squeezed(units.MM(0), 0.1)), units.ErrOutOfRange, "thickness")
	check.Refuses(t, "crush", second(Squeezed(units.MM(1), 0.9)), units.ErrOutOfRange, "crush")
	check.Refuses(t, "crush not a number", second(Squeezed(units.MM(1), math.NaN())), units.ErrNotFinite, "crush")
	check.Refuses(t, "endless gasket", second(Swap(ChestCover, units.MM(0), units.Picometres(math.MaxInt64))), units.ErrOutOfRange, "from -1 km to 1 km")
	check.Refuses(t, "no place", second(Swap(0, units.MM(0), units.MM(0))), units.ErrUnknown, "cylinder cover")
}
