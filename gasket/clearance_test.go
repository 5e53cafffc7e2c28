package gasket_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestPositionZones(t *testing.T) {
	f := check.Open(t, "gasket/position_tolerance.csv")
	for r := range f.Rows() {
		got, err := gasket.PositionZones(units.MM(r.Float("hole_mm")), units.MM(r.Float("fastener_mm")))
		if err != nil {
			t.Fatal(err)
		}
		zone := got.Fixed
		if r.Text("kind") == "floating" {
			zone = got.Floating
		}
		r.Within("zone_mm", zone.MM(), 0) // exact
	}
}

// A stud of 25.4 mm that needs half a millimetre more leans by 0.56 degrees; a
// hole 0.1 mm larger forgives 0.05 mm out of place. Geometry.
func TestClearanceHole(t *testing.T) {
	lean, err := gasket.LeanOfStud(units.MM(25.4), 0.5639*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name            string
		out, lean       units.Length
		hole, tolerance float64
	}{
		{"GA-02, leaning", units.MM(0), lean, 3.5, 0.0005},
		{"GA-02, out of place", units.MM(0.05), units.MM(0), 3.1, 0},
		{"GA-02, both", units.MM(0.05), lean, 3.6, 0.0005},
	} {
		hole, err := gasket.ClearanceHole(units.MM(3), test.out, test.lean)
		if err != nil {
			t.Fatal(err)
		}
		near(t, test.name, hole.MM(), test.hole, test.tolerance)
	}
	if tilt, err := gasket.TiltOfStud(units.MM(25.4), lean); err != nil || math.Abs(tilt.Degrees()-0.5639) > 1e-9 {
		t.Errorf("tilt %v, %v", tilt, err)
	}
	second := check.Only
	for _, test := range []struct {
		name string
		err  error
		text string
	}{
		{"height", second(gasket.LeanOfStud(units.MM(-1), 0)), "height of the stud"},
		{"tilt", second(gasket.LeanOfStud(units.MM(1), units.Angle(math.NaN()))), "tilt of the stud"},
		{"no height", second(gasket.TiltOfStud(units.Length{}, units.MM(0))), "height of the stud"},
		{"lean below zero", second(gasket.TiltOfStud(units.MM(20), units.MM(-1))), "lean of the stud"},
		{"lies down", second(gasket.TiltOfStud(units.MM(20), units.MM(20))), "below its height, 20 mm"},
		{"steep", second(gasket.LeanOfStud(units.MM(1), 45*units.Degree)), "below 45"},
		{"no stud", second(gasket.ClearanceHole(units.MM(0), units.MM(0), units.MM(0))), "stud diameter"},
		{"negative lean", second(gasket.ClearanceHole(units.MM(3), units.MM(0), units.MM(-1))), "lean"},
		{"hole below the fastener", second(gasket.PositionZones(units.MM(3), units.MM(3.1))), "hole diameter"},
		{"no fastener", second(gasket.PositionZones(units.MM(3), units.MM(0))), "fastener diameter"},
	} {
		if !errors.Is(test.err, units.ErrOutOfRange) || !strings.Contains(fmt.Sprint(test.err), test.text) {
			t.Errorf("%s: error %v, want %q", test.name, test.err, test.text)
		}
	}
}
