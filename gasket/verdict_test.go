package gasket_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
			o := gasket.MatchOptions{Stud: units.MM(3), Ordered: test.name == "mirror5"}
			m, err := gasket.Match(t.Context(), c.p.Drilled(units.MM(3.4)), c.q, o)
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
		m, err := gasket.Match(t.Context(), p.Drilled(units.MM(3.5)), test.b, test.o)
		if err != nil || !m.Decided {
			t.Fatalf("%s: %v, decided %v", test.name, err, m.Decided)
		}
		best := m.Positions[0]
		near(t, test.name, best.Pairs[0].Allowance.MM(), test.room, 1e-9)
		near(t, test.name+": room left", best.Room.MM(), test.room-best.Greatest.MM(), 1e-8)
		// With every hole of the one size that is said to be needed, it just goes.
		just, err := gasket.Match(t.Context(), p.Drilled(best.HoleForAll), test.b, test.o)
		if err != nil || !just.Goes {
			t.Fatalf("%s: with holes of %v: goes %v, %v", test.name, best.HoleForAll, just.Goes, err)
		}
		near(t, test.name+": room in holes for all", just.Positions[0].Room.MM(), 0, 1e-8)
		if m.Goes != (best.Greatest.MM() <= test.room) {
			t.Errorf("%s: goes %v with %v", test.name, m.Goes, best.Greatest)
		}
	}
	m, err := gasket.Match(t.Context(), p, q, gasket.MatchOptions{Stud: units.MM(3)})
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
		m, err := gasket.Match(t.Context(), a, b, gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil {
			t.Fatal(err)
		}
		over, err := gasket.Match(t.Context(), a, b, gasket.MatchOptions{Stud: units.MM(3), TurnOver: true})
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

// What Match says is full sentences, the worst first, with what puts it right.
func TestMatchFindings(t *testing.T) {
	square, err := gasket.Rectangle(2, 2, units.MM(40), units.MM(30))
	if err != nil {
		t.Fatal(err)
	}
	askew := append(gasket.Pattern{}, square...)
	askew[0].At.X = askew[0].At.X.Sub(units.MM(9))
	row := gasket.Pattern{{Name: "a", At: mm(0, 0)}, {Name: "b", At: mm(90, 0)}}
	wrong := append(gasket.Pattern{}, askew...)
	wrong[2].At.Y = wrong[2].At.Y.Add(units.MM(1))
	stud := gasket.MatchOptions{Stud: units.MM(3)}
	ordered := gasket.MatchOptions{Stud: units.MM(3), Ordered: true}
	five := append(append(gasket.Pattern{}, askew...), gasket.Hole{Name: "5", At: mm(2, 0)})
	six := append(append(gasket.Pattern{}, five...), gasket.Hole{Name: "6", At: mm(9, 3)})
	drilled := func(p gasket.Pattern) gasket.Pattern { return p.Drilled(units.MM(3.4)) }
	for _, test := range []struct {
		name string
		a, b gasket.Pattern
		o    gasket.MatchOptions
		code finding.Code
		of   finding.Severity
		text string
		more string // the first remedy
	}{
		{"nothing agrees", square, row, stud, gasket.NothingAgrees, finding.Fails, "No two holes", "Measure both parts again"},
		{"too tight", drilled(wrong), askew, ordered, gasket.DoesNotGoOn, finding.Fails, "mm from its place over", "Open hole 3 at (20.000, 16.000) mm to"},
		{"hole below the stud", askew.Drilled(units.MM(2.9)), askew, ordered, gasket.DoesNotGoOn, finding.Fails, "hole 1 is too small even in its right place over 1.", "Open hole 1"},
		{"hole missing", drilled(askew), five, stud, gasket.DoesNotGoOn, finding.Fails, "does not go on. There is no hole for 5.", "Drill a hole of 3.400 mm at (2.000, 0.000) mm for stud 5."},
		{"holes missing", drilled(askew), six, stud, gasket.DoesNotGoOn, finding.Fails, "There are no holes for 5 and 6.", "Drill"},
		{"spare hole", drilled(five), askew, stud, gasket.SpareHole, finding.Note, "Hole 5 at (2.000, 0.000) mm has no stud.", "Plug it"},
		{"spare holes", drilled(six), askew, stud, gasket.SpareHole, finding.Note, "Hole 5 at (2.000, 0.000) mm and hole 6 at (9.000, 3.000) mm have no stud.", "Plug them"},
		{"other side", drilled(askew), askew.Mirrored(), stud, gasket.OtherSide, finding.Caution, "Turned over", "Measure it again"},
		{"no sizes", askew, askew, gasket.MatchOptions{}, gasket.NoVerdict, finding.Note, "There is no verdict", "Give the holes"},
		{"symmetric", drilled(square), square, stud, gasket.SeveralWays, finding.Note, "equally well in 2 positions.", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			m, err := gasket.Match(t.Context(), test.a, test.b, test.o)
			if err != nil {
				t.Fatal(err)
			}
			if decided := test.o.Stud.Sign() > 0; decided && m.Findings.OK() != m.Goes {
				t.Errorf("goes %v, findings %v", m.Goes, m.Findings)
			}
			for i, f := range m.Findings {
				if i > 0 && f.Severity > m.Findings[i-1].Severity {
					t.Errorf("not the worst first: %v", m.Findings)
				}
				if f.Code != test.code {
					continue
				}
				remedy := strings.Join(f.Remedies, " ")
				if f.Severity != test.of || !strings.Contains(f.Text, test.text) || !strings.HasPrefix(remedy, test.more) {
					t.Errorf("%v, want %v: %s %s", f, test.of, test.text, test.more)
				}
				return
			}
			t.Errorf("no %s in %v", test.code, m.Findings)
		})
	}
}
