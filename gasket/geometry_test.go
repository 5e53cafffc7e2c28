package gasket

import (
	"math"
	"slices"
	"testing"
)

// arc returns the arc of a circle between two angles in degrees.
func arc(x, y, r, from, to float64) curve {
	sin, cos := math.Sincos(from * math.Pi / 180)
	return arcAbout(vec{x, y}, vec{cos, sin}.scale(r), (to-from)*math.Pi/180)
}

func line(x1, y1, x2, y2 float64) curve { return curve{from: vec{x1, y1}, to: vec{x2, y2}} }

// Where lines and arcs meet, by hand: across, at ends, along each other, touching, just
// not; whichever comes first and whichever way it runs.
func TestCrossingsByHand(t *testing.T) {
	full, chord := arc(0, 0, 5, -90, 269), math.Sqrt(25-4.6*4.6)
	for _, test := range []struct {
		name string
		a, b curve
		want []vec
	}{
		{"cross", line(-1, 0, 1, 0), line(0, -1, 0, 1), []vec{{0, 0}}},
		{"at an end of one", line(0, 0, 1, 0), line(0, -1, 0, 1), []vec{{0, 0}}},
		{"at the other end", line(-1, 0, 0, 0), line(0, -1, 0, 1), []vec{{0, 0}}},
		{"at ends of both", line(0, 0, 1, 0), line(0, 0, 0, 1), []vec{{0, 0}}},
		{"short of each other", line(0.001, 0, 1, 0), line(0, -1, 0, 1), nil},
		{"beyond each other", line(-1, 0, -0.001, 0), line(0, -1, 0, 1), nil},
		{"below", line(-1, -1.001, 1, -1.001), line(0, -1, 0, 1), nil},
		{"above", line(-1, 1.001, 1, 1.001), line(0, -1, 0, 1), nil},
		{"side by side", line(0, 0, 4, 0), line(0, 1, 4, 1), nil},
		{"along each other", line(0, 0, 4, 0), line(1, 0, 6, 0), []vec{{1, 0}, {4, 0}}},
		{"one within the other", line(0, 0, 4, 0), line(1, 0, 3, 0), []vec{{1, 0}, {3, 0}}},
		{"one after the other", line(0, 0, 4, 0), line(4, 0, 6, 0), []vec{{4, 0}}},
		{"apart on one line", line(0, 0, 4, 0), line(5, 0, 6, 0), nil},
		{"nearly along each other, far out", line(0, 0, 1e4, 1e-3), line(0, 1e-3, 1e4, 0), []vec{{5e3, 5e-4}}},
		{"through a circle", line(-9, 3, 9, 3), full, []vec{{-4, 3}, {4, 3}}},
		{"into a circle", line(0, 3, 9, 3), full, []vec{{4, 3}}},
		{"within a circle", line(-3, 3, 3, 3), full, nil},
		{"touching a circle", line(-9, 5, 9, 5), full, []vec{{0, 5}}},
		{"ending on a circle", line(0, 0, 3, 4), full, []vec{{3, 4}}},
		{"starting on a circle", line(3, 4, 0, 0), full, []vec{{3, 4}}},
		{"past a circle", line(-9, 5.001, 9, 5.001), full, nil},
		{"through the gap of an arc", line(0, 0, 9, 0), arc(0, 0, 5, 10, 350), nil},
		{"through the arc", line(0, 0, -9, 0), arc(0, 0, 5, 10, 350), []vec{{-5, 0}}},
		{"through an arc that runs the other way", line(0, 0, 0, 9), arc(0, 0, 5, 100, 80), []vec{{0, 5}}},
		{"beside it", line(0, 0, 9, 0), arc(0, 0, 5, 100, 80), nil},
		{"two circles", full, arc(6, 0, 5, -90, 269), []vec{{3, 4}, {3, -4}}},
		{"two circles, upright", full, arc(0, 8, 5, -90, 269), []vec{{3, 4}, {-3, 4}}},
		// The common chord lies 5 - 4/10 from the middle of the larger, square to the way of 3 and 4.
		{"of unlike size", full, arc(3, 4, 2, 0, 359),
			[]vec{{0.6*4.6 - 0.8*chord, 0.8*4.6 + 0.6*chord}, {0.6*4.6 + 0.8*chord, 0.8*4.6 - 0.6*chord}}},
		{"touching outside", full, arc(9, 0, 4, 0, 350), []vec{{5, 0}}},
		{"touching inside", full, arc(3, 0, 2, -170, 170), []vec{{5, 0}}},
		{"apart", full, arc(9.001, 0, 4, -90, 269), nil},
		{"one within another", full, arc(2.9, 0, 2, -90, 269), nil},
		{"about one middle", full, arc(0, 0, 4, 0, 359), nil},
		{"arcs that would cross where they are not", arc(0, 0, 5, 90, 270), arc(6, 0, 5, 90, 270), nil},
		{"arcs of one circle", arc(0, 0, 5, 0, 90), arc(0, 0, 5, 45, 135), []vec{{5 * math.Sqrt2 / 2, 5 * math.Sqrt2 / 2}, {0, 5}}},
	} {
		for _, pair := range [][2]curve{{test.a, test.b}, {test.b, test.a}, {reversed([]curve{test.a})[0], test.b},
			{test.b, reversed([]curve{test.a})[0]}} {
			got := crossings(pair[0], pair[1])
			for _, p := range got {
				if !slices.ContainsFunc(test.want, func(q vec) bool { return q.sub(p).abs() < 1e-6 }) {
					t.Errorf("%s: %v, want %v", test.name, got, test.want)
				}
			}
			for _, q := range test.want {
				if !slices.ContainsFunc(got, func(p vec) bool { return q.sub(p).abs() < 1e-6 }) {
					t.Errorf("%s: %v, want %v", test.name, got, test.want)
				}
			}
			p, q := closest(pair[0], pair[1])
			if (p.sub(q).abs() < 1e-9) != (len(test.want) > 0) {
				t.Errorf("%s: closest %v and %v", test.name, p, q)
			}
		}
	}
}

// How near lines and arcs come, by hand, where they do not meet.
func TestClosestByHand(t *testing.T) {
	full := arc(0, 0, 5, -90, 269)
	for _, test := range []struct {
		name string
		a, b curve
		want float64
	}{
		{"side by side", line(0, 0, 4, 0), line(1, 2, 3, 2), 2},
		{"end to end", line(0, 0, 1, 0), line(4, 4, 9, 4), 5},
		{"end to side", line(0, 1, 0, 4), line(-9, 0, 9, 0), 1},
		{"circle and line", full, line(-9, 7, 9, 7), 2},
		{"circle and a line within", full, line(-1, 3, 1, 3), 5 - math.Sqrt(10)},
		{"circle and a line that ends short", full, line(8, 0, 12, 0), 3},
		{"circles apart", full, arc(12, 5, 4, 0, 359), 4},
		{"a circle within", full, arc(1, 0, 2, 0, 359), 2},
		{"about one middle", full, arc(0, 0, 2, 0, 359), 3},
		{"arcs back to back", arc(0, 0, 5, 90, 270), arc(20, 0, 5, -90, 90), math.Hypot(20, 0)},
		{"an arc that faces away", arc(0, 0, 5, 150, 210), arc(20, 0, 5, 150, 210), math.Hypot(20+5*math.Sqrt(3)/2, 2.5) - 5},
		{"an arc that faces across its middle", arc(0, 0, 5, 150, 210), line(3, -9, 3, 9), 3 + 5*math.Sqrt(3)/2},
		{"arcs nested", arc(0, 0, 5, -30, 30), arc(1, 0, 2, -30, 30), 2},
		{"arcs nested the other way", arc(0, 0, 5, 150, 210), arc(-1, 0, 2, 150, 210), 2},
	} {
		for _, pair := range [][2]curve{{test.a, test.b}, {test.b, test.a}} {
			p, q := closest(pair[0], pair[1])
			if math.Abs(p.sub(q).abs()-test.want) > 1e-9 {
				t.Errorf("%s: %g, want %g", test.name, p.sub(q).abs(), test.want)
			}
		}
	}
}

// A point is inside a loop of arcs that bulge out and in, whichever way it runs: the lens
// of two arcs, and the moon between them.
func TestInsideByHand(t *testing.T) {
	lens := []curve{arc(-3, 0, 5, -53.13010235415598, 53.13010235415598),
		arc(3, 0, 5, 126.86989764584402, 233.13010235415598)}
	moon := []curve{arc(-3, 0, 5, 53.13010235415598, 306.86989764584402),
		arc(3, 0, 5, -126.86989764584402, -233.13010235415598)}
	for _, test := range []struct {
		name string
		l    []curve
		p    vec
		want bool
	}{
		{"lens", lens, vec{0, 0}, true}, {"lens", lens, vec{1.9, 0}, true}, {"lens", lens, vec{2.1, 0}, false},
		{"lens", lens, vec{0, 3.9}, true},
		{"lens", lens, vec{0, 4.1}, false}, {"lens", lens, vec{-7, 0}, false}, {"lens", lens, vec{7, 0}, false},
		{"lens", lens, vec{-1.9, 0}, true},
		{"moon", moon, vec{-5, 0}, true}, {"moon", moon, vec{-2.1, 0}, true}, {"moon", moon, vec{-1.9, 0}, false},
		{"moon", moon, vec{0, 0}, false},
		{"moon", moon, vec{7, 0}, false}, {"moon", moon, vec{-8.1, 0}, false}, {"moon", moon, vec{-3, 4.9}, true},
	} {
		for _, l := range [][]curve{test.l, reversed(test.l)} {
			if inside(l, test.p) != test.want {
				t.Errorf("%s: %v inside %v", test.name, test.p, !test.want)
			}
		}
	}
}

// Points at just the reach are within it, of two as near the first is taken, and where
// there is none it is told.
func TestNearest(t *testing.T) {
	s := byX([]vec{{3, 0}, {-3, 0}, {0, 3}, {10, 0}, {0, 30}})
	for _, test := range []struct {
		p     vec
		reach float64
		want  []int
	}{
		{vec{0, 0}, 3, []int{0, 1, 2}}, {vec{0, 0}, 2.999, []int{-1}}, {vec{0.1, 0}, 3, []int{0}}, {vec{7, 0}, 3, []int{3}},
		{vec{6, 0}, 4, []int{0}}, {vec{-3, 1}, 3, []int{1}}, {vec{100, 0}, 50, []int{-1}}, {vec{0, 25}, 40, []int{4}},
	} {
		if got := s.nearest(test.p, test.reach); !slices.Contains(test.want, got) {
			t.Errorf("near %v within %g: %d, want one of %v", test.p, test.reach, got, test.want)
		}
	}
	for want, points := range map[float64][]vec{0: {{1, 1}}, 5: {{0, 0}, {3, 4}, {20, 0}}, 2: {{0, 0}, {0, 9}, {0, 7}},
		0.5: {{9, 0}, {9.5, 0}, {0, 0}}} {
		if got := spacing(points); got != want {
			t.Errorf("%v: %g, want %g", points, got, want)
		}
	}
	if got := spacing(nil); got != 0 {
		t.Error(got)
	}
	if pairs := basePairs([]vec{{0, 0}, {1, 0}, {3, 0}, {0.2, 0}, {1.1, 0}}); !slices.Equal(pairs,
		[][2]int{{0, 2}, {3, 4}}) {
		t.Error(pairs)
	}
	if pairs := basePairs([]vec{{0, 0}}); pairs != nil {
		t.Error(pairs)
	}
	for _, pair := range [][2][]int{{{1, 2}, {2, 1}}, {{-1, 0}, {0, -1}}, {{256, 0}, {0, 256}}, {{-1}, {255}},
		{{499}, {243}}} {
		if signature(pair[0]) == signature(pair[1]) || signature(pair[0]) != signature(slices.Clone(pair[0])) {
			t.Errorf("%v", pair)
		}
	}
}

// Words and roots.
func TestSmallThings(t *testing.T) {
	for text, want := range map[string]string{"": "", "a b": "A b", "zeta": "Zeta", "Already": "Already", "{x": "{x", "`x": "`x", "1": "1"} {
		if got := capital(text); got != want {
			t.Errorf("%q: %q", text, got)
		}
	}
	for want, names := range map[string][]string{"a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}} {
		if got := list(names); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for _, test := range []struct {
		a, b, c float64
		want    []float64
	}{
		{0, 0, 1, nil}, {0, 2, -6, []float64{3}}, {1, 0, 1, nil}, {1, -5, 6, []float64{2, 3}}, {1, 5, 6, []float64{-3, -2}},
		{2, 0, -8, []float64{-2, 2}},
		{3, 0, 0, []float64{0}}, {1, -2, 1, []float64{1, 1}}, {1, -4, 0, []float64{0, 4}}, {-1, 0, 4, []float64{-2, 2}},
		{1, -1e9, 1, []float64{1e-9, 1e9}},
	} {
		got := quadraticRoots(test.a, test.b, test.c)
		slices.Sort(got)
		same := len(got) == len(test.want)
		for i := range got {
			same = same && math.Abs(got[i]-test.want[i]) <= 1e-12*math.Abs(test.want[i])
		}
		if !same {
			t.Errorf("%+v: %v", test, got)
		}
	}
}
