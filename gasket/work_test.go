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

func TestToleranceFor(t *testing.T) {
	f := check.Open(t, "gasket/position_tolerance.csv")
	for r := range f.Rows() {
		got, err := gasket.ToleranceFor(units.MM(r.Float("hole_mm")), units.MM(r.Float("fastener_mm")))
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
		{"leaning", units.MM(0), lean, 3.5, 0.0005},
		{"out of place", units.MM(0.05), units.MM(0), 3.1, 0},
		{"both", units.MM(0.05), lean, 3.6, 0.0005},
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
	second := func(_ any, err error) error { return err }
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
		{"hole below the fastener", second(gasket.ToleranceFor(units.MM(3), units.MM(3.1))), "hole diameter"},
		{"no fastener", second(gasket.ToleranceFor(units.MM(3), units.MM(0))), "fastener diameter"},
	} {
		if !errors.Is(test.err, units.ErrOutOfRange) || !strings.Contains(fmt.Sprint(test.err), test.text) {
			t.Errorf("%s: error %v, want %q", test.name, test.err, test.text)
		}
	}
}

// Long studs that may lean take room away; loose bolts have the room of both
// holes.
func TestMatchRoom(t *testing.T) {
	p, err := gasket.BoltCircle(6, units.MM(40), 0)
	if err != nil {
		t.Fatal(err)
	}
	q := append(gasket.Pattern{}, p...)
	q[0].At.X = q[0].At.X.Add(units.MM(0.35)) // two neighbours share it: best greatest error below 0.35
	for _, test := range []struct {
		name string
		b    gasket.Pattern
		o    gasket.MatchOptions
		room float64 // of each pair at no distance
	}{
		{"studs", q, gasket.MatchOptions{Stud: units.MM(3)}, 0.25},
		{"leaning studs", q, gasket.MatchOptions{Stud: units.MM(3), Lean: units.MM(0.1)}, 0.15},
		{"loose bolts that lean", q.Drilled(units.MM(3.2)), gasket.MatchOptions{Bolt: units.MM(3), Lean: units.MM(0.1)}, 0.25},
		{"loose bolts", q.Drilled(units.MM(3.2)), gasket.MatchOptions{Bolt: units.MM(3)}, 0.35},
	} {
		m, err := gasket.Match(p.Drilled(units.MM(3.5)), test.b, test.o)
		if err != nil || !m.Decided {
			t.Fatalf("%s: %v, decided %v", test.name, err, m.Decided)
		}
		best := m.Positions[0]
		near(t, test.name, best.Pairs[0].Allowance.MM(), test.room, 1e-9)
		near(t, test.name+": room left", best.Room.MM(), test.room-best.Greatest.MM(), 1e-8)
		// With every hole of the one size that is said to be needed, it just goes.
		just, err := gasket.Match(p.Drilled(best.HoleForAll), test.b, test.o)
		if err != nil || !just.Goes {
			t.Fatalf("%s: with holes of %v: goes %v, %v", test.name, best.HoleForAll, just.Goes, err)
		}
		near(t, test.name+": room in holes for all", just.Positions[0].Room.MM(), 0, 1e-8)
		if m.Goes != (best.Greatest.MM() <= test.room) {
			t.Errorf("%s: goes %v with %v", test.name, m.Goes, best.Greatest)
		}
	}
	m, err := gasket.Match(p, q, gasket.MatchOptions{Stud: units.MM(3)})
	if err != nil || m.Decided || m.Goes || m.Positions[0].HoleForAll.MM() < 3.2 {
		t.Errorf("without holes: %+v, %v", m, err)
	}
}
