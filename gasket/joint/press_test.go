package joint

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Six studs of 340 N on 633 mm2 are 3.22 MPa by hand, and 2.58 with 407 N of
// pressure on them.
func TestPress(t *testing.T) {
	l := StudLoad{Number: 6, Preload: 340, Total: 407}
	for _, test := range []struct {
		seat  units.Pressure
		codes int
	}{{0, 0}, {3 * units.Megapascal, 0}, {7.6 * units.Megapascal, 1}} {
		p, err := l.Press(633*units.SquareMillimetre, Seating{Min: test.seat, Max: test.seat, Refs: source.Of(source.Practice())})
		if err != nil || math.Abs(p.Bolted.In(units.Megapascal)-3.223) > 0.001 || math.Abs(p.Left.In(units.Megapascal)-2.580) > 0.001 {
			t.Errorf("%+v, %v", p, err)
		}
		if len(p.Findings) != test.codes || test.codes > 0 && (p.Findings[0].Code != GasketStress || p.Findings[0].Severity != finding.Note ||
			!strings.Contains(p.Findings[0].Text, "seated by 7.6 MPa") || p.Findings[0].Refs.IsZero()) {
			t.Errorf("seat %v: %v", test.seat, p.Findings)
		}
	}
	// where the cover lifts nothing presses the gasket
	l.Total = 3000
	if p, err := l.Press(1e-4, Seating{}); err != nil || p.Left != 0 || p.Bolted != 2040e4 {
		t.Errorf("%+v, %v", p, err)
	}
	// 2379.1 N on 626.9 mm2
	s, err := StressOnGasket(2379.1, 626.9*units.SquareMillimetre)
	if err != nil || math.Abs(s.In(units.Megapascal)-3.795) > 0.001 {
		t.Errorf("%v, %v", s, err)
	}
}

func TestPressRefuses(t *testing.T) {
	second := func(_ any, err error) error { return err }
	check.Refuses(t, "gasket area", second(StressOnGasket(1, 0)), units.ErrOutOfRange, "area of the gasket")
	check.Refuses(t, "force", second(StressOnGasket(units.Force(math.NaN()), 1)), units.ErrNotFinite, "force on the gasket")
	check.Refuses(t, "area", second(StudLoad{}.Press(0, Seating{})), units.ErrOutOfRange, "area of the gasket")
	check.Refuses(t, "seat", second(StudLoad{}.Press(1, Seating{Min: -1})), units.ErrOutOfRange, "stress that seats")
}
