package gasket

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// Points fix the angle of a pose unless they say nothing of it, as two in one place do or a
// square laid on its mirror image; what is next to nothing goes by their size.
func TestLeastSquaresFixes(t *testing.T) {
	square := []vec{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	mirrored := func(off float64) []vec { return []vec{{1 + off, 0}, {0, -1}, {-1, 0}, {0, 1}} }
	for _, test := range []struct {
		name string
		a, b []vec
		want bool
	}{
		{"as it is", square, square, true},
		{"two on one place", square[:2], []vec{{3, 3}, {3, 3}}, false},
		{"mirrored", square, mirrored(0), false},
		{"mirrored, and a little off", square, mirrored(1e-9), true},
		{"mirrored, and off by next to nothing", square, mirrored(1e-12), false},
	} {
		for _, size := range []float64{1e-3, 1, 1e4} {
			a, b := make([]vec, len(test.a)), make([]vec, len(test.a))
			for i := range a {
				a[i], b[i] = test.a[i].scale(size), test.b[i].scale(size)
			}
			p, ok := leastSquares(a, b, func(int) float64 { return 3 })
			if ok != test.want || !ok && p != (pose{}) {
				t.Errorf("%s, %g times: %v, %v", test.name, size, p, ok)
			}
		}
	}
	// Weights count: the heavy pair keeps its place when the light one moves along.
	p, ok := leastSquares([]vec{{0, 0}, {10, 0}}, []vec{{0, 0}, {11, 0}},
		func(i int) float64 { return []float64{9, 1}[i] })
	if !ok || math.Abs(p.turn) > 1e-12 || math.Abs(p.shift.x-0.1) > 1e-12 || math.Abs(p.shift.y) > 1e-12 {
		t.Errorf("%+v", p)
	}
}

// A web of just the least width and a hole of just 3/32 in are good enough.
func TestCheckAtTheLimits(t *testing.T) {
	pm := units.Picometres(1)
	side := units.MM(20)
	check := func(d units.Length, from units.Length) string {
		o := Outline{Outside: Loop{{Point{}, 0}, {Point{X: side}, 0}, {Point{side, side}, 0}, {Point{Y: side}, 0}},
			Holes: Pattern{{At: Point{from.Add(d.Scale(0.5)), units.MM(10)}, Diameter: d}}}
		fs, err := o.Check(units.MM(1))
		if err != nil {
			t.Fatal(err)
		}
		var codes []string
		for _, f := range fs {
			codes = append(codes, string(f.Code))
		}
		return strings.Join(codes, " ")
	}
	least := units.InchFraction(3, 32)
	for _, test := range []struct {
		d, from units.Length
		want    string
	}{
		{units.MM(4), units.MM(1.5), ""}, {units.MM(4), units.MM(1.5).Sub(pm.Scale(10)), "narrow-web"}, {least, units.MM(5), ""},
		{least.Sub(pm.Scale(2)), units.MM(5), "small-hole"},
		{units.MM(2.5), units.MM(5), ""}, {units.MM(1), units.MM(1), "narrow-web small-hole"},
	} {
		if got := check(test.d, test.from); got != test.want {
			t.Errorf("%v at %v: %q, want %q", test.d, test.from, got, test.want)
		}
	}
	for mm, want := range map[float64]float64{0.1: 1.5, 1.5: 1.5, 1.6: 1.6, 3: 3} {
		if got := LeastWeb(units.MM(mm)); got != units.MM(want) {
			t.Errorf("%g mm: %v", mm, got)
		}
	}
}

// The hole that is nearest is the one whose edge is, and not whose middle is.
func TestNearestHoles(t *testing.T) {
	for _, test := range []struct {
		holes []disc
		want  [][2]int
	}{
		{[]disc{{vec{0, 0}, 1}, {vec{10, 0}, 4}, {vec{0, 9}, 0.5}}, [][2]int{{0, 1}, {0, 2}}},
		{[]disc{{vec{0, 0}, 1}, {vec{10, 0}, 1}, {vec{0, 9}, 0.5}}, [][2]int{{0, 2}, {0, 1}}},
		{[]disc{{vec{0, 0}, 1}}, nil},
		{[]disc{{vec{0, 0}, 1}, {vec{9, 9}, 1}}, [][2]int{{0, 1}}},
		// A large one far along x is nearer than a small one beside.
		{[]disc{{vec{0, 0}, 1}, {vec{3, 12}, 0.1}, {vec{30, 0}, 20}}, [][2]int{{0, 2}, {1, 2}}},
		// Of two as near the first is taken, whichever way they stand.
		{[]disc{{vec{0, 0}, 1}, {vec{-5, 0}, 1}, {vec{5, 0}, 1}}, [][2]int{{0, 1}, {0, 2}}},
		{[]disc{{vec{0, 0}, 1}, {vec{5, 0}, 1}, {vec{-5, 0}, 1}}, [][2]int{{0, 1}, {0, 2}}},
	} {
		got := nearestHoles(test.holes)
		same := len(got) == len(test.want)
		for _, pair := range test.want {
			found := false
			for _, p := range got {
				found = found || p == pair
			}
			same = same && found
		}
		for i := range got {
			same = same && (i == 0 || got[i-1][0] < got[i][0] || got[i-1][0] == got[i][0] && got[i-1][1] < got[i][1])
		}
		if !same {
			t.Errorf("%v: %v, want %v", test.holes, got, test.want)
		}
	}
}

// A hole as wide as its stud goes over it in its right place alone: anywhere else it is
// said to be too small, and one that is wider to have too little room.
func TestWhyNot(t *testing.T) {
	p := Pattern{{Name: "a"}, {Name: "b", At: Point{X: units.MM(30)}}, {Name: "c", At: Point{Y: units.MM(50)}}}
	q := append(Pattern{}, p...)
	q[1].At.X = units.MM(31)
	for hole, want := range map[float64]string{3: "is too small even in its right place", 3.1: "and has room for 0.050 mm.", 2.9: "is too small even in its right place"} {
		m, err := Match(t.Context(), p.Drilled(units.MM(hole)), q, MatchOptions{Stud: units.MM(3), Ordered: true})
		if err != nil || len(m.Findings) == 0 || !strings.Contains(m.Findings[0].Text, want) {
			t.Errorf("holes of %g mm: %v, %v", hole, m.Findings, err)
		}
	}
	m, err := Match(t.Context(), p.Drilled(units.MM(3)), p, MatchOptions{Stud: units.MM(3)})
	if err != nil || !m.Goes || m.Findings != nil {
		t.Errorf("holes of 3 mm in their right places: %v, %v", m.Findings, err)
	}
}
