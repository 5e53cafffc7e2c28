package gasket_test

import (
	"context"
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
	cases := map[string]points{}
	for _, r := range check.Given(t, "gasket/registration_points.csv") {
		at := func(x, y string) gasket.Point {
			return gasket.Point{X: units.MM(r.Float(x)), Y: units.MM(r.Float(y))}
		}
		c := cases[r.Text("case")]
		name := fmt.Sprint(len(c.p) + 1)
		c.p = append(c.p, gasket.Hole{Name: name, At: at("p_x_mm", "p_y_mm")})
		c.q = append(c.q, gasket.Hole{Name: name, At: at("q_x_mm", "q_y_mm")})
		c.weights = append(c.weights, r.Float("weight"))
		cases[r.Text("case")] = c
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
		m, err := gasket.Match(t.Context(), c.p, c.q, o)
		if err != nil || len(m.Positions) == 0 {
			t.Fatalf("%s: %v, %d positions", r.ID, err, len(m.Positions))
		}
		best := m.Positions[0]
		if method == "minimax" {
			r.Within("max_mm", best.Greatest.MM(), lengths)
			// No sizes are given, so that the tightest pair is the one farthest out.
			r.Within("max_mm", best.Tightest().Distance.MM(), lengths)
			there, here := 0.0, 0.0
			for _, pair := range best.Pairs {
				p, q := c.p[pair.First-1].At, c.q[pair.Second-1].At
				placed, err := best.Place(p)
				back, errBack := best.Back(q)
				if err := errors.Join(err, errBack); err != nil {
					t.Fatal(err)
				}
				there, here = max(there, placed.Distance(q).MM()), max(here, back.Distance(p).MM())
			}
			r.Within("max_mm", there, lengths)
			r.Within("max_mm", here, lengths)
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
				order = append(order, c.q[pair.Second-1].Name)
			}
			r.Equal("order", strings.Join(order, " "))
		}
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
		m, err := gasket.Match(t.Context(), a, b, gasket.MatchOptions{Reach: units.MM(1)})
		if err != nil || len(m.Positions) == 0 {
			t.Fatalf("pattern %d: %v", k, err)
		}
		best := m.Positions[0]
		if best.Greatest.MM() > spoil || best.Greatest.MM() > best.LeastSquares.Greatest.MM()+1e-9 {
			t.Fatalf("pattern %d: greatest error %v, least squares %v", k, best.Greatest, best.LeastSquares.Greatest)
		}
		for _, pair := range best.Pairs {
			if want := order[pair.First-1] + 1; pair.Second != want {
				t.Fatalf("pattern %d: hole %d goes with %d, want %d", k, pair.First, pair.Second, want)
			}
		}
		back, err := gasket.Match(t.Context(), b, a, gasket.MatchOptions{Reach: units.MM(1)})
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(back.Positions[0].Greatest.MM() - best.Greatest.MM()); d > 1e-8 {
			t.Fatalf("pattern %d: the other way round the greatest error differs by %g mm", k, d)
		}
		for _, h := range a {
			there, err := best.Place(h.At)
			back, errBack := best.Back(there)
			if err != nil || errBack != nil || back.Distance(h.At).MM() > 1e-8 {
				t.Fatalf("pattern %d: there and back is %v off, %v, %v", k, back.Distance(h.At), err, errBack)
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
	m, err := gasket.Match(t.Context(), a, b, gasket.MatchOptions{})
	if err != nil || len(m.Positions) != 1 {
		t.Fatalf("%d positions, %v", len(m.Positions), err)
	}
	best := m.Positions[0]
	if len(best.Pairs) != 490 || len(best.OnlyFirst) != 10 || best.Greatest.MM() > 0.1 {
		t.Errorf("%d pairs, %d left over, greatest error %v; want 490, 10, at most 0.1 mm", len(best.Pairs), len(best.OnlyFirst), best.Greatest)
	}
	for _, pair := range best.Pairs {
		if want := order[pair.First-1] + 1; pair.Second != want {
			t.Fatalf("hole %d goes with %d, want %d", pair.First, pair.Second, want)
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
			m, err := gasket.Match(t.Context(), test.p, test.p.Turned(0.3).Moved(gasket.Point{X: units.MM(7)}), test.o)
			if err != nil {
				t.Fatal(err)
			}
			if got := m.Alike; got != test.want {
				t.Errorf("%d positions alike, want %d", got, test.want)
			}
			if g := m.Positions[0].Greatest.MM(); g > 1e-8 {
				t.Errorf("greatest error %g mm", g)
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
		m, err := gasket.Match(t.Context(), a, b, gasket.MatchOptions{Reach: units.MM(0.5)})
		if err != nil || len(m.Positions) == 0 {
			t.Fatalf("%d: %v", k, err)
		}
		best := m.Positions[0]
		first, second := []int{1}, []int{len(b)}
		if len(best.Pairs) != len(a)-1 || !slices.Equal(best.OnlyFirst, first) || !slices.Equal(best.OnlySecond, second) {
			t.Fatalf("%d: %d pairs of %d, left over %v and %v", k, len(best.Pairs), len(a), best.OnlyFirst, best.OnlySecond)
		}
		for _, pair := range best.Pairs {
			if first, second := a[pair.First-1].Name, b[pair.Second-1].Name; first != second {
				t.Fatalf("%d: %s goes with %s", k, first, second)
			}
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
			_, err := gasket.Match(t.Context(), test.a, test.b, test.o)
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
				if _, err := gasket.Match(b.Context(), p.Drilled(units.MM(1.2)), q, gasket.MatchOptions{Stud: units.MM(1)}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A patience is a context that is done when it was asked often enough.
type patience struct {
	context.Context
	left int
}

func (p *patience) Err() error {
	if p.left--; p.left < 0 {
		return errEnough
	}
	return nil
}

var errEnough = errors.New("enough of it")

// A match that nobody waits for any longer ends, with the cause: while holes are
// paired, in every way where circles of 29 and of 30 holes do not belong together, and
// while positions are worked out.
func TestMatchStops(t *testing.T) {
	circle := func(n int) gasket.Pattern {
		p, err := gasket.BoltCircle(n, units.MM(90), 0)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for _, test := range []struct {
		name   string
		a, b   int
		asked  int
		refuse bool
	}{
		{"at once", 8, 8, 0, true}, {"while pairing", 29, 30, 500, true}, {"late in pairing", 29, 30, 1500, true}, {"patient", 8, 8, 1e9, false},
	} {
		m, err := gasket.Match(&patience{context.Background(), test.asked}, circle(test.a), circle(test.b), gasket.MatchOptions{})
		if test.refuse && (!errors.Is(err, errEnough) || !strings.HasPrefix(err.Error(), "gasket: the match was stopped: ") || m.Positions != nil) ||
			!test.refuse && err != nil {
			t.Errorf("%s: %v, %v", test.name, m.Positions, err)
		}
	}
	ctx, cancel := context.WithCancelCause(t.Context())
	cancel(errEnough)
	if _, err := gasket.Match(ctx, circle(8), circle(8), gasket.MatchOptions{Ordered: true}); !errors.Is(err, errEnough) {
		t.Errorf("%v", err)
	}
}

// A position from outside, and points that no sum of lengths holds, are errors.
func TestPlaceRefuses(t *testing.T) {
	second := check.Only
	far := gasket.Point{X: units.Picometres(5e18)}
	for name, p := range map[string]gasket.Position{"no number": {Turn: units.Angle(math.NaN())}, "endless": {Turn: units.Angle(math.Inf(1))}} {
		check.Refuses(t, name, second(p.Place(gasket.Point{})), units.ErrNotFinite, "turn of the position")
		check.Refuses(t, name+", back", second(p.Back(gasket.Point{})), units.ErrNotFinite, "turn of the position")
	}
	check.Refuses(t, "far point", second(gasket.Position{}.Place(far)), units.ErrOutOfRange, "within 1000 km")
	check.Refuses(t, "far shift", second(gasket.Position{Shift: far}.Back(gasket.Point{})), units.ErrOutOfRange, "within 1000 km")
	if at, err := (gasket.Position{TurnedOver: true, Turn: 90 * units.Degree, Shift: gasket.Point{X: units.MM(1)}}).Place(gasket.Point{X: units.MM(3)}); err != nil || math.Abs(at.X.MM()-1) > 1e-9 || math.Abs(at.Y.MM()+3) > 1e-9 {
		t.Errorf("%v, %v", at, err)
	}
}

// What is done to one position of an answer changes no other, and no other answer.
func TestPositionsAreTheirOwn(t *testing.T) {
	square, err := gasket.BoltCircle(4, units.MM(40), 0)
	if err != nil {
		t.Fatal(err)
	}
	match := func() gasket.Matching {
		m, err := gasket.Match(t.Context(), square.Drilled(units.MM(3.4)), square, gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil || len(m.Positions) != 4 || m.Alike != 4 {
			t.Fatalf("%d positions, %d alike, %v", len(m.Positions), m.Alike, err)
		}
		return m
	}
	spoiled, whole := match(), match()
	for i := range spoiled.Positions[0].Pairs {
		spoiled.Positions[0].Pairs[i] = gasket.Pair{First: 9, Second: 9}
	}
	_ = append(spoiled.Positions[0].Pairs[:1], gasket.Pair{First: 8})
	spoiled.Positions = append(spoiled.Positions[:1], gasket.Position{})
	for k := 1; k < 4; k++ {
		if a, b := spoiled.Positions[:4][k].Pairs, whole.Positions[k].Pairs; k > 1 && !slices.Equal(a, b) {
			t.Errorf("position %d: %v, want %v", k+1, a, b)
		}
	}
	if again := match(); !slices.Equal(again.Positions[0].Pairs, whole.Positions[0].Pairs) || again.Positions[0].Pairs[0].First != 1 {
		t.Errorf("%v", again.Positions[0].Pairs)
	}
}
