package gasket_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

type points struct {
	p, q    gasket.Pattern
	weights []float64
}

// registration reads the made-up patterns that independent programs fitted.
func registration(t testing.TB) map[string]points {
	t.Helper()
	f := check.Open(t, "gasket/registration_points.csv")
	cases := map[string]points{}
	for r := range f.Rows() {
		at := func(x, y string) gasket.Point {
			return gasket.Point{X: units.MM(r.Float(x)), Y: units.MM(r.Float(y))}
		}
		c := cases[r.Text("case")]
		name := fmt.Sprint(len(c.p) + 1)
		c.p = append(c.p, gasket.Hole{Name: name, At: at("p_x_mm", "p_y_mm")})
		c.q = append(c.q, gasket.Hole{Name: name, At: at("q_x_mm", "q_y_mm")})
		c.weights = append(c.weights, r.Float("weight"))
		cases[r.Text("case")] = c
		r.Compare("p_x_mm", c.p[len(c.p)-1].At.X.MM())
	}
	return cases
}

func TestMatch(t *testing.T) {
	cases := registration(t)
	f := check.Open(t, "gasket/registration.csv")
	const lengths, degrees = 2e-5, 1e-5 // printed to 1e-6, from inputs printed to 1e-6
	for r := range f.Rows() {
		c := cases[r.Text("case")]
		method := r.Text("method")
		if method == "shift only" {
			continue // see TestMatchShiftOnly
		}
		o := gasket.MatchOptions{Ordered: !r.Has("order")}
		if method == "weighted least squares" {
			o.Weights = c.weights
		}
		m, err := gasket.Match(c.p, c.q, o)
		if err != nil || len(m.Positions) == 0 {
			t.Fatalf("%s: %v, %d positions", r.ID, err, len(m.Positions))
		}
		best := m.Positions[0]
		if method == "minimax" {
			r.Within("max_mm", best.Greatest.MM(), lengths)
			continue
		}
		ls := best.LeastSquares
		r.Within("turn_deg", ls.Turn.Degrees(), degrees)
		r.Within("shift_x_mm", ls.Shift.X.MM(), lengths)
		r.Within("shift_y_mm", ls.Shift.Y.MM(), lengths)
		r.Within("rms_mm", ls.RMS.MM(), lengths)
		r.Within("max_mm", ls.Greatest.MM(), lengths)
		if r.Has("order") {
			var order []string
			for _, pair := range best.Pairs {
				order = append(order, c.q[pair.Second].Name)
			}
			r.Equal("order", strings.Join(order, " "))
		}
	}
}

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

// scattered returns n holes at least apart millimetres from each other.
func scattered(r *rand.Rand, n int, apart float64) gasket.Pattern {
	var p gasket.Pattern
	for len(p) < n {
		at := gasket.Point{X: units.MM(100*r.Float64() - 50), Y: units.MM(100*r.Float64() - 50)}
		clear := true
		for _, h := range p {
			clear = clear && h.At.Distance(at).MM() >= apart
		}
		if clear {
			p = append(p, gasket.Hole{Name: fmt.Sprint(len(p) + 1), At: at})
		}
	}
	return p
}

// Of 5,000 random patterns that were turned, shifted, shuffled and spoiled by
// errors, each finds its way back: the greatest error is no more than the errors
// put in and no more than that of least squares, the partners are the right
// ones, and the second laid on the first gives the inverse.
func TestMatchRandom(t *testing.T) {
	const patterns, spoil = 5000, 0.2
	r := rand.New(rand.NewPCG(1, 2))
	for k := range patterns {
		a := scattered(r, 3+r.IntN(8), 5)
		turn := units.Angle(r.Float64() * 2 * math.Pi)
		shift := gasket.Point{X: units.MM(40 * r.Float64()), Y: units.MM(-30 * r.Float64())}
		order := r.Perm(len(a))
		b := make(gasket.Pattern, len(a))
		for i, h := range a.Turned(turn).Moved(shift) {
			sin, cos := math.Sincos(2 * math.Pi * r.Float64())
			size := spoil * r.Float64()
			h.At = h.At.Add(gasket.Point{X: units.MM(size * cos), Y: units.MM(size * sin)})
			b[order[i]] = h
		}
		m, err := gasket.Match(a, b, gasket.MatchOptions{Reach: units.MM(1)})
		if err != nil || len(m.Positions) == 0 {
			t.Fatalf("pattern %d: %v", k, err)
		}
		best := m.Positions[0]
		if best.Greatest.MM() > spoil || best.Greatest.MM() > best.LeastSquares.Greatest.MM()+1e-9 {
			t.Fatalf("pattern %d: greatest error %v, least squares %v", k, best.Greatest, best.LeastSquares.Greatest)
		}
		for _, pair := range best.Pairs {
			if pair.Second != order[pair.First] {
				t.Fatalf("pattern %d: hole %d goes with %d, want %d", k, pair.First, pair.Second, order[pair.First])
			}
		}
		back, err := gasket.Match(b, a, gasket.MatchOptions{Reach: units.MM(1)})
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(back.Positions[0].Greatest.MM() - best.Greatest.MM()); d > 1e-8 {
			t.Fatalf("pattern %d: the other way round the greatest error differs by %g mm", k, d)
		}
		for _, h := range a {
			if there := best.Back(best.Place(h.At)); there.Distance(h.At).MM() > 1e-8 {
				t.Fatalf("pattern %d: there and back is %v off", k, there.Distance(h.At))
			}
		}
	}
}

// As many holes as are accepted, without any order, find their partners, though
// ten of them are in another place altogether.
func TestMatchMany(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	a := scattered(r, 500, 1.5)
	order := r.Perm(len(a))
	b := make(gasket.Pattern, len(a))
	for i, h := range a.Turned(2).Moved(gasket.Point{X: units.MM(300)}) {
		h.At.X = h.At.X.Add(units.MM(0.1 * r.Float64()))
		if i < 10 {
			h.At.Y = h.At.Y.Add(units.MM(200))
		}
		b[order[i]] = h
	}
	m, err := gasket.Match(a, b, gasket.MatchOptions{})
	if err != nil || len(m.Positions) != 1 {
		t.Fatalf("%d positions, %v", len(m.Positions), err)
	}
	best := m.Positions[0]
	if len(best.Pairs) != 490 || len(best.OnlyFirst) != 10 || best.Greatest.MM() > 0.1 {
		t.Errorf("%d pairs, %d left over, greatest error %v; want 490, 10, at most 0.1 mm", len(best.Pairs), len(best.OnlyFirst), best.Greatest)
	}
	for _, pair := range best.Pairs {
		if pair.Second != order[pair.First] {
			t.Fatalf("hole %d goes with %d, want %d", pair.First, pair.Second, order[pair.First])
		}
	}
}

// A pattern of six holes goes on in six positions, in twelve if it may be turned
// over; an exact one in all of them alike.
func TestMatchSymmetric(t *testing.T) {
	circle, err := gasket.BoltCircle(6, units.MM(44), 0)
	if err != nil {
		t.Fatal(err)
	}
	chest, err := gasket.Rectangle(3, 3, units.MM(48), units.MM(32))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name string
		p    gasket.Pattern
		o    gasket.MatchOptions
		want int
	}{
		{"circle of six", circle, gasket.MatchOptions{}, 6},
		{"circle of six, either face", circle, gasket.MatchOptions{TurnOver: true}, 12},
		{"chest of eight", chest, gasket.MatchOptions{}, 2},
		{"chest of eight, either face", chest, gasket.MatchOptions{TurnOver: true}, 4},
		{"two holes", circle[:2], gasket.MatchOptions{}, 2},
	} {
		t.Run(test.name, func(t *testing.T) {
			m, err := gasket.Match(test.p, test.p.Turned(0.3).Moved(gasket.Point{X: units.MM(7)}), test.o)
			if err != nil {
				t.Fatal(err)
			}
			if got := len(m.Alike()); got != test.want {
				t.Errorf("%d positions alike, want %d", got, test.want)
			}
			if g := m.Positions[0].Greatest.MM(); g > 1e-8 {
				t.Errorf("greatest error %g mm", g)
			}
		})
	}
}

// A hole that is missing, one too many, and one in the wrong place.
func TestMatchWork(t *testing.T) {
	chest, err := gasket.Rectangle(4, 3, units.MM(48), units.MM(30))
	if err != nil {
		t.Fatal(err)
	}
	cover := chest.Drilled(units.MM(3.4))
	o := gasket.MatchOptions{Stud: units.MM(3)}
	wrong := append(gasket.Pattern{}, cover...)
	wrong[4].At.Y = wrong[4].At.Y.Add(units.MM(1.25))
	two := append(gasket.Pattern{}, wrong...)
	two[0].At.X = two[0].At.X.Sub(units.MM(0.5))
	far := append(gasket.Pattern{}, cover...)
	far[4].At = mm(12, 6)
	// Without hole 2 the rest no longer has the symmetry of the chest.
	asymmetric := append(append(gasket.Pattern{}, chest[0]), chest[2:]...)
	for _, test := range []struct {
		name  string
		a, b  gasket.Pattern
		goes  bool
		works []string
	}{
		{"as drawn", cover, chest, true, nil},
		{"one stud more than holes", append(cover[:3:3], cover[4:]...), chest, false, []string{"drill a hole of 3.400 mm at (24.000, -15.000) mm for stud 4"}},
		{"one hole more than studs", cover, asymmetric, true, []string{"hole 2 at (-8.000, -15.000) mm has no stud: plug it, or leave it if nothing can leak there"}},
		{"one hole in the wrong place altogether", far, chest, false, []string{
			"drill a hole of 3.400 mm at (24.000, 0.000) mm for stud 5",
			"hole 5 at (12.000, 6.000) mm has no stud: plug it, or leave it if nothing can leak there",
		}},
		{"one hole 1.25 mm out", wrong, chest, false, []string{"open hole 5 at (24.000, 1.250) mm to 5.500 mm for stud 5, or plug it and drill it afresh at (24.000, 0.000) mm"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			m, err := gasket.Match(test.a, test.b, o)
			if err != nil {
				t.Fatal(err)
			}
			var works []string
			for _, w := range m.Work {
				works = append(works, strings.ReplaceAll(w.String(), "-0.000", "0.000"))
			}
			if m.Goes != test.goes || strings.Join(works, "; ") != strings.Join(test.works, "; ") {
				t.Errorf("goes %v, work %q; want %v, %q", m.Goes, works, test.goes, test.works)
			}
		})
	}
	m, err := gasket.Match(two, chest, o)
	if err != nil || len(m.Work) != 2 || m.Work[0].Hole != "1" || m.Work[1].Hole != "5" {
		t.Errorf("two holes wrong: %v, %v", m.Work, err)
	}
}

// Up to five wrong holes are found again, whichever they are: they alone are
// opened, and every other hole has room.
func TestMatchFewest(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	for k := range 60 {
		a := scattered(r, 14, 12)
		b := append(gasket.Pattern{}, a...)
		wrong := r.Perm(len(b))[:1+k%5]
		for _, i := range wrong {
			sin, cos := math.Sincos(2 * math.Pi * r.Float64())
			size := 0.6 + r.Float64()
			b[i].At = b[i].At.Add(gasket.Point{X: units.MM(size * cos), Y: units.MM(size * sin)})
		}
		m, err := gasket.Match(a.Drilled(units.MM(3.4)), b.Turned(1).Moved(mm(5, 6)), gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil || m.Goes {
			t.Fatalf("%d: goes %v, %v", k, m.Goes, err)
		}
		if len(m.Work) > len(wrong) {
			t.Errorf("%d: %d holes were wrong, and %d are to be opened: %v", k, len(wrong), len(m.Work), m.Work)
		}
		// With what it says done, it goes.
		opened := a.Drilled(units.MM(3.4))
		for _, w := range m.Work {
			for i := range opened {
				if opened[i].Name == w.Hole {
					opened[i].Diameter = w.Diameter
				}
			}
		}
		again, err := gasket.Match(opened, b.Turned(1).Moved(mm(5, 6)), gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil || !again.Goes {
			t.Errorf("%d: with the work done it does not go: %v, %v", k, again.Work, err)
		}
	}
}

// Where opening one hole is enough and there is a choice of holes, it is the one
// that is opened least: found again by leaving out each in turn.
func TestMatchLeastOpening(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	o := gasket.MatchOptions{Stud: units.MM(3), Ordered: true}
	choices := 0
	for k := range 400 {
		a := scattered(r, 5, 12).Drilled(units.MM(3.4))
		b := append(gasket.Pattern{}, a...)
		for i := range b {
			sin, cos := math.Sincos(2 * math.Pi * r.Float64())
			size := 0.4 * r.Float64()
			b[i].At = b[i].At.Add(gasket.Point{X: units.MM(size * cos), Y: units.MM(size * sin)})
		}
		m, err := gasket.Match(a, b, o)
		if err != nil {
			t.Fatal(err)
		}
		if m.Goes || m.Mirrored {
			continue
		}
		least, enough := math.Inf(1), 0
		for i := range a {
			rest, err := gasket.Match(slices.Concat(a[:i], a[i+1:]), slices.Concat(b[:i], b[i+1:]), o)
			if err != nil {
				t.Fatal(err)
			}
			if rest.Goes {
				enough++
				off := rest.Positions[0].Place(a[i].At).Distance(b[i].At)
				least = min(least, 3+2*off.MM())
			}
		}
		if enough == 0 {
			continue
		}
		if enough > 1 {
			choices++
		}
		if len(m.Work) != 1 || math.Abs(m.Work[0].Diameter.MM()-least) > 1e-6 {
			t.Errorf("%d: %v, want one hole of %.6f mm", k, m.Work, least)
		}
	}
	if choices < 20 {
		t.Errorf("only %d patterns leave a choice", choices)
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

func TestMatchRefuses(t *testing.T) {
	good, err := gasket.BoltCircle(6, units.MM(44), 0)
	if err != nil {
		t.Fatal(err)
	}
	double := append(good[:5:5], good[0])
	many, err := gasket.BoltCircle(25, units.MM(100), 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name string
		a, b gasket.Pattern
		o    gasket.MatchOptions
		want error
		text string
	}{
		{"no holes", nil, good, gasket.MatchOptions{}, units.ErrOutOfRange, "holes of the first pattern 0"},
		{"one hole", good, good[:1], gasket.MatchOptions{}, units.ErrOutOfRange, "holes of the second pattern 1"},
		{"too many", make(gasket.Pattern, 501), good, gasket.MatchOptions{}, units.ErrOutOfRange, "2 to 500"},
		{"all in one place", make(gasket.Pattern, 6), good, gasket.MatchOptions{}, units.ErrOutOfRange, "two holes in one place"},
		{"two in one place", good, double, gasket.MatchOptions{}, units.ErrOutOfRange, "two holes in one place"},
		{"order of unequal numbers", good, good[:5], gasket.MatchOptions{Ordered: true}, units.ErrOutOfRange, "as many as the first has"},
		{"beyond the horizon", good.Moved(gasket.Point{X: units.MM(1e6).Scale(2)}), good, gasket.MatchOptions{}, units.ErrOutOfRange, "within 1 km"},
		{"reach among many", many, many, gasket.MatchOptions{Reach: units.MM(20)}, units.ErrOutOfRange, "for more than 24 holes"},
		{"stud and bolt", good, good, gasket.MatchOptions{Stud: units.MM(3), Bolt: units.MM(3)}, units.ErrOutOfRange, "beside a stud"},
		{"negative stud", good, good, gasket.MatchOptions{Stud: units.MM(-3)}, units.ErrOutOfRange, "stud diameter -3 mm"},
		{"stud of 4000 km", good, good, gasket.MatchOptions{Stud: units.MM(1e6).Scale(4000)}, units.ErrOutOfRange, "zero to 1 km"},
		{"hole of 4000 km", good.Drilled(units.MM(1e6).Scale(4000)), good, gasket.MatchOptions{Stud: units.MM(3)}, units.ErrOutOfRange, "up to 1 km"},
		{"negative hole", good.Drilled(units.MM(-1)), good, gasket.MatchOptions{}, units.ErrOutOfRange, `hole "1"`},
		{"weights", good, good, gasket.MatchOptions{Weights: []float64{1}}, units.ErrOutOfRange, "one for each of the 6"},
		{"weights not finite", good, good, gasket.MatchOptions{Weights: []float64{1, 1, 1, 1, 1, math.NaN()}}, units.ErrNotFinite, "weight"},
		{"weights all zero", good, good, gasket.MatchOptions{Weights: make([]float64, 6)}, units.ErrOutOfRange, "weights above zero 0"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := gasket.Match(test.a, test.b, test.o)
			if !errors.Is(err, test.want) || !strings.Contains(fmt.Sprint(err), test.text) {
				t.Errorf("error %v, want %v with %q", err, test.want, test.text)
			}
		})
	}
}

func BenchmarkMatch(b *testing.B) {
	for _, n := range []int{6, 24, 100, 500} {
		p, err := gasket.BoltCircle(n, units.MM(200), 0)
		if err != nil {
			b.Fatal(err)
		}
		r := rand.New(rand.NewPCG(7, 8))
		q := p.Turned(1)
		for i := range q {
			q[i].At.X = q[i].At.X.Add(units.MM(0.1 * r.Float64()))
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := gasket.Match(p.Drilled(units.MM(1.2)), q, gasket.MatchOptions{Stud: units.MM(1)}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// With a hole missing on one side and one that does not belong on the other, the
// rest still find their partners.
func TestMatchMissing(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for k := range 300 {
		all := scattered(r, 7+r.IntN(6), 8)
		a := append(gasket.Pattern{}, all[:len(all)-1]...) // the last is a stud without a hole
		b := append(gasket.Pattern{}, all[1:]...)          // the first is a hole without a stud
		b = b.Turned(units.Angle(2 * math.Pi * r.Float64())).Moved(gasket.Point{X: units.MM(50 * r.Float64())})
		for i := range b {
			b[i].At.X = b[i].At.X.Add(units.MM(0.1 * r.Float64()))
		}
		m, err := gasket.Match(a, b, gasket.MatchOptions{Reach: units.MM(0.5)})
		if err != nil || len(m.Positions) == 0 {
			t.Fatalf("%d: %v", k, err)
		}
		best := m.Positions[0]
		if len(best.Pairs) != len(a)-1 || len(best.OnlyFirst) != 1 || best.OnlyFirst[0] != 0 || len(best.OnlySecond) != 1 || best.OnlySecond[0] != len(b)-1 {
			t.Fatalf("%d: %d pairs of %d, left over %v and %v", k, len(best.Pairs), len(a), best.OnlyFirst, best.OnlySecond)
		}
		for _, pair := range best.Pairs {
			if a[pair.First].Name != b[pair.Second].Name {
				t.Fatalf("%d: %s goes with %s", k, a[pair.First].Name, b[pair.Second].Name)
			}
		}
	}
}
