package gasket_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// wkt reads the rings of a polygon in well-known text.
func wkt(t *testing.T, text string) []gasket.Loop {
	t.Helper()
	var loops []gasket.Loop
	for ring := range strings.SplitSeq(strings.Trim(strings.TrimPrefix(text, "POLYGON "), "()"), "), (") {
		var xy []float64
		for point := range strings.SplitSeq(ring, ", ") {
			for v := range strings.FieldsSeq(point) {
				f, err := strconv.ParseFloat(v, 64)
				if err != nil {
					t.Fatal(err)
				}
				xy = append(xy, f)
			}
		}
		loops = append(loops, polygon(xy[:len(xy)-2]...)) // the last point repeats the first
	}
	return loops
}

func TestMeasurePolygons(t *testing.T) {
	f := check.Open(t, "gasket/areas.csv")
	for r := range f.Rows() {
		loops := wkt(t, r.Text("geometry"))
		m, err := gasket.Outline{Name: r.ID, Outside: loops[0], Cutouts: loops[1:]}.Measure()
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("area_mm2", m.Area.In(units.SquareMillimetre))
		r.Compare("centroid_x_mm", m.Centroid.X.MM())
		r.Compare("centroid_y_mm", m.Centroid.Y.MM())
		r.Compare("perimeter_mm", m.Edge.MM())
		sides := 0.0
		for _, loop := range loops {
			edges, err := loop.Edges()
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range edges {
				if !e.Straight() {
					t.Errorf("%s: %v is no line", r.ID, e)
				}
				sides += e.From.Distance(e.To).MM()
			}
		}
		r.Compare("perimeter_mm", sides)
	}
}

func TestMeasureRings(t *testing.T) {
	f := check.Open(t, "gasket/rings.csv")
	for r := range f.Rows() {
		n := int(r.Float("holes"))
		p, err := gasket.BoltCircle(n, units.MM(r.Float("circle_mm")), 0)
		if err != nil {
			t.Fatal(err)
		}
		p = p.Drilled(units.MM(r.Float("hole_mm")))
		if r.Has("without") {
			p = p[:int(r.Float("without"))-1]
		}
		o, err := gasket.Round(r.ID, units.MM(r.Float("outside_mm")), units.MM(r.Float("opening_mm")), p)
		if err != nil {
			t.Fatal(err)
		}
		m, err := o.Measure()
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("area_mm2", m.Area.In(units.SquareMillimetre))
		r.Compare("centroid_x_mm", m.Centroid.X.MM())
		r.Compare("centroid_y_mm", m.Centroid.Y.MM())
		if !r.Has("outer_web_mm") {
			continue
		}
		webs, err := o.Webs()
		if err != nil {
			t.Fatal(err)
		}
		least := func(from, to string) float64 {
			for _, w := range webs { // narrowest first
				if strings.HasPrefix(w.From, from) && strings.HasPrefix(w.To, to) {
					return w.Width.MM()
				}
			}
			t.Fatalf("no web from %s to %s", from, to)
			return 0
		}
		r.Compare("outer_web_mm", least("hole", "the outside"))
		r.Compare("inner_web_mm", least("hole", "opening"))
		r.Compare("hole_web_mm", least("hole", "hole"))
	}
}

// A rectangle with round corners, by hand: 40 x 20 with corners of 5 mm has
// 800 - (4 - pi) 25 mm2 and an edge of 2 (30 + 10) + 10 pi mm.
func TestMeasureArcs(t *testing.T) {
	outside := gasket.Rect{Centre: mm(3, 4), Width: units.MM(40), Height: units.MM(20), Corner: units.MM(5)}
	o, err := gasket.Rectangular("plate", outside, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	m, err := o.Measure()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", m.Area.In(units.SquareMillimetre), 800-(4-math.Pi)*25, 1e-9)
	near(t, "edge", m.Edge.MM(), 80+10*math.Pi, 1e-8)
	near(t, "centroid x", m.Centroid.X.MM(), 3, 1e-9)
	near(t, "centroid y", m.Centroid.Y.MM(), 4, 1e-9)
	if m.Min != mm(-17, -6) || m.Max != mm(23, 14) {
		t.Errorf("corners %v %v", m.Min, m.Max)
	}
}

// star draws a loop whose corners stand at increasing angles about the origin,
// with sides that bulge a little.
func star(t *rapid.T) gasket.Loop {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	var l gasket.Loop
	for i := range n {
		r := rapid.Float64Range(25, 40).Draw(t, "radius")
		bulge := rapid.SampledFrom([]float64{0, 0, 0.1, -0.05, 0.15}).Draw(t, "bulge")
		at := gasket.Point{X: units.MM(r)}.Turned(units.Angle(2 * math.Pi * float64(i) / float64(n)))
		l = append(l, gasket.Vertex{Point: at, Bulge: bulge})
	}
	return l
}

// flattened replaces every arc by many short sides.
func flattened(t *rapid.T, l gasket.Loop) (xy [][2]float64) {
	edges, err := l.Edges()
	if err != nil {
		t.Fatal(err)
	}
	const pieces = 500
	for _, e := range edges {
		if e.Straight() {
			xy = append(xy, [2]float64{e.From.X.MM(), e.From.Y.MM()})
			continue
		}
		for k := range pieces {
			p := e.From.Sub(e.Centre).Turned(e.Sweep * units.Angle(k) / pieces).Add(e.Centre)
			xy = append(xy, [2]float64{p.X.MM(), p.Y.MM()})
		}
	}
	return xy
}

// Area, centroid and edge of loops with arcs against the same loop cut up into
// thousands of straight pieces; turned and shifted, the area stays.
func TestMeasureFlattened(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := star(t)
		o := gasket.Outline{Name: "star", Outside: l}
		m, err := o.Measure()
		if err != nil {
			t.Skip("crosses itself")
		}
		xy := flattened(t, l)
		var area, mx, my, edge float64
		for i, p := range xy {
			q := xy[(i+1)%len(xy)]
			a := (p[0]*q[1] - q[0]*p[1]) / 2
			area += a
			mx += a * (p[0] + q[0]) / 3
			my += a * (p[1] + q[1]) / 3
			edge += math.Hypot(q[0]-p[0], q[1]-p[1])
		}
		for _, c := range []struct {
			what      string
			got, want float64
		}{
			{"area", m.Area.In(units.SquareMillimetre), area},
			{"centroid x", m.Centroid.X.MM(), mx / area},
			{"centroid y", m.Centroid.Y.MM(), my / area},
			{"edge", m.Edge.MM(), edge},
		} {
			if math.Abs(c.got-c.want) > 5e-3 {
				t.Fatalf("%s %.9g, cut up %.9g", c.what, c.got, c.want)
			}
		}
	})
}

func TestValidate(t *testing.T) {
	hole := func(x, y, d float64) gasket.Hole { return gasket.Hole{Name: "a", At: mm(x, y), Diameter: units.MM(d)} }
	square := polygon(0, 0, 40, 0, 40, 40, 0, 40)
	for _, test := range []struct {
		name string
		o    gasket.Outline
		want string // blank: valid
	}{
		{"plain", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{gasket.Circle(mm(20, 20), units.MM(20))}, Holes: gasket.Pattern{hole(4, 4, 3)}}, ""},
		{"two slots", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{polygon(5, 5, 10, 5, 10, 30, 5, 30), polygon(15, 5, 20, 5, 20, 30, 15, 30)}}, ""},
		{"no outside", gasket.Outline{}, "vertices of a loop 0"},
		{"two corners", gasket.Outline{Outside: polygon(0, 0, 40, 0)}, "encloses no area"},
		{"bow tie", gasket.Outline{Outside: polygon(0, 0, 40, 40, 40, 0, 0, 30)}, "crosses itself at sides 1 and 3"},
		{"spike", gasket.Outline{Outside: polygon(0, 0, 40, 0, 40, 40, 40, 20, 0, 40)}, "crosses itself"},
		{"arc over the far side", gasket.Outline{Outside: gasket.Loop{{Point: mm(0, 0), Bulge: -0.9}, {Point: mm(40, 0)}, {Point: mm(40, 10)}, {Point: mm(0, 10)}}}, "crosses itself at sides 1 and 3"},
		{"same corner twice", gasket.Outline{Outside: polygon(0, 0, 40, 0, 40, 0, 40, 40)}, "two different vertices"},
		{"bulge not finite", gasket.Outline{Outside: gasket.Loop{{Point: mm(0, 0), Bulge: math.Inf(1)}, {Point: mm(1, 0)}}}, "not a finite number"},
		{"nearly straight arc", gasket.Outline{Outside: gasket.Loop{{Point: mm(0, 0), Bulge: 1e-9}, {Point: mm(10, 0)}, {Point: mm(0, 10)}}}, "up to 1 km"},
		{"corner far away", gasket.Outline{Outside: polygon(0, 0, 10001, 0, 0, 40)}, "within 10,000 mm"},
		{"hole far away", gasket.Outline{Outside: square, Holes: gasket.Pattern{hole(0, 20000, 3)}}, "within 10,000 mm"},
		{"hole without size", gasket.Outline{Outside: square, Holes: gasket.Pattern{{At: mm(5, 5)}}}, "diameter of hole 1"},
		{"hole over the edge", gasket.Outline{Outside: square, Holes: gasket.Pattern{hole(1, 5, 3)}}, "hole a runs into the outside"},
		{"hole outside", gasket.Outline{Outside: square, Holes: gasket.Pattern{hole(-10, 5, 3)}}, "hole a lies outside the outside"},
		{"hole in opening", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{gasket.Circle(mm(20, 20), units.MM(20))}, Holes: gasket.Pattern{hole(20, 20, 3)}}, "hole a lies in opening 1"},
		{"hole round opening", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{gasket.Circle(mm(20, 20), units.MM(4))}, Holes: gasket.Pattern{hole(20, 20, 20)}}, "hole a runs into opening 1"},
		{"holes meet", gasket.Outline{Outside: square, Holes: gasket.Pattern{hole(10, 10, 5), {Name: "b", At: mm(14, 10), Diameter: units.MM(5)}}}, "hole b runs into hole a"},
		{"openings meet", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{gasket.Circle(mm(15, 20), units.MM(10)), gasket.Circle(mm(22, 20), units.MM(10))}}, "opening 2 runs into opening 1"},
		{"opening in opening", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{gasket.Circle(mm(20, 20), units.MM(30)), gasket.Circle(mm(20, 20), units.MM(10))}}, "opening 2 lies in opening 1"},
		{"opening outside", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{gasket.Circle(mm(80, 20), units.MM(30))}}, "opening 1 lies outside the outside"},
		{"opening over the edge", gasket.Outline{Outside: square, Cutouts: []gasket.Loop{gasket.Circle(mm(38, 20), units.MM(10))}}, "opening 1 runs into the outside"},
	} {
		t.Run(test.name, func(t *testing.T) {
			err := test.o.Validate()
			if test.want == "" && err != nil || test.want != "" && !strings.Contains(fmt.Sprint(err), test.want) {
				t.Errorf("%v, want %q", err, test.want)
			}
			if err != nil && !strings.HasPrefix(err.Error(), "gasket: ") {
				t.Errorf("%v does not begin with the package", err)
			}
		})
	}
}
