package gasket_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestBoltCircle(t *testing.T) {
	f := check.Open(t, "gasket/bolt_circle.csv")
	const size = 100 // mm
	for r := range f.Rows() {
		n, k := int(r.Float("holes")), int(r.Float("hole"))
		first := 90 * units.Degree
		if r.Text("type") == "B" {
			first += gasket.HalfPitch(n)
		}
		p, err := gasket.BoltCircle(n, units.MM(size), first)
		if err != nil {
			t.Fatal(err)
		}
		centre := p.From(gasket.Datum{YDown: true})[k-1]
		r.Compare("centre_x", centre.X.MM()/size)
		r.Compare("centre_y", centre.Y.MM()/size)
		if r.Has("corner_x") {
			corner := p.From(gasket.Datum{Origin: mm(-size/2, size/2), YDown: true})[k-1]
			r.Compare("corner_x", corner.X.MM()/size)
			r.Compare("corner_y", corner.Y.MM()/size)
		}
	}
}

func TestChord(t *testing.T) {
	f := check.Open(t, "gasket/chord.csv")
	for r := range f.Rows() {
		r.Compare("chord", chord(t, int(r.Float("holes"))))
	}
	check.Errata(t, "gasket", map[string]float64{"chord-15": chord(t, 15), "chord-17": chord(t, 17)})
}

func chord(t *testing.T, n int) float64 {
	t.Helper()
	c, err := gasket.Chord(n, units.MM(1))
	if err != nil {
		t.Fatal(err)
	}
	return c.MM()
}

// Three holes on 4 in with the first at the top, and with the top straddled; six
// on 36 mm counted from the corner of the square round them. Geometry.
func TestBoltCircleWorkshop(t *testing.T) {
	for _, test := range []struct {
		name     string
		n        int
		diameter units.Length
		first    units.Angle
		datum    gasket.Datum
		unit     units.Length
		want     [][2]float64
	}{
		{"three on 4 in, first at the top", 3, units.Inch(4), 90 * units.Degree, gasket.Datum{}, units.Inch(1),
			[][2]float64{{0, 2}, {-1.7321, -1}, {1.7321, -1}}},
		{"three on 4 in, top straddled", 3, units.Inch(4), 90*units.Degree - gasket.HalfPitch(3), gasket.Datum{}, units.Inch(1),
			[][2]float64{{1.7321, 1}, {-1.7321, 1}, {0, -2}}},
		{"six on 36 mm from the corner", 6, units.MM(36), 90 * units.Degree, gasket.Datum{Origin: mm(-18, -18)}, units.MM(1),
			[][2]float64{{18, 36}, {2.412, 27}, {2.412, 9}, {18, 0}, {33.588, 9}, {33.588, 27}}},
		{"six on 36 mm from the right-hand corner", 6, units.MM(36), 90 * units.Degree, gasket.Datum{Origin: mm(18, -18), XLeft: true}, units.MM(1),
			[][2]float64{{18, 36}, {33.588, 27}, {33.588, 9}, {18, 0}, {2.412, 9}, {2.412, 27}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			p, err := gasket.BoltCircle(test.n, test.diameter, test.first)
			if err != nil {
				t.Fatal(err)
			}
			for i, q := range p.From(test.datum) {
				near(t, fmt.Sprintf("x of hole %d", i+1), q.X.Ratio(test.unit), test.want[i][0], 0.0005)
				near(t, fmt.Sprintf("y of hole %d", i+1), q.Y.Ratio(test.unit), test.want[i][1], 0.0005)
			}
		})
	}
}

// The holes of any bolt circle lie on it, and neighbours a chord apart.
func TestBoltCircleProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 60).Draw(t, "n")
		d := rapid.Float64Range(1, 500).Draw(t, "diameter")
		p, err := gasket.BoltCircle(n, units.MM(d), units.Angle(rapid.Float64Range(-10, 10).Draw(t, "first")))
		if err != nil {
			t.Fatal(err)
		}
		chord, err := gasket.Chord(n, units.MM(d))
		if err != nil {
			t.Fatal(err)
		}
		for i, h := range p {
			if r := h.At.Distance(gasket.Point{}).MM(); math.Abs(r-d/2) > 1e-8 {
				t.Fatalf("hole %d at a radius of %.10g", i+1, r)
			}
			if c := h.At.Distance(p[(i+1)%n].At).MM(); math.Abs(c-chord.MM()) > 1e-8 {
				t.Fatalf("hole %d to the next %.10g, chord %v", i+1, c, chord)
			}
		}
	})
}

func TestRectangle(t *testing.T) {
	p, err := gasket.Rectangle(3, 3, units.MM(48), units.MM(32))
	if err != nil {
		t.Fatal(err)
	}
	// the chest of the registration cases, in its order
	want := []gasket.Point{mm(-24, -16), mm(0, -16), mm(24, -16), mm(24, 0), mm(24, 16), mm(0, 16), mm(-24, 16), mm(-24, 0)}
	if len(p) != len(want) {
		t.Fatalf("%d holes, want %d", len(p), len(want))
	}
	for i, h := range p {
		if h.At != want[i] || h.Name != fmt.Sprint(i+1) {
			t.Errorf("hole %s at %v, want %v", h.Name, h.At, want[i])
		}
	}
}

func TestSpans(t *testing.T) {
	p, err := gasket.BoltCircle(4, units.MM(40), 0)
	if err != nil {
		t.Fatal(err)
	}
	p[0].Diameter = units.MM(4)
	spans, err := p.Spans(units.MM(3))
	if err != nil {
		t.Fatal(err)
	}
	side := 20 * math.Sqrt2
	want := []struct {
		pair                   string
		centres, over, between float64
	}{
		{"1-2", side, side + 3.5, side - 3.5}, {"2-3", side, side + 3, side - 3}, {"3-4", side, side + 3, side - 3},
		{"1-4", side, side + 3.5, side - 3.5}, {"1-3", 40, 43.5, 36.5}, {"2-4", 40, 43, 37},
	}
	if len(spans) != len(want) {
		t.Fatalf("spans %v", spans)
	}
	for i, w := range want {
		s := spans[i]
		if got := s.First + "-" + s.Second; got != w.pair {
			t.Errorf("span %d is %s, want %s", i, got, w.pair)
		}
		near(t, w.pair, s.Centres.MM(), w.centres, 1e-8)
		near(t, w.pair+" over pins", s.OverPins.MM(), w.over, 1e-8)
		near(t, w.pair+" between pins", s.BetweenPins.MM(), w.between, 1e-8)
	}
}

// Six on 36 mm from the corner with screws of 2 mm in divisions of 0.02 mm, and
// with one of 0.1 in whose dial counts down: dials by hand.
func TestSettings(t *testing.T) {
	points := []gasket.Point{mm(18, 36), mm(33.588, 27), mm(2.412, 9)}
	x := gasket.Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	y := gasket.Handwheel{PerTurn: units.Inch(0.1), Division: units.Thou(1), Down: true}
	got, err := gasket.Settings(points, []string{"a", "b", "c"}, x, y, units.MM(1))
	if err != nil {
		t.Fatal(err)
	}
	type dial struct {
		turns   int
		reading units.Length
		over    bool
		error   float64
	}
	want := []struct{ x, y dial }{
		// y: 36 mm is 1.41732 in; counted down -1.417 in is -15 turns and 0.083 in
		{dial{9, units.MM(0), false, 0}, dial{-15, units.Thou(83), true, 1.417*25.4 - 36}},
		{dial{16, units.MM(1.58), false, -0.008}, dial{-11, units.Thou(37), false, 1.063*25.4 - 27}},
		{dial{1, units.MM(0.42), true, 0.008}, dial{-4, units.Thou(46), false, 0.354*25.4 - 9}},
	}
	for i, w := range want {
		for _, axis := range []struct {
			name string
			got  gasket.DialSetting
			want dial
		}{{"x", got[i].X, w.x}, {"y", got[i].Y, w.y}} {
			if axis.got.Turns != axis.want.turns || axis.got.Reading != axis.want.reading || (axis.got.Over.Sign() > 0) != axis.want.over {
				t.Errorf("hole %s, %s: %+v, want %+v", got[i].Hole, axis.name, axis.got, axis.want)
			}
			near(t, axis.name+" error", axis.got.Error.MM(), axis.want.error, 1e-9)
		}
	}
}

// Whatever the points, the dials say where the slides stand to half a division,
// and a slide goes past only when it has to come back.
func TestSettingsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []gasket.Point
		for range rapid.IntRange(1, 8).Draw(t, "n") {
			points = append(points, mm(rapid.Float64Range(-100, 100).Draw(t, "x"), rapid.Float64Range(-100, 100).Draw(t, "y")))
		}
		w := gasket.Handwheel{PerTurn: units.MM(1.5), Division: units.MM(0.05), Down: rapid.Bool().Draw(t, "down")}
		set, err := gasket.Settings(points, nil, w, w, units.MM(0.5))
		if err != nil {
			t.Fatal(err)
		}
		stand, sign := 0.0, 1.0
		if w.Down {
			sign = -1
		}
		for i, s := range set {
			at := float64(s.X.Turns)*1.5 + s.X.Reading.MM()
			if s.X.Reading.Sign() < 0 || s.X.Reading.Cmp(w.PerTurn) >= 0 || math.Abs(sign*at-s.X.Error.MM()-points[i].X.MM()) > 1e-9 || math.Abs(s.X.Error.MM()) > 0.025+1e-9 {
				t.Fatalf("%+v for %v", s.X, points[i].X)
			}
			if (at < stand-1e-9) != !s.X.Over.IsZero() {
				t.Fatalf("from %g to %g: %+v", stand, at, s.X)
			}
			stand = at
		}
	})
}

func TestIndexing(t *testing.T) {
	circles := []int{15, 16, 17, 18, 19, 20}
	for _, test := range []struct {
		n, ratio int
		want     gasket.IndexMove
		all      int
	}{
		// Arithmetic: 40 turns for one of the work.
		{8, 40, gasket.IndexMove{Turns: 5}, 1},
		{6, 40, gasket.IndexMove{Turns: 6, Spaces: 12, Circle: 18}, 2},
		{7, 60, gasket.IndexMove{Turns: 8, Spaces: 12, Circle: 21}, 1},
		{50, 40, gasket.IndexMove{Spaces: 16, Circle: 20}, 2},
	} {
		moves, err := gasket.Indexing(test.n, test.ratio, append([]int{21}, circles...)[btoi(test.n != 7):])
		if err != nil || moves[0] != test.want || len(moves) != test.all {
			t.Errorf("%d at %d: %v, %v; want %v of %d", test.n, test.ratio, moves, err, test.want, test.all)
		}
	}
	if _, err := gasket.Indexing(127, 40, circles); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "multiple of 127") {
		t.Errorf("127: %v", err)
	}
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func TestPatternRefuses(t *testing.T) {
	two := gasket.Pattern{{Name: "a"}, {Name: "b", At: mm(1, 0)}}
	wheel := gasket.Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	settings := func(x gasket.Handwheel, overrun units.Length, points ...gasket.Point) error {
		_, err := gasket.Settings(points, nil, x, wheel, overrun)
		return err
	}
	second := func(_ any, err error) error { return err }
	for _, test := range []struct {
		name string
		err  error
		want error
		text string
	}{
		{"no holes", second(gasket.BoltCircle(0, units.MM(10), 0)), units.ErrOutOfRange, "holes on the circle 0"},
		{"too many", second(gasket.BoltCircle(1e6, units.MM(10), 0)), units.ErrOutOfRange, "1 to 100000"},
		{"no circle", second(gasket.BoltCircle(6, units.MM(0), 0)), units.ErrOutOfRange, "bolt circle diameter 0 mm"},
		{"no angle", second(gasket.BoltCircle(6, units.MM(10), units.Angle(math.NaN()))), units.ErrNotFinite, "angle of the first hole"},
		{"one along the width", second(gasket.Rectangle(1, 2, units.MM(1), units.MM(1))), units.ErrOutOfRange, "along the width 1"},
		{"one along the height", second(gasket.Rectangle(2, 1, units.MM(1), units.MM(1))), units.ErrOutOfRange, "along the height 1"},
		{"no width", second(gasket.Rectangle(2, 2, units.MM(0), units.MM(1))), units.ErrOutOfRange, "width of the rectangle"},
		{"no height", second(gasket.Rectangle(2, 2, units.MM(1), units.MM(-1))), units.ErrOutOfRange, "height of the rectangle"},
		{"chord of one", second(gasket.Chord(1, units.MM(1))), units.ErrOutOfRange, "2 to"},
		{"chord of nothing", second(gasket.Chord(2, units.MM(0))), units.ErrOutOfRange, "above zero"},
		{"span of one", second(two[:1].Spans(units.MM(1))), units.ErrOutOfRange, "holes to measure 1"},
		{"span without pins", second(two.Spans(units.MM(0))), units.ErrMissing, `diameter of hole "a"`},
		{"span with negative pins", second(two.Spans(units.MM(-1))), units.ErrOutOfRange, "pin diameter"},
		{"no overrun", settings(wheel, units.MM(0)), units.ErrOutOfRange, "overrun"},
		{"no screw", settings(gasket.Handwheel{}, units.MM(1)), units.ErrOutOfRange, "X screw"},
		{"odd division", settings(gasket.Handwheel{PerTurn: units.MM(2), Division: units.MM(0.03)}, units.MM(1)), units.ErrOutOfRange, "X dial"},
		{"far away", settings(gasket.Handwheel{PerTurn: units.Micron(1), Division: units.Micron(1)}, units.MM(1), mm(1e5, 0)), units.ErrOutOfRange, "a million turns"},
		{"no divisions", second(gasket.Indexing(0, 40, nil)), units.ErrOutOfRange, "divisions 0"},
		{"no ratio", second(gasket.Indexing(6, 0, nil)), units.ErrOutOfRange, "ratio"},
		{"no circle of holes", second(gasket.Indexing(6, 40, []int{0})), units.ErrOutOfRange, "index circle"},
	} {
		if !errors.Is(test.err, test.want) || !strings.Contains(fmt.Sprint(test.err), test.text) {
			t.Errorf("%s: error %v, want %v with %q", test.name, test.err, test.want, test.text)
		}
	}
}
