package gasket_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

var (
	pm = units.Picometres(1)
	km = units.MM(1e6)
)

func fault(_ any, err error) error { return err }

func fault2(_, _ any, err error) error { return err }

// lattice returns n holes at the points of a square grid, a step apart.
func lattice(n int, step float64) gasket.Pattern {
	p := make(gasket.Pattern, n)
	wide := int(math.Ceil(math.Sqrt(float64(n))))
	for i := range p {
		p[i] = gasket.Hole{Name: fmt.Sprint(i + 1), At: mm(step*float64(i%wide), step*float64(i/wide))}
	}
	return p
}

// regular returns a loop of n straight sides about the origin.
func regular(n int, diameter float64) gasket.Loop {
	l := make(gasket.Loop, n)
	for i := range l {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		l[i].Point = mm(diameter/2*cos, diameter/2*sin)
	}
	return l
}

// Each limit that a comment states holds on both sides, as near to it as the type
// allows; what is said of the first that is refused is kept.
func TestBounds(t *testing.T) {
	holes := func(p gasket.Pattern, o gasket.MatchOptions) error {
		_, err := gasket.Match(t.Context(), p, p, o)
		return err
	}
	three := gasket.Pattern{{Name: "a"}, {Name: "b", At: mm(30, 0)}, {Name: "c", At: mm(0, 50)}}
	withPlace := func(at gasket.Point) gasket.Pattern { return gasket.Pattern{three[0], three[1], {Name: "c", At: at}} }
	weigh := func(w ...float64) error { return holes(three, gasket.MatchOptions{Ordered: true, Weights: w}) }
	spans := func(p gasket.Pattern, pin units.Length) error { return fault(p.Spans(pin)) }
	edges := func(l gasket.Loop) error { return fault(l.Edges()) }
	side := func(a, b gasket.Point, bulge float64) error {
		return edges(gasket.Loop{{Point: a, Bulge: bulge}, {Point: b}})
	}
	rect := func(w, h, c units.Length) error { return fault(gasket.Rect{Width: w, Height: h, Corner: c}.Loop()) }
	oval := func(boss, end, opening units.Length, half float64) error {
		return fault(gasket.Oval("x", boss, end, opening, gasket.Pattern{{At: mm(-half, 0)}, {At: mm(half, 0)}}))
	}
	square := polygon(0, 0, 40, 0, 40, 40, 0, 40)
	outline := func(p gasket.Pattern) error { return gasket.Outline{Name: "x", Outside: square, Holes: p}.Validate() }
	one := func(x, y float64, d units.Length) gasket.Pattern { return gasket.Pattern{{At: mm(x, y), Diameter: d}} }
	read := func(text string) error { return fault(gasket.ReadPattern(strings.NewReader(text))) }
	position := func(turn units.Angle, shift, at units.Length) error {
		p := gasket.Position{Turn: turn, Shift: gasket.Point{Y: shift}}
		return fault(p.Place(gasket.Point{Y: at}))
	}
	six, err := gasket.StepOff(6, units.MM(36))
	if err != nil {
		t.Fatal(err)
	}
	many := lattice(24, 10)
	degree := units.Degree
	var said strings.Builder
	for _, test := range []struct {
		name     string
		accepted error
		refused  error
	}{
		{"height of a leaning stud", fault(gasket.LeanOfStud(units.Length{}, 0)), fault(gasket.LeanOfStud(pm.Neg(), 0))},
		{"tilt", fault(gasket.LeanOfStud(pm, 0)), fault(gasket.LeanOfStud(pm, -1e-300))},
		{"tilt, upper", fault(gasket.LeanOfStud(pm, units.Angle(math.Nextafter(float64(45*degree), 0)))),
			fault(gasket.LeanOfStud(pm, 45*degree))},
		{"height of a tilted stud", fault(gasket.TiltOfStud(pm, units.Length{})), fault(gasket.TiltOfStud(units.Length{}, units.Length{}))},
		{"lean", fault(gasket.TiltOfStud(pm, units.Length{})), fault(gasket.TiltOfStud(pm, pm.Neg()))},
		{"lean, upper", fault(gasket.TiltOfStud(pm.Scale(9), pm.Scale(8))), fault(gasket.TiltOfStud(pm.Scale(9), pm.Scale(9)))},
		{"stud", fault(gasket.ClearanceHole(pm, km, km)), fault(gasket.ClearanceHole(units.Length{}, pm, pm))},
		{"stud, upper", fault(gasket.ClearanceHole(km, km, km)), fault(gasket.ClearanceHole(km.Add(pm), pm, pm))},
		{"out of place", fault(gasket.ClearanceHole(pm, units.Length{}, pm)), fault(gasket.ClearanceHole(pm, pm.Neg(), pm))},
		{"out of place, upper", fault(gasket.ClearanceHole(pm, km, pm)), fault(gasket.ClearanceHole(pm, km.Add(pm), pm))},
		{"leans", fault(gasket.ClearanceHole(pm, pm, units.Length{})), fault(gasket.ClearanceHole(pm, pm, pm.Neg()))},
		{"leans, upper", fault(gasket.ClearanceHole(pm, pm, km)), fault(gasket.ClearanceHole(pm, pm, km.Add(pm)))},
		{"clearance", fault(gasket.PositionZones(km, km)), fault(gasket.PositionZones(km.Sub(pm), km))},
		{"fastener", fault(gasket.PositionZones(pm, pm)), fault(gasket.PositionZones(pm, units.Length{}))},
		{"hole of zones, upper", fault(gasket.PositionZones(km, pm)), fault(gasket.PositionZones(km.Add(pm), pm))},
		{"holes on a circle", fault(gasket.BoltCircle(1, pm, 0)), fault(gasket.BoltCircle(0, pm, 0))},
		{"circle", fault(gasket.BoltCircle(1, pm, 0)), fault(gasket.BoltCircle(1, units.Length{}, 0))},
		{"circle, upper", fault(gasket.BoltCircle(1, km, 0)), fault(gasket.BoltCircle(1, km.Add(pm), 0))},
		{"first angle", fault(gasket.BoltCircle(1, pm, -360000*degree)), fault(gasket.BoltCircle(1, pm, -360000*degree*(1+1e-15)))},
		{"first angle, upper", fault(gasket.BoltCircle(1, pm, 360000*degree)), fault(gasket.BoltCircle(1, pm, 360000*degree*(1+1e-15)))},
		{"along the width", fault(gasket.Rectangle(2, 2, pm, pm)), fault(gasket.Rectangle(1, 2, pm, pm))},
		{"along the height", fault(gasket.Rectangle(2, 2, pm, pm)), fault(gasket.Rectangle(2, 1, pm, pm))},
		{"width", fault(gasket.Rectangle(2, 2, km, pm)), fault(gasket.Rectangle(2, 2, km.Add(pm), pm))},
		{"height", fault(gasket.Rectangle(2, 2, pm, km)), fault(gasket.Rectangle(2, 2, pm, km.Add(pm)))},
		{"holes stepped off", fault(gasket.StepOff(2, km)), fault(gasket.StepOff(1, km))},
		{"holes stepped off, upper", fault(gasket.StepOff(1000, pm)), fault(gasket.StepOff(1001, pm))},
		{"gap", fault(six.Reopened(pm, units.MM(36).Sub(pm))), fault(six.Reopened(pm, units.MM(36)))},
		{"opening of dividers", fault(six.Reopened(units.MM(36).Sub(pm), pm)), fault(six.Reopened(units.MM(36), pm))},
		{"two holes reopened", fault(gasket.Stepping{Number: 2, Diameter: pm.Scale(9)}.Reopened(pm, pm)),
			fault(gasket.Stepping{Number: 1, Diameter: pm.Scale(9)}.Reopened(pm, pm))},
		{"holes to measure", spans(three[:2], pm), spans(three[:1], pm)},
		{"pin", spans(three.Drilled(pm), units.Length{}), spans(three.Drilled(pm), pm.Neg())},
		{"pin, upper", spans(three, km), spans(three, km.Add(pm))},
		{"hole to measure", spans(three.Drilled(pm), pm), spans(three.Drilled(pm.Neg()), pm)},
		{"hole to measure, upper", spans(three.Drilled(km), pm), spans(three.Drilled(km.Add(pm)), pm)},
		{"place to measure", spans(withPlace(gasket.Point{X: km.Neg()}), pm), spans(withPlace(gasket.Point{X: km.Neg().Sub(pm)}), pm)},
		{"place to measure, above", spans(withPlace(gasket.Point{Y: km}), pm), spans(withPlace(gasket.Point{Y: km.Add(pm)}), pm)},
		{"holes of a match", holes(three[:2], gasket.MatchOptions{}), holes(three[:1], gasket.MatchOptions{})},
		{"place of a match", holes(withPlace(gasket.Point{X: km}), gasket.MatchOptions{}),
			holes(withPlace(gasket.Point{X: km.Add(pm)}), gasket.MatchOptions{})},
		{"place of a match, below", holes(withPlace(gasket.Point{Y: km.Neg()}), gasket.MatchOptions{}),
			holes(withPlace(gasket.Point{Y: km.Neg().Sub(pm)}), gasket.MatchOptions{})},
		{"hole of a match", holes(three.Drilled(units.Length{}), gasket.MatchOptions{}),
			holes(three.Drilled(pm.Neg()), gasket.MatchOptions{})},
		{"hole of a match, upper", holes(three.Drilled(km), gasket.MatchOptions{}), holes(three.Drilled(km.Add(pm)), gasket.MatchOptions{})},
		{"stud of a match", holes(three, gasket.MatchOptions{Stud: km}), holes(three, gasket.MatchOptions{Stud: km.Add(pm)})},
		{"bolt of a match", holes(three, gasket.MatchOptions{Bolt: pm}), holes(three, gasket.MatchOptions{Bolt: pm.Neg()})},
		{"lean of a match", holes(three, gasket.MatchOptions{Lean: pm}), holes(three, gasket.MatchOptions{Lean: pm.Neg()})},
		{"reach of a match", holes(three, gasket.MatchOptions{Reach: pm}), holes(three, gasket.MatchOptions{Reach: pm.Neg()})},
		{"stud and bolt", holes(three, gasket.MatchOptions{Bolt: pm}), holes(three, gasket.MatchOptions{Bolt: pm, Stud: pm})},
		{"far reach of 24 holes", holes(many, gasket.MatchOptions{Reach: units.MM(5.5)}),
			holes(lattice(25, 10), gasket.MatchOptions{Reach: units.MM(5.5)})},
		{"half way", holes(lattice(25, 10), gasket.MatchOptions{Reach: units.MM(5)}),
			holes(lattice(25, 10), gasket.MatchOptions{Reach: units.MM(5).Add(pm)})},
		{"far reach in order", holes(lattice(25, 10), gasket.MatchOptions{Reach: units.MM(5.5), Ordered: true}),
			fault(gasket.Match(t.Context(), many, lattice(25, 10), gasket.MatchOptions{Reach: units.MM(5.5)}))},
		{"weight", weigh(0, 1, 1e-300), weigh(-1e-300, 1, 1)},
		{"weight, upper", weigh(1e12, 1e12, 1e12), weigh(1, 1, math.Nextafter(1e12, 2e12))},
		{"weights above zero", weigh(1, 1, 0), weigh(1, 0, 0)},
		{"weights", weigh(1, 1, 1), weigh(1, 1, 1, 1)},
		{"place", position(0, units.Length{}, km.Scale(1000)), position(0, units.Length{}, km.Scale(1000).Add(units.MM(0.001)))},
		{"place, below", position(0, units.Length{}, km.Scale(-1000)), position(0, units.Length{}, km.Scale(-1000).Sub(units.MM(0.001)))},
		{"shift", position(0, km.Scale(1000), units.Length{}), position(0, km.Scale(1000).Add(units.MM(0.001)), units.Length{})},
		{"corners of a loop", edges(regular(2, 1)), edges(regular(1, 1))},
		{"corner, in place", side(gasket.Point{X: km}, gasket.Point{X: km.Neg()}, 0), side(gasket.Point{X: km.Add(pm)}, gasket.Point{}, 0)},
		{"corner, in height", side(gasket.Point{Y: km}, gasket.Point{Y: km.Neg()}, 0), side(gasket.Point{Y: km.Add(pm)}, gasket.Point{}, 0)},
		{"next corner", side(gasket.Point{}, gasket.Point{Y: km}, 0), side(gasket.Point{}, gasket.Point{Y: km.Add(pm)}, 0)},
		{"two corners", side(gasket.Point{}, gasket.Point{X: pm}, 0), side(gasket.Point{}, gasket.Point{}, 0)},
		{"bulge", side(gasket.Point{}, mm(1, 0), 1000), side(gasket.Point{}, mm(1, 0), math.Nextafter(1000, 2000))},
		{"bulge, below", side(gasket.Point{}, mm(1, 0), -1000), side(gasket.Point{}, mm(1, 0), math.Nextafter(-1000, -2000))},
		// A half circle: the radius is half the chord.
		{"radius", side(mm(-1e6, 0), mm(1e6, 0), 1), side(mm(-1e6, 0), mm(1e6, 0), 1.00001)},
		{"side of a rectangle", rect(pm, pm, units.Length{}), rect(units.Length{}, pm, units.Length{})},
		{"height of a rectangle", rect(pm, km, units.Length{}), rect(pm, units.Length{}, units.Length{})},
		{"corner radius", rect(pm.Scale(8), pm.Scale(9), pm.Scale(4)), rect(pm.Scale(8), pm.Scale(9), pm.Scale(5))},
		{"corner radius of a tall one", rect(pm.Scale(9), pm.Scale(8), pm.Scale(4)), rect(pm.Scale(9), pm.Scale(8), pm.Scale(5))},
		{"corner radius, lower", rect(pm, pm, units.Length{}), rect(pm, pm, pm.Neg())},
		{"outside", fault(gasket.Round("x", pm, units.Length{}, nil)), fault(gasket.Round("x", units.Length{}, units.Length{}, nil))},
		{"opening", fault(gasket.Round("x", pm.Scale(3), pm.Scale(2), nil)), fault(gasket.Round("x", pm.Scale(3), pm.Scale(3), nil))},
		{"end of an oval", oval(units.MM(10), pm, pm, 12), oval(units.MM(10), units.Length{}, pm, 12)},
		{"end of an oval, upper", oval(units.MM(10), units.MM(10), pm, 12), oval(units.MM(10), units.MM(10).Add(pm), pm, 12)},
		{"opening of an oval", oval(units.MM(10), pm, units.Length{}, 12), oval(units.MM(10), pm, pm.Neg(), 12)},
		{"opening of an oval, upper", oval(units.MM(10), pm, units.MM(10).Sub(pm), 12), oval(units.MM(10), pm, units.MM(10), 12)},
		// The ends of 6 mm are 4 mm within the boss of 14 mm.
		{"studs of an oval", oval(units.MM(14), units.MM(6), pm, 4.000001), oval(units.MM(14), units.MM(6), pm, 4)},
		{"studs in one place", oval(units.MM(6), units.MM(6), pm, 1e-9), oval(units.MM(6), units.MM(6), pm, 0)},
		{"thickness to check", fault(gasket.Outline{Outside: square}.Check(pm)), fault(gasket.Outline{Outside: square}.Check(units.Length{}))},
		{"hole of an outline", outline(one(20, 20, pm)), outline(one(20, 20, units.Length{}))},
		{"far hole", outlineWide(mm(1e4, 0)), outlineWide(gasket.Point{X: units.MM(1e4).Add(pm)})},
		{"far hole, below", outlineWide(mm(0, -1e4)), outlineWide(gasket.Point{Y: units.MM(-1e4).Sub(pm)})},
		{"far corner", gasket.Outline{Outside: polygon(0, 0, 1e4, 0, 0, 1e4)}.Validate(),
			gasket.Outline{Outside: gasket.Loop{{}, {Point: gasket.Point{X: units.MM(1e4).Add(pm)}},
				{Point: mm(0, 1)}}}.Validate()},
		{"offset", fault(square.Offset(units.Micron(0.1))), fault(square.Offset(units.Micron(0.1).Sub(pm)))},
		{"offset, inwards", fault(square.Offset(units.Micron(-0.1))), fault(square.Offset(units.Micron(-0.1).Add(pm)))},
		{"offset, upper", fault(square.Offset(units.MM(1e4))), fault(square.Offset(units.MM(1e4).Add(pm)))},
		{"offset, far inwards", fault(polygon(-1e5, -1e5, 1e5, -1e5, 1e5, 1e5, -1e5, 1e5).Offset(units.MM(-1e4))),
			fault(polygon(-1e5, -1e5, 1e5, -1e5, 1e5, 1e5, -1e5, 1e5).Offset(units.MM(-1e4).Sub(pm)))},
		// A triangle of twice a micrometre squared, and one of a millionth less.
		{"area to offset", fault(polygon(0, 0, 0.002, 0, 0, 0.001).Offset(units.Length{})),
			fault(polygon(0, 0, 0.002, 0, 0, 0.000999).Offset(units.Length{}))},
		{"area", gasket.Outline{Outside: polygon(0, 0, 0.002, 0, 0, 0.001)}.Validate(),
			gasket.Outline{Outside: polygon(0, 0, 0.002, 0, 0, 0.000999)}.Validate()},
		{"name", read("hole,x mm,y mm\n" + strings.Repeat("ü", 40) + ",1,2\n"), read("hole,x mm,y mm\n" + strings.Repeat("ü", 41) + ",1,2\n")},
		{"diameter", read("x,y,diameter\n1 mm,2 mm,0.000000001 mm\n"), read("x mm,y mm,diameter mm\n1,2,-0.1\n")},
		{"cells", read("x mm,y mm\n1,2,\n"), read("x mm,y mm\n1,2,,3\n")},
		{"studs of a gasket", fault2(gasket.StudCircles(pm.Scale(10), units.Length{}, pm, pm.Scale(2))),
			fault2(gasket.StudCircles(pm.Scale(9), units.Length{}, pm, pm.Scale(2)))},
		{"opening of a gasket", fault2(gasket.StudCircles(pm.Scale(9), units.Length{}, pm, pm)),
			fault2(gasket.StudCircles(pm.Scale(9), pm.Neg(), pm, pm))},
		{"web of a gasket", fault2(gasket.StudCircles(pm.Scale(9), pm, pm, units.Length{})),
			fault2(gasket.StudCircles(pm.Scale(9), pm, pm, pm.Neg()))},
	} {
		if test.accepted != nil {
			t.Errorf("%s: refused inside its limit: %v", test.name, test.accepted)
		}
		if test.refused == nil {
			t.Errorf("%s: taken beyond its limit", test.name)
		}
		fmt.Fprintf(&said, "%s: %v\n", test.name, test.refused)
	}
	check.Kept(t, "gasket/kept/bounds.txt", said.String())
}

// As many as are taken, and one more.
func TestBoundsOfMany(t *testing.T) {
	holes := func(p gasket.Pattern, o gasket.MatchOptions) error {
		_, err := gasket.Match(t.Context(), p, p, o)
		return err
	}
	spans := func(p gasket.Pattern, pin units.Length) error { return fault(p.Spans(pin)) }
	edges := func(l gasket.Loop) error { return fault(l.Edges()) }
	read := func(text string) error { return fault(gasket.ReadPattern(strings.NewReader(text))) }
	var said strings.Builder
	for _, test := range []struct {
		name              string
		accepted, refused error
	}{
		{"holes on a circle, upper", fault(gasket.BoltCircle(100_000, km, 0)), fault(gasket.BoltCircle(100_001, km, 0))},
		{"along the width, upper", fault(gasket.Rectangle(100_000, 2, km, pm)), fault(gasket.Rectangle(100_001, 2, km, pm))},
		{"holes to measure, upper", spans(lattice(2000, 1), pm), spans(lattice(2001, 1), pm)},
		{"holes of a match, upper", holes(lattice(500, 7), gasket.MatchOptions{Ordered: true}),
			holes(lattice(501, 7), gasket.MatchOptions{Ordered: true})},
		{"corners of a loop, upper", edges(regular(100_000, 1000)), edges(regular(100_001, 1000))},
		{"sides to offset", fault(regular(2000, 1000).Offset(units.Length{})), fault(regular(2001, 1000).Offset(units.Length{}))},
		{"lines", read("x mm,y mm\n" + strings.Repeat("1,2\n", 100_000)), read("x mm,y mm\n" + strings.Repeat("1,2\n", 100_001))},
		{"size", read("x mm,y mm\n1,2\n" + strings.Repeat("\n", 16<<20-14)), read("x mm,y mm\n1,2\n" + strings.Repeat("\n", 16<<20-13))},
	} {
		if test.accepted != nil || test.refused == nil {
			t.Errorf("%s: %v at its limit, %v beyond", test.name, test.accepted, test.refused)
		}
		fmt.Fprintf(&said, "%s: %v\n", test.name, test.refused)
	}
	check.Kept(t, "gasket/kept/bounds_of_many.txt", said.String())
}

// outlineWide validates an outline with a hole at a place far from its middle; that
// the hole lies outside is not what is asked.
func outlineWide(at gasket.Point) error {
	l := polygon(-1e4, -1e4, 1e4, -1e4, 1e4, 1e4, -1e4, 1e4)
	err := gasket.Outline{Outside: l, Holes: gasket.Pattern{{At: at, Diameter: units.MM(1)}}}.Validate()
	if err != nil && strings.Contains(err.Error(), "runs into the outside") {
		return nil
	}
	return err
}

// As many vertices and openings as are taken, and one more.
func TestBoundsOfManyParts(t *testing.T) {
	outline := func(corners int, cutouts ...gasket.Loop) error {
		return gasket.Outline{Outside: regular(corners, 9000), Cutouts: cutouts}.Validate()
	}
	triangle := polygon(0, 0, 1, 0, 0, 1)
	if err := outline(50_000, triangle); err != nil {
		t.Error(err)
	}
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"vertices", outline(99_998, triangle), "gasket: vertices of the outline 100001: out of range; accepted: up to 100000"},
		{"openings", outline(3, make([]gasket.Loop, 100_001)...), "gasket: holes and openings 100001: out of range; accepted: up to 100000 of each"},
		{"openings, as many", outline(3, make([]gasket.Loop, 100_000)...), "vertices of a loop 0"},
		{"holes", gasket.Outline{Outside: triangle, Holes: make(gasket.Pattern, 100_001)}.Validate(), "gasket: holes and openings 100001: out of range; accepted: up to 100000 of each"},
		{"holes, as many", gasket.Outline{Outside: triangle, Holes: make(gasket.Pattern, 100_000)}.Validate(), "diameter of hole 1"},
	} {
		if test.err == nil || !strings.Contains(test.err.Error(), test.want) {
			t.Errorf("%s: %v, want %q", test.name, test.err, test.want)
		}
	}
}
