package gasket_test

import (
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// Three patterns of a 3.4 mm hole on a 3.0 mm stud.
func TestMatchVerdict(t *testing.T) {
	cases := registration(t)
	for _, test := range []struct {
		name        string
		goes        bool
		leastGoes   bool
		mirrored    bool
		wantOpening int // holes to open
	}{
		{"chest8-rogue", true, false, false, 0}, // least squares alone would refuse it
		{"fit-decision", false, false, false, 1},
		{"hex6-errors", true, true, false, 0},
		{"mirror5", false, false, true, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := cases[test.name]
			m, err := gasket.Match(c.p.Drilled(units.MM(3.4)), c.q, gasket.MatchOptions{Stud: units.MM(3), Ordered: test.name == "mirror5"})
			if err != nil {
				t.Fatal(err)
			}
			best := m.Positions[0]
			if m.Goes != test.goes || m.Mirrored != test.mirrored {
				t.Errorf("goes %v, mirrored %v; want %v, %v", m.Goes, m.Mirrored, test.goes, test.mirrored)
			}
			if got := best.LeastSquares.Greatest.Cmp(units.MM(0.2)) <= 0; got != test.leastGoes {
				t.Errorf("least squares would pass it: %v, want %v", got, test.leastGoes)
			}
			if test.wantOpening > 0 && len(m.Work) != test.wantOpening {
				t.Errorf("work %v, want %d holes", m.Work, test.wantOpening)
			}
			t.Log(m.Work)
		})
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

// A part measured from its other side is told from one that is merely inaccurate:
// turned over it must agree twice as well.
func TestMatchMirrored(t *testing.T) {
	drawn, err := gasket.Rectangle(2, 2, units.MM(40), units.MM(30))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		askew, spoil float64 // of one hole in both parts, and of another in one
		mirrored     bool
	}{
		{1.6, 0.2, true},
		{1.6, 0.6, true},
		{1.6, 1.4, false},
		{0, 0.5, false},
	} {
		a := append(gasket.Pattern{}, drawn.Drilled(units.MM(3.1))...)
		a[0].At.X = a[0].At.X.Add(units.MM(test.askew))
		b := a.Mirrored().Turned(0.4)
		b[2].At.Y = b[2].At.Y.Add(units.MM(test.spoil))
		m, err := gasket.Match(a, b, gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil {
			t.Fatal(err)
		}
		over, err := gasket.Match(a, b, gasket.MatchOptions{Stud: units.MM(3), TurnOver: true})
		if err != nil {
			t.Fatal(err)
		}
		t.Log(over.Positions[0].Greatest, m.Positions[0].Greatest)
		if m.Mirrored != test.mirrored || m.Mirrored == (len(m.Work) > 0) {
			t.Errorf("askew %g, spoilt %g: mirrored %v, %d works; greatest error %v, turned over %v", test.askew, test.spoil, m.Mirrored, len(m.Work), m.Positions[0].Greatest, over.Positions[0].Greatest)
		}
		if over.Mirrored || over.Positions[0].TurnedOver != (test.askew > 0) {
			t.Errorf("askew %g, spoilt %g: turned over %v, mirrored %v", test.askew, test.spoil, over.Positions[0].TurnedOver, over.Mirrored)
		}
	}
}
