package gasket_test

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func mm(x, y float64) gasket.Point { return gasket.Point{X: units.MM(x), Y: units.MM(y)} }

func polygon(xy ...float64) gasket.Loop {
	var l gasket.Loop
	for i := 0; i < len(xy); i += 2 {
		l = append(l, gasket.Vertex{Point: mm(xy[i], xy[i+1])})
	}
	return l
}

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
		r.Compare("area_mm2", float64(m.Area/units.SquareMillimetre))
		r.Compare("centroid_x_mm", m.Centroid.X.MM())
		r.Compare("centroid_y_mm", m.Centroid.Y.MM())
		r.Compare("perimeter_mm", m.Edge.MM())
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
		r.Compare("area_mm2", float64(m.Area/units.SquareMillimetre))
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
	o, err := gasket.Rectangular("plate", gasket.Rect{Centre: mm(3, 4), Width: units.MM(40), Height: units.MM(20), Corner: units.MM(5)}, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	m, err := o.Measure()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", float64(m.Area/units.SquareMillimetre), 800-(4-math.Pi)*25, 1e-9)
	near(t, "edge", m.Edge.MM(), 80+10*math.Pi, 1e-8)
	near(t, "centroid x", m.Centroid.X.MM(), 3, 1e-9)
	near(t, "centroid y", m.Centroid.Y.MM(), 4, 1e-9)
	if m.Low != mm(-17, -6) || m.High != mm(23, 14) {
		t.Errorf("corners %v %v", m.Low, m.High)
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s %.12g, want %.12g", what, got, want)
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
			{"area", float64(m.Area / units.SquareMillimetre), area},
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

// Moved out by d, every point of the new loop lies d from the old one, and the
// areas agree with Steiner's formula where no side is hollow.
func TestOffset(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := star(t)
		d := rapid.Float64Range(0.001, 3).Draw(t, "offset") * rapid.SampledFrom([]float64{-1, 1, 2}).Draw(t, "sense")
		before, err := gasket.Outline{Outside: l}.Measure()
		if err != nil {
			t.Skip("crosses itself")
		}
		moved, err := l.Offset(units.MM(d))
		if err != nil {
			t.Fatalf("%v", err)
		}
		after, err := gasket.Outline{Outside: moved}.Measure()
		if err != nil {
			t.Fatalf("%v: %v", err, moved)
		}
		grown := float64((after.Area - before.Area) / units.SquareMillimetre)
		if (grown > 0) != (d > 0) && math.Abs(d) > 1e-6 {
			t.Fatalf("area grew by %g for %g", grown, d)
		}
		old := flattened(t, l)
		for i, p := range flattened(t, moved) {
			if i%97 != 0 {
				continue
			}
			least := math.Inf(1)
			for j, a := range old {
				b := old[(j+1)%len(old)]
				dx, dy := b[0]-a[0], b[1]-a[1]
				s := min(max(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/(dx*dx+dy*dy), 0), 1)
				least = min(least, math.Hypot(a[0]+s*dx-p[0], a[1]+s*dy-p[1]))
			}
			if math.Abs(least-math.Abs(d)) > 1e-4 {
				t.Fatalf("a point lies %.9g away, want %.9g", least, math.Abs(d))
			}
		}
	})
}

// By hand: a square of 20 mm moved out by 3 mm has 400 + 80*3 + pi 9 mm2, and in
// by 3 mm 196; an L of 40 x 40 with arms of 15 mm moved in by 3 mm two arms of
// 9 mm and the corner between them, which is round.
func TestOffsetByHand(t *testing.T) {
	square := polygon(0, 0, 20, 0, 20, 20, 0, 20)
	ell := polygon(0, 0, 40, 0, 40, 15, 15, 15, 15, 40, 0, 40)
	round := gasket.Circle(mm(1, 2), units.MM(30))
	for _, test := range []struct {
		name  string
		l     gasket.Loop
		d     float64
		area  float64
		sides int
	}{
		{"square out", square, 3, 400 + 240 + 9*math.Pi, 8},
		{"square in", square, -3, 196, 4},
		{"ell in", ell, -3, 34*9 + 9*25 + 9 - 9*math.Pi/4, 7},
		{"ell out", ell, 2, 975 + 160*2 + 5*math.Pi - 4, 11},
		{"circle out", round, 5, math.Pi * 400, 2},
		{"circle in", round, -5, math.Pi * 100, 2},
	} {
		t.Run(test.name, func(t *testing.T) {
			for _, l := range []gasket.Loop{test.l, backwards(test.l)} {
				moved, err := l.Offset(units.MM(test.d))
				if err != nil {
					t.Fatal(err)
				}
				m, err := gasket.Outline{Outside: moved}.Measure()
				if err != nil {
					t.Fatal(err)
				}
				near(t, "area", float64(m.Area/units.SquareMillimetre), test.area, 1e-5)
				if len(moved) != test.sides {
					t.Errorf("%d sides, want %d: %v", len(moved), test.sides, moved)
				}
			}
		})
	}
	for _, test := range []struct {
		name string
		l    gasket.Loop
		d    float64
		text string
	}{
		{"square closes up", square, -10.5, "closes up"},
		{"square all but closes up", square, -9.9998, "closes up"}, // 0.0004 mm are left each way
		{"circle closes up", round, -15.5, "closes up"},
		{"dumb-bell falls apart", polygon(0, 0, 20, 0, 20, 8, 40, 8, 40, 0, 60, 0, 60, 20, 40, 20, 40, 12, 20, 12, 20, 20, 0, 20), -3, "falls into 2"},
	} {
		t.Run(test.name, func(t *testing.T) {
			if _, err := test.l.Offset(units.MM(test.d)); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), test.text) {
				t.Errorf("error %v, want %q", err, test.text)
			}
		})
	}
}

// backwards is the loop drawn the other way round.
func backwards(l gasket.Loop) gasket.Loop {
	var r gasket.Loop
	for i := range l {
		r = append(r, gasket.Vertex{Point: l[(2*len(l)-i)%len(l)].Point, Bulge: -l[(2*len(l)-i-1)%len(l)].Bulge})
	}
	return r
}

func TestValid(t *testing.T) {
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
			err := test.o.Valid()
			if test.want == "" && err != nil || test.want != "" && !strings.Contains(fmt.Sprint(err), test.want) {
				t.Errorf("%v, want %q", err, test.want)
			}
			if err != nil && !strings.HasPrefix(err.Error(), "gasket: ") {
				t.Errorf("%v does not begin with the package", err)
			}
		})
	}
}

// An oval flange by hand: with ends as large as the boss it is a slot, and in
// general boss and ends are cut where the sides touch them. Its area is that of
// the trapezia between, and of the sectors.
func TestOval(t *testing.T) {
	studs := gasket.Pattern{{Name: "1", At: mm(-12, 1), Diameter: units.MM(3)}, {Name: "2", At: mm(12, 1), Diameter: units.MM(3)}}
	plain := func(o gasket.Outline) float64 {
		m, err := o.Measure()
		if err != nil {
			t.Fatal(err)
		}
		return float64(m.Enclosed / units.SquareMillimetre)
	}
	slot, err := gasket.Oval("slot", units.MM(8), units.MM(8), units.Length{}, studs)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slot", plain(slot), 24*8+math.Pi*16, 1e-7)
	gland, err := gasket.Oval("gland", units.MM(18), units.MM(8), units.MM(10), studs)
	if err != nil {
		t.Fatal(err)
	}
	angle := math.Acos((9 - 4) / 12.0)
	side := 12 * math.Sin(angle) // length of each straight side
	want := 4*side*(9+4)/2 + 2*angle*16 + (math.Pi-2*angle)*81
	near(t, "gland", plain(gland), want, 1e-7)
	turned, err := gasket.Oval("turned", units.MM(18), units.MM(8), units.MM(10), studs.Turned(0.7))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "turned gland", plain(turned), want, 1e-7)
	webs, err := gland.Webs()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "web outside a stud", webs[0].Width.MM(), 2.5, 1e-8)
	for _, test := range []struct {
		name               string
		boss, end, opening float64
		holes              gasket.Pattern
		text               string
	}{
		{"one hole", 18, 8, 0, studs[:1], "holes of an oval flange 1"},
		{"ends too large", 8, 18, 0, studs, "diameter of the ends"},
		{"no ends", 8, 0, 0, studs, "diameter of the ends"},
		{"ends inside the boss", 40, 8, 0, studs, "distance of the studs"},
		{"opening", 18, 8, 18, studs, "diameter of the opening"},
	} {
		_, err := gasket.Oval("x", units.MM(test.boss), units.MM(test.end), units.MM(test.opening), test.holes)
		if !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(fmt.Sprint(err), test.text) {
			t.Errorf("%s: error %v, want %q", test.name, err, test.text)
		}
	}
}

// The web between a round bore and a square outside turned by 45 degrees, and
// the webs of a chest: by hand.
func TestWebsByHand(t *testing.T) {
	half := 20 * math.Sqrt2 // of the diagonal
	diamond := polygon(half, 0, 0, half, -half, 0, 0, -half)
	o := gasket.Outline{Outside: diamond, Cutouts: []gasket.Loop{gasket.Circle(mm(0, 0), units.MM(24)), polygon(14, -1, 20, -1, 20, 1, 14, 1)}}
	webs, err := o.Webs()
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		from, to string
		width    float64
	}{
		{"opening 1", "opening 2", 2},
		{"opening 2", "the outside", (half - 21) / math.Sqrt2},
		{"opening 1", "the outside", 8},
	}
	if len(webs) != len(want) {
		t.Fatalf("webs %v", webs)
	}
	for i, w := range want {
		if webs[i].From != w.from || webs[i].To != w.to {
			t.Errorf("web %d from %s to %s, want %s to %s", i, webs[i].From, webs[i].To, w.from, w.to)
		}
		near(t, w.from, webs[i].Width.MM(), w.width, 1e-8)
		near(t, "distance of its ends", webs[i].AtFrom.Distance(webs[i].AtTo).MM(), w.width, 1e-8)
	}
}

func TestCheckFindings(t *testing.T) {
	holes, err := gasket.BoltCircle(6, units.MM(28), 0)
	if err != nil {
		t.Fatal(err)
	}
	o, err := gasket.Round("cover", units.MM(32), units.MM(22), holes.Drilled(units.MM(2)))
	if err != nil {
		t.Fatal(err)
	}
	fs, err := o.Check(units.MM(0.25))
	if err != nil {
		t.Fatal(err)
	}
	// The 2 mm to the opening and 12 mm between holes are enough; what is alike
	// at six holes is said once.
	if len(fs) != 2 || fs[0].Severity != finding.Caution || fs[1].Severity != finding.Note {
		t.Fatalf("findings %v", fs)
	}
	for i, want := range []string{
		"Only 1.00 mm is left between each of hole 1, hole 2, hole 3, hole 4, hole 5 and hole 6 and the outside; it tears",
		"Hole 1, hole 2, hole 3, hole 4, hole 5 and hole 6 are each 2.00 mm; below 3/32 in",
	} {
		if !strings.HasPrefix(fs[i].Text, want) {
			t.Errorf("%s; want %s", fs[i].Text, want)
		}
	}
	// Holes that differ stand apart.
	o.Holes[2].Diameter = units.MM(2.2)
	apart, err := o.Check(units.MM(0.25))
	if err != nil || len(apart) != 4 || !strings.HasPrefix(apart[0].Text, "Only 0.90 mm is left between hole 3 and the outside") || !strings.HasPrefix(apart[3].Text, "Hole 3 is 2.20 mm") {
		t.Errorf("of holes that differ: %v, %v", apart, err)
	}
	o.Holes[2].Diameter = units.MM(2)
	// A sheet of 2.5 mm wants as much, and 2 mm to the opening are too little.
	thick, err := o.Check(units.MM(2.5))
	if err != nil || len(thick) != 3 || !strings.Contains(thick[0].Remedies[0], "Leave 2.50 mm") {
		t.Errorf("of a thick sheet: %d findings, %v", len(thick), err)
	}
	if _, err := o.Check(units.Length{}); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("no thickness: %v", err)
	}
}

func BenchmarkWebs(b *testing.B) {
	p, err := gasket.Rectangle(2501, 2501, units.MM(9000), units.MM(9000))
	if err != nil {
		b.Fatal(err)
	}
	o, err := gasket.Rectangular("sheet", gasket.Rect{Width: units.MM(9100), Height: units.MM(9100)}, nil, p.Drilled(units.MM(2)))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := o.Webs(); err != nil {
			b.Fatal(err)
		}
	}
}

// An outline has holes of its own: drilling the pattern afresh does not change
// the gasket.
func TestOutlineKeepsItsHoles(t *testing.T) {
	p, err := gasket.BoltCircle(2, units.MM(30), 0)
	if err != nil {
		t.Fatal(err)
	}
	p = p.Drilled(units.MM(3))
	round, err := gasket.Round("round", units.MM(50), units.Length{}, p)
	if err != nil {
		t.Fatal(err)
	}
	oval, err := gasket.Oval("oval", units.MM(20), units.MM(10), units.Length{}, p)
	if err != nil {
		t.Fatal(err)
	}
	plate, err := gasket.Rectangular("plate", gasket.Rect{Width: units.MM(50), Height: units.MM(20)}, nil, p)
	if err != nil {
		t.Fatal(err)
	}
	p[0].Diameter = units.MM(9)
	for _, o := range []gasket.Outline{round, oval, plate} {
		if o.Holes[0].Diameter != units.MM(3) {
			t.Errorf("%s: the hole became %v", o.Name, o.Holes[0].Diameter)
		}
	}
}
