package gasket

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// Of lines and arcs of all sweeps, either way: the point at a share of the length has that
// share, a part runs from one share to the other along the same line, and the direction is
// that of a short step.
func TestPiecesOfCurves(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	near := func(p, q vec) bool { return p.sub(q).abs() < 1e-7 }
	for k := range 300 {
		c := randomCurve(r)
		a, b := 0.9*r.Float64(), 0.0
		b = a + (1-a)*r.Float64()
		if got := c.share(c.at(a)); math.Abs(got-a) > 1e-7 {
			t.Fatalf("%d: share %g, want %g, of %+v", k, got, a, c)
		}
		part := c.part(a, b)
		if !near(part.from, c.at(a)) || !near(part.to, c.at(b)) || !near(part.at(0.5), c.at((a+b)/2)) ||
			math.Abs(part.length()-(b-a)*c.length()) > 1e-7 {
			t.Fatalf("%d: the part from %g to %g of %+v is %+v", k, a, b, c, part)
		}
		if !near(c.at(0), c.from) || !near(c.at(1), c.to) {
			t.Fatalf("%d: ends %v and %v of %+v", k, c.at(0), c.at(1), c)
		}
		step := c.at(a + 1e-6).sub(c.at(a))
		if way := c.direction(a).dot(unit(step)); math.Abs(way-1) > 1e-6 || math.Abs(c.direction(a).abs()-1) > 1e-12 {
			t.Fatalf("%d: direction %v, step %v", k, c.direction(a), step)
		}
		back := reversed([]curve{c})[0]
		if !near(back.at(0.25), c.at(0.75)) || !near(back.from, c.to) || !near(back.to, c.from) {
			t.Fatalf("%d: %+v turned round is %+v", k, c, back)
		}
		// A side that is shifted lies at that distance on its right.
		for _, d := range []float64{0.25, -0.25} {
			if s, ok := shifted(c, d); ok {
				p := c.at(a)
				if right := c.direction(a).left().scale(-d); !near(s.at(a), p.add(right)) {
					t.Fatalf("%d: shifted by %g: %v from %v", k, d, s.at(a), p)
				}
			}
		}
	}
	for _, test := range []struct {
		c    curve
		d    float64
		ok   bool
		what string
	}{
		{arc(0, 0, 2, 0, 90), -2, false, "closes up"}, {arc(0, 0, 2, 0, 90), -1.999999, true, "nearly closes up"},
		{arc(0, 0, 2, 90, 0), 2, false, "closes up the other way"}, {arc(0, 0, 2, 90, 0), -2, true, "opens"},
	} {
		if s, ok := shifted(test.c, test.d); ok != test.ok || ok && s.r <= 0 {
			t.Errorf("%s: %v, %+v", test.what, ok, s)
		}
	}
}

// Pieces of one line or circle that follow each other become one, and no others.
func TestPiecesJoin(t *testing.T) {
	for _, test := range []struct {
		name string
		a, b curve
		want bool
	}{
		{"straight on", line(0, 0, 1, 0), line(1, 0, 3, 0), true},
		{"back", line(0, 0, 1, 0), line(1, 0, 0, 0), false},
		{"bent", line(0, 0, 1, 0), line(1, 0, 2, 0.001), false},
		{"line and arc", line(0, 0, 1, 0), arc(1, 1, 1, -90, 0), false},
		{"arc and line", arc(1, 1, 1, -90, 0), line(2, 1, 2, 4), false},
		{"along the circle", arc(0, 0, 2, 0, 90), arc(0, 0, 2, 90, 120), true},
		{"along it the other way", arc(0, 0, 2, 120, 90), arc(0, 0, 2, 90, 0), true},
		{"back along it", arc(0, 0, 2, 0, 90), arc(0, 0, 2, 90, 0), false},
		{"half a circle in all", arc(0, 0, 2, 0, 90), arc(0, 0, 2, 90, 180), true},
		{"more than half", arc(0, 0, 2, 0, 90), arc(0, 0, 2, 90, 181), false},
		{"a larger circle", arc(0, 0, 2, 0, 90), arc(0, -1, 3, 90, 120), false},
		{"another middle", arc(0, 0, 2, 0, 90), arc(0, 4, 2, -90, -60), false},
	} {
		if got := test.a.goesOnAs(test.b); got != test.want {
			t.Errorf("%s: %v", test.name, got)
		}
		if !test.want {
			continue
		}
		whole := test.a.joined(test.b)
		if whole.from.sub(test.a.from).abs() > 1e-9 || whole.to.sub(test.b.to).abs() > 1e-9 ||
			math.Abs(whole.length()-test.a.length()-test.b.length()) > 1e-9 {
			t.Errorf("%s: %+v", test.name, whole)
		}
	}
	// A square whose sides are in two pieces each, from the middle of one: four corners, the
	// lowest left first; and what does not close, or is a scrap, is left out.
	var pieces []curve
	corners := []vec{{5, 0}, {10, 0}, {10, 5}, {10, 10}, {5, 10}, {0, 10}, {0, 5}, {0, 0}}
	for i, p := range corners {
		pieces = append(pieces, curve{from: p, to: corners[(i+1)%len(corners)]})
	}
	pieces = append(pieces, line(20, 20, 30, 20), line(40, 0, 40.0002, 0), line(40.0002, 0, 40, 0.0002),
		line(40, 0.0002, 40, 0))
	r := rand.New(rand.NewPCG(43, 44))
	for range 20 {
		r.Shuffle(len(pieces), func(i, j int) { pieces[i], pieces[j] = pieces[j], pieces[i] })
		loops := chains(pieces)
		if len(loops) != 1 {
			t.Fatalf("%d loops: %v", len(loops), loops)
		}
		l := loops[0].loop()
		var at []vec
		for _, v := range l {
			at = append(at, v.vec())
		}
		if !slices.Equal(at, []vec{{0, 0}, {10, 0}, {10, 10}, {0, 10}}) {
			t.Fatalf("%v", at)
		}
	}
}

// What is told of outlines with more than one fault, up to the first ten, and of loops
// that cannot be moved.
func TestFaultsAsTheyRead(t *testing.T) {
	at := func(x, y float64) Point { return Point{units.MM(x), units.MM(y)} }
	square := Loop{{at(0, 0), 0}, {at(40, 0), 0}, {at(40, 40), 0}, {at(0, 40), 0}}
	hole := func(x, y, d float64) Hole { return Hole{At: at(x, y), Diameter: units.MM(d)} }
	circle := func(x, y, d float64) Loop { return Circle(at(x, y), units.MM(d)) }
	var row Pattern
	for i := range 13 {
		row = append(row, hole(5+2*float64(i), 20, 2.5))
	}
	var said strings.Builder
	for _, test := range []struct {
		name string
		o    Outline
	}{
		{"two holes and the edge", Outline{Outside: square, Holes: Pattern{hole(1, 20, 4), hole(4, 20, 4), hole(39, 39, 3)}}},
		{"three holes", Outline{Outside: square, Holes: Pattern{hole(10, 10, 5), hole(13, 10, 5), hole(11, 13, 5)}}},
		{"two openings, a hole and the edge",
			Outline{Outside: square, Cutouts: []Loop{circle(10, 10, 12), circle(20, 10, 12), circle(1, 30, 8)},
				Holes: Pattern{hole(30, 30, 2), hole(26, 10, 2)}}},
		{"in a row", Outline{Outside: square, Holes: row}},
		{"outside", Outline{Outside: square, Cutouts: []Loop{circle(60, 10, 12)}, Holes: Pattern{hole(60, 10, 2), hole(-5, 10, 2)}}},
		{"in each other", Outline{Outside: square, Cutouts: []Loop{circle(20, 20, 30), circle(20, 20, 20), circle(20, 20, 10)},
			Holes: Pattern{hole(20, 20, 2)}}},
		{"bow tie and hole", Outline{Outside: Loop{{at(0, 0), 0}, {at(40, 40), 0}, {at(40, 0), 0}, {at(0, 30), 0}},
			Holes: Pattern{hole(20, 20, 4)}}},
		{"touching holes", Outline{Outside: square, Holes: Pattern{hole(10, 10, 4), hole(14, 10, 4)}}},
		{"just not touching", Outline{Outside: square, Holes: Pattern{hole(10, 10, 4), hole(14.000001, 10, 4), hole(2, 30, 3.999999)}}},
		{"touching the edge", Outline{Outside: square, Holes: Pattern{hole(2, 10, 4)}}},
		{"openings that touch", Outline{Outside: square, Cutouts: []Loop{circle(10, 10, 8), circle(18, 10, 8)}}},
		{"a corner on a side", Outline{Outside: Loop{{at(0, 0), 0}, {at(40, 0), 0}, {at(40, 40), 0}, {at(20, 0), 0}, {at(0, 40), 0}}}},
		{"back along a side", Outline{Outside: Loop{{at(0, 0), 0}, {at(40, 0), 0}, {at(20, 0), 0}, {at(20, 40), 0}}}},
		{"an arc through its neighbour", Outline{Outside: Loop{{at(0, 0), 0}, {at(10, 0), 3}, {at(10, 1), 0}, {at(5, 9), 0}}}},
		{"two arcs of one chord", Outline{Outside: Loop{{at(0, 0), 0.5}, {at(10, 0), -0.5}}}},
	} {
		fmt.Fprintf(&said, "%s:\n%v\n", test.name, test.o.Validate())
	}
	dumbbell := Loop{{at(0, 0), 0}, {at(10, 0), 0}, {at(10, 4), 0}, {at(20, 4), 0}, {at(20, 0), 0}, {at(30, 0), 0},
		{at(30, 10), 0}, {at(20, 10), 0}, {at(20, 6), 0}, {at(10, 6), 0}, {at(10, 10), 0}, {at(0, 10), 0}}
	for _, d := range []float64{-0.9, -1.1, -4.9, -5.1, 1, 2.9} {
		for _, l := range []Loop{dumbbell, circle(3, 4, 9.9),
			{{at(0, 0), 0.4}, {at(20, 0), -0.3}, {at(20, 15), 0.9}, {at(0, 15), -0.2}}} {
			moved, err := l.Offset(units.MM(d))
			fmt.Fprintf(&said, "offset by %g: %d sides", d, len(moved))
			for _, v := range moved {
				fmt.Fprintf(&said, " %.3f %.3f %.3f;", v.X.MM()+1e-7, v.Y.MM()+1e-7, v.Bulge+1e-7)
			}
			fmt.Fprintf(&said, " %v\n", err)
		}
	}
	_, err := Outline{Outside: square, Cutouts: []Loop{circle(10, 10, 4), circle(25, 25, 4)}}.Offset(units.Length{},
		units.MM(-2.5), units.Length{})
	fmt.Fprintln(&said, err)
	for _, text := range []string{
		"x mm,y mm,\n1,2,\n", "x mm,,y mm\n1,2,3\n", "x mm,y mm,bulge\n1,2,3\n", "x mm,y mm\n1,NaN\n", "x mm,y mm\n1,2\n\n3,4\n", "X MM , Y mm\n 1 , 2 \n",
		"x mm,y mm\n1,2\"\n", "\"x\" mm,y\n", "x mm,y mm\n\"1\n2\",3\n", "hole,x mm,y mm\n2,1,1\n,2,2\n", "x  mm,y mm\n1,2, ,\n", "x mm,y mm\n1 in,2\n",
	} {
		p, err := ReadPattern(strings.NewReader(text))
		fmt.Fprintf(&said, "%q: %v, %v\n", text, p, err)
	}
	for _, cells := range []string{"NaN", "Inf", "-Inf", "x", "1e400", "0.5"} {
		o, err := ReadOutline("o", strings.NewReader("part,x mm,y mm,bulge\noutside,0,0,"+cells+"\n"))
		fmt.Fprintf(&said, "bulge %s: %v, %v\n", cells, o, err)
	}
	check.Kept(t, "gasket/kept/faults.txt", said.String())
}

// A loop is a circle where it is two half circles of one sense, and nothing else is.
func TestCircles(t *testing.T) {
	at := func(x, y float64) Point { return Point{units.MM(x), units.MM(y)} }
	for _, test := range []struct {
		name string
		l    Loop
		want bool
	}{
		{"circle", Loop{{at(0, 0), 1}, {at(4, 3), 1}}, true}, {"clockwise", Loop{{at(0, 0), -1}, {at(4, 3), -1}}, true},
		{"one way and back", Loop{{at(0, 0), 1}, {at(4, 3), -1}}, false}, {"lens", Loop{{at(0, 0), 0.5}, {at(4, 3), 0.5}}, false},
		{"three", Loop{{at(0, 0), 1}, {at(4, 3), 1}, {at(0, 3), 1}}, false}, {"one", Loop{{at(0, 0), 1}}, false}, {"none", nil, false},
	} {
		centre, d, ok := test.l.Circle()
		if ok != test.want || ok && (centre != at(2, 1.5) || d != units.MM(5)) || !ok && (centre != Point{} || !d.IsZero()) {
			t.Errorf("%s: %v, %v, %v", test.name, centre, d, ok)
		}
	}
}

// What decides between positions and parts does so at its very figure.
func TestMatchAtTheLimits(t *testing.T) {
	pair := func(pm int64, room float64) Pair {
		return Pair{Distance: units.MM(room).Add(units.Picometres(pm)), Allowance: units.MM(room)}
	}
	for pm, want := range map[int64]bool{0: true, 1000: true, 1001: false, -5000: true} {
		if got := pair(pm, 0.2).Goes(); got != want {
			t.Errorf("%d pm over: %v", pm, got)
		}
	}
	position := func(pairs int, greatest float64) []Position {
		return []Position{{Pairs: make([]Pair, pairs), Greatest: units.MM(greatest)}}
	}
	for _, test := range []struct {
		name string
		p, q []Position
		want bool
	}{
		{"none of either", nil, nil, false}, {"none of the other", position(2, 1), nil, true}, {"none of the first", nil, position(2, 1), false},
		{"more pairs", position(3, 1), position(2, 0), true}, {"fewer pairs", position(2, 0), position(3, 1), false},
		{"half as far", position(3, 0.5), position(3, 1), true}, {"not half", position(3, 0.500001), position(3, 1), false},
		{"half of next to nothing", position(3, 0.0004), position(3, 0.001), false}, {"a micrometre and more", position(3, 0.0004), position(3, 0.001401), true},
	} {
		if got := farBetter(test.p, test.q); got != test.want {
			t.Errorf("%s: %v", test.name, got)
		}
	}
	holes := Pattern{{Name: "a", Diameter: units.MM(3)}, {Name: "b", At: Point{X: units.MM(30)}, Diameter: units.MM(2.9)},
		{Name: "c", At: Point{Y: units.MM(50)}, Diameter: units.MM(4)}}
	m := matcher{a: holes, b: holes, o: MatchOptions{Bolt: units.MM(2)}}
	if m.commonHole() != units.MM(2.9) || m.fastener() != units.MM(2) {
		t.Errorf("%v, %v", m.commonHole(), m.fastener())
	}
	m.o = MatchOptions{Stud: units.MM(1)}
	if m.fastener() != units.MM(1) || m.allowance(2, 0) != units.MM(1.5) || m.hole(0, units.MM(0.5)) != units.MM(2) {
		t.Errorf("%v, %v, %v", m.fastener(), m.allowance(2, 0), m.hole(0, units.MM(0.5)))
	}
	m.decided = true
	for greatest, want := range map[float64]bool{0.001: true, 0.001001: false} {
		if got := m.exact(position(3, greatest)); got != want {
			t.Errorf("greatest %g: %v", greatest, got)
		}
	}
	if m.exact(position(2, 0)) {
		t.Error("exact with a hole left over")
	}
	p := Position{Pairs: []Pair{{First: 1, Distance: units.MM(0.1), Allowance: units.MM(0.3)},
		{First: 2, Distance: units.MM(0.1), Allowance: units.MM(0.2)},
		{First: 3, Distance: units.MM(0.2), Allowance: units.MM(0.3)}}}
	if p.Tightest().First != 2 || (Position{}).Tightest() != (Pair{}) || p.SameRoom() || !(Position{}).SameRoom() {
		t.Errorf("%v", p.Tightest())
	}
	// Three holes within 3 mm are laid on each other as any.
	tiny := Pattern{{Name: "a"}, {Name: "b", At: Point{X: units.MM(3)}}, {Name: "c", At: Point{Y: units.MM(2)}}}
	r, err := Match(t.Context(), tiny, tiny.Turned(1), MatchOptions{})
	if err != nil || len(r.Positions) == 0 || len(r.Positions[0].Pairs) != 3 || r.Positions[0].Greatest.MM() > 1e-9 {
		t.Errorf("%v, %v", r, err)
	}
	// A hole that is opened to one and a half times its stud is still round enough.
	for off, large := range map[float64]bool{0.75: false, 0.76: true} {
		cover := Pattern{{Name: "a"}, {Name: "b", At: Point{X: units.MM(30)}}, {Name: "c", At: Point{Y: units.MM(50)}},
			{Name: "d", At: Point{X: units.MM(40), Y: units.MM(45)}}}.Drilled(units.MM(3))
		studs := slices.Clone(cover)
		studs[3].At.X = studs[3].At.X.Add(units.MM(off))
		r, err := Match(t.Context(), cover, studs, MatchOptions{Stud: units.MM(3), Ordered: true})
		if err != nil || len(r.Work) != 1 || r.Work[0].Large != large || math.Abs(r.Work[0].Diameter.MM()-3-2*off) > 1e-8 {
			t.Errorf("%g mm off: %v, %v", off, r.Work, err)
		}
	}
}

// Half the pitch of one hole is half a turn, and of none nothing; a loop of a fraction of
// a square millimetre is moved the right way round, whichever way it runs.
func TestSmallNumbers(t *testing.T) {
	for n, want := range map[int]float64{-1: 0, 0: 0, 1: 180, 2: 90, 5: 36} {
		if got := HalfPitch(n).Degrees(); math.Abs(got-want) > 1e-12 {
			t.Errorf("%d holes: %g degrees", n, got)
		}
	}
	at := func(x, y float64) Point { return Point{units.MM(x), units.MM(y)} }
	tiny := Loop{{at(0, 0), 0}, {at(0.5, 0), 0}, {at(0.5, 0.5), 0}, {at(0, 0.5), 0}}
	other := Loop{tiny[0], tiny[3], tiny[2], tiny[1]}
	for _, l := range []Loop{tiny, other} {
		in, err := l.Offset(units.MM(-0.1))
		if err != nil || len(in) != 4 || in[0].Point != at(0.1, 0.1) {
			t.Errorf("%v, %v", in, err)
		}
		out, err := l.Offset(units.MM(0.1))
		if err != nil || len(out) != 8 {
			t.Errorf("%v, %v", out, err)
		}
	}
	if _, err := (Loop{{at(0, 0), math.Inf(-1)}, {at(1, 0), 0}}).Edges(); err == nil ||
		!strings.Contains(err.Error(), "not a finite number") {
		t.Error(err)
	}
}
