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

func TestHoleCircleAboutACentre(t *testing.T) {
	for r := range check.Open(t, "gasket/hole_circle.csv").Rows() {
		p, err := gasket.BoltCircle(int(r.Float("holes")), units.MM(r.Float("diameter")), units.Angle(r.Float("first"))*units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		datum := gasket.Datum{Origin: mm(-r.Float("centre_x"), -r.Float("centre_y"))}
		hole := p.From(datum)[int(r.Float("hole"))-1]
		r.Within("x", hole.X.MM(), 0.00005) // worked to four places, ends of 0 left off
		r.Within("y", hole.Y.MM(), 0.00005)
		// The same circle turned and moved, and its first hole turned to the place of each.
		centre := mm(r.Float("centre_x"), r.Float("centre_y"))
		about, err := gasket.BoltCircle(int(r.Float("holes")), units.MM(r.Float("diameter")), 0)
		if err != nil {
			t.Fatal(err)
		}
		moved := about.Turned(units.Angle(r.Float("first")) * units.Degree).Moved(centre)[int(r.Float("hole"))-1].At
		r.Within("x", moved.X.MM(), 0.00005)
		r.Within("y", moved.Y.MM(), 0.00005)
		at := units.Angle(r.Float("first")+360*(r.Float("hole")-1)/r.Float("holes")) * units.Degree
		point := about[0].At.Turned(at).Add(centre)
		r.Within("x", point.X.MM(), 0.00005)
		r.Within("y", point.Y.MM(), 0.00005)
		if back := point.Sub(centre).Turned(-at).Distance(about[0].At); back.MM() > 1e-8 {
			t.Errorf("%s: %v off when it is turned back", r.ID, back)
		}
	}
}

func TestChord(t *testing.T) {
	f := check.Open(t, "gasket/chord.csv")
	for r := range f.Rows() {
		r.Compare("chord", chord(t, int(r.Float("holes"))))
		s, err := gasket.StepOff(int(r.Float("holes")), units.MM(1000))
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("chord", s.Opening().Metres())
	}
	check.Errata(t, "gasket", map[string]float64{"chord-15": chord(t, 15), "chord-17": chord(t, 17)})
}

// chord measures from hole 1 to hole 2 of n on a circle of one metre, in metres.
func chord(t *testing.T, n int) float64 {
	t.Helper()
	p, err := gasket.BoltCircle(n, units.MM(1000), 0)
	if err != nil {
		t.Fatal(err)
	}
	return p[0].At.Distance(p[1].At).Metres()
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
		chord := d * math.Sin(math.Pi/float64(n))
		for i, h := range p {
			if r := h.At.Distance(gasket.Point{}).MM(); math.Abs(r-d/2) > 1e-8 {
				t.Fatalf("hole %d at a radius of %.10g", i+1, r)
			}
			if c := h.At.Distance(p[(i+1)%n].At).MM(); math.Abs(c-chord) > 1e-8 {
				t.Fatalf("hole %d to the next %.10g, chord %.10g", i+1, c, chord)
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
	want := []gasket.Point{
		mm(-24, -16), mm(0, -16), mm(24, -16), mm(24, 0), mm(24, 16), mm(0, 16), mm(-24, 16), mm(-24, 0),
	}
	if len(p) != len(want) {
		t.Fatalf("%d holes, want %d", len(p), len(want))
	}
	for i, h := range p {
		if h.At != want[i] || h.Name != fmt.Sprint(i+1) {
			t.Errorf("hole %s at %v, want %v", h.Name, h.At, want[i])
		}
	}
}

func TestPatternRefuses(t *testing.T) {
	two := gasket.Pattern{{Name: "a"}, {Name: "b", At: mm(1, 0)}}
	second := check.Only
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
		{"angle of a slip", second(gasket.BoltCircle(6, units.MM(10), 1e300)), units.ErrOutOfRange, "1000 turns"},
		{"one along the width", second(gasket.Rectangle(1, 2, units.MM(1), units.MM(1))), units.ErrOutOfRange, "along the width 1"},
		{"one along the height", second(gasket.Rectangle(2, 1, units.MM(1), units.MM(1))), units.ErrOutOfRange, "along the height 1"},
		{"no width", second(gasket.Rectangle(2, 2, units.MM(0), units.MM(1))), units.ErrOutOfRange, "width of the rectangle"},
		{"no height", second(gasket.Rectangle(2, 2, units.MM(1), units.MM(-1))), units.ErrOutOfRange, "height of the rectangle"},
		{"span of one", second(two[:1].Spans(units.MM(1))), units.ErrOutOfRange, "holes to measure 1"},
		{"span without pins", second(two.Spans(units.MM(0))), units.ErrMissing, `diameter of hole "a"`},
		{"span with negative pins", second(two.Spans(units.MM(-1))), units.ErrOutOfRange, "pin diameter"},
		{"span with pins of 4000 km", second(two.Spans(units.MM(1e6).Scale(4000))), units.ErrOutOfRange, "zero to 1 km"},
		{"span of 8000 km", second(gasket.Pattern{{At: gasket.Point{X: units.MM(1e6).Scale(-4000)}}, {At: gasket.Point{X: units.MM(1e6).Scale(4000)}}}.Spans(units.MM(1))), units.ErrOutOfRange, "within 1 km"},
	} {
		if !errors.Is(test.err, test.want) || !strings.Contains(fmt.Sprint(test.err), test.text) {
			t.Errorf("%s: error %v, want %v with %q", test.name, test.err, test.want, test.text)
		}
	}
}
