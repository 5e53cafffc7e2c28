package gasket_test

import (
	"context"
	"fmt"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// Two holes of a made-up gland, moved from the middle of the gland to the corner of the
// drawing, turned by a quarter and laid face down, as they are marked from behind.
func ExamplePattern_Moved() {
	gland := gasket.Pattern{{Name: "left", At: gasket.Point{X: units.MM(-12)}}, {Name: "right", At: gasket.Point{X: units.MM(12)}}}
	for _, h := range gland.Moved(gasket.Point{X: units.MM(20), Y: units.MM(15)}) {
		fmt.Println(h.Name, h.At)
	}
	// Output:
	// left x 8 mm, y 15 mm
	// right x 32 mm, y 15 mm
}

// The same gland with its studs one above the other.
func ExamplePattern_Turned() {
	gland := gasket.Pattern{{Name: "left", At: gasket.Point{X: units.MM(-12)}}, {Name: "right", At: gasket.Point{X: units.MM(12)}}}
	for _, h := range gland.Turned(90 * units.Degree) {
		fmt.Println(h.Name, h.At)
	}
	// Output:
	// left x 0 mm, y -12 mm
	// right x 0 mm, y 12 mm
}

// Five studs on 40 mm, seen from behind the cover: left and right change places, and the
// names go round the other way.
func ExamplePattern_Mirrored() {
	p, err := gasket.BoltCircle(5, units.MM(40), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	for i, h := range p.Mirrored()[:3] {
		fmt.Println(h.Name, "from", p[i].At.X.Text(units.Millimetres, 2), "to", h.At.X.Text(units.Millimetres, 2))
	}
	// Output:
	// 1 from 0.00 mm to 0.00 mm
	// 2 from -19.02 mm to 19.02 mm
	// 3 from -11.76 mm to 11.76 mm
}

// Six studs of M3, and the clearance holes of the cover over them.
func ExamplePattern_Drilled() {
	studs, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	cover := studs.Drilled(units.MM(3.4))
	fmt.Println(len(cover), "holes of", cover[0].Diameter, "and studs of", studs[0].Diameter)
	// Output: 6 holes of 3.4 mm and studs of 0 mm
}

// How far apart are two opposite studs of a made-up steam chest?
func ExamplePoint_Distance() {
	p := gasket.Point{X: units.MM(-24), Y: units.MM(-16)}
	q := gasket.Point{X: units.MM(24), Y: units.MM(16)}
	fmt.Println(p.Distance(q).Text(units.Millimetres, 3))
	// Output: 57.689 mm
}

// From the corner of a casting to the middle of its bore, and on to the stud above it.
func ExamplePoint_Add() {
	bore := gasket.Point{X: units.MM(30), Y: units.MM(22.5)}
	fmt.Println(bore.Add(gasket.Point{Y: units.MM(14)}))
	// Output: x 30 mm, y 36.5 mm
}

// A hole measured from the corner of a casting, told from the middle of the bore.
func ExamplePoint_Sub() {
	bore := gasket.Point{X: units.MM(30), Y: units.MM(22.5)}
	fmt.Println(gasket.Point{X: units.MM(42.1), Y: units.MM(29.5)}.Sub(bore))
	// Output: x 12.1 mm, y 7 mm
}

// Where the top stud of a circle of 28 mm comes to when the cover is turned by 60 degrees.
func ExamplePoint_Turned() {
	fmt.Println(gasket.Point{Y: units.MM(14)}.Turned(60 * units.Degree))
	// Output: x -12.124355653 mm, y 7 mm
}

// A round opening, and a square one, which is no circle.
func ExampleLoop_Circle() {
	bore := gasket.Circle(gasket.Point{X: units.MM(5)}, units.MM(20.5))
	centre, diameter, ok := bore.Circle()
	fmt.Println(centre, diameter, ok)
	square, err := gasket.Rect{Width: units.MM(20), Height: units.MM(20)}.Loop()
	if err != nil {
		panic(err)
	}
	_, _, ok = square.Circle()
	fmt.Println(ok)
	// Output:
	// x 5 mm, y 0 mm 20.5 mm true
	// false
}

// The area of an opening of 20.5 mm in a gasket.
func ExampleCircle() {
	m, err := gasket.Outline{Outside: gasket.Circle(gasket.Point{}, units.MM(20.5))}.Measure()
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f mm2\n", m.Area.In(units.SquareMillimetre))
	// Output: 330.1 mm2
}

// How many straight sides has a port that is milled with a cutter of its own width?
func ExampleEdge_Straight() {
	port, err := gasket.Rect{Width: units.MM(10), Height: units.MM(2), Corner: units.MM(1)}.Loop()
	if err != nil {
		panic(err)
	}
	edges, err := port.Edges()
	if err != nil {
		panic(err)
	}
	straight := 0
	for _, e := range edges {
		if e.Straight() {
			straight++
		}
	}
	fmt.Println(straight, "straight and", len(edges)-straight, "round")
	// Output: 2 straight and 4 round
}

// chest is the best position of a made-up cover on its steam chest, whose upper right stud
// stands 0.5 mm out of place; the holes have 3.4 mm for studs of 3 mm.
func chest() gasket.Position {
	drawn, err := gasket.Rectangle(3, 3, units.MM(48), units.MM(32))
	if err != nil {
		panic(err)
	}
	studs := drawn.Moved(gasket.Point{X: units.MM(100)})
	studs[4].At.X = studs[4].At.X.Add(units.MM(0.5))
	m, err := gasket.Match(context.Background(), drawn.Drilled(units.MM(3.4)), studs, gasket.MatchOptions{Stud: units.MM(3)})
	if err != nil {
		panic(err)
	}
	return m.Positions[0]
}

// Which hole of that cover binds first? All share the error alike, and the first is told.
func ExamplePosition_Tightest() {
	p := chest().Tightest()
	fmt.Printf("hole %d over stud %d: off by %s, room for %s\n", p.First, p.Second, p.Distance.Text(units.Millimetres, 3), p.Allowance.Text(units.Millimetres, 3))
	// Output: hole 1 over stud 1: off by 0.250 mm, room for 0.200 mm
}

// How many of its holes go over their studs? The best position shares the error among
// all of them, so that none does.
func ExamplePair_Goes() {
	goes := 0
	pairs := chest().Pairs
	for _, p := range pairs {
		if p.Goes() {
			goes++
		}
	}
	fmt.Println(goes, "of", len(pairs))
	// Output: 0 of 8
}

// Where the middle of that cover comes to lie on the chest, which was measured from a
// point 100 mm to its left.
func ExamplePosition_Place() {
	at, err := chest().Place(gasket.Point{})
	if err != nil {
		panic(err)
	}
	fmt.Println(at)
	// Output: x 100.25 mm, y 0 mm
}

// The stud that is out of place, marked on the cover as it lies.
func ExamplePosition_Back() {
	at, err := chest().Back(gasket.Point{X: units.MM(124.5), Y: units.MM(16)})
	if err != nil {
		panic(err)
	}
	fmt.Println(at)
	// Output: x 24.25 mm, y 16 mm
}

// The dividers for six holes are set to the radius.
func ExampleStepping_Opening() {
	s, err := gasket.StepOff(6, units.MM(28))
	if err != nil {
		panic(err)
	}
	fmt.Println(s.Opening().Text(units.Millimetres, 3))
	// Output: 14.000 mm
}

// Dividers set to 14.1 mm leave 13.5 mm for the sixth step: what is missing is shared
// among all six.
func ExampleStepping_Reopened() {
	s, err := gasket.StepOff(6, units.MM(28))
	if err != nil {
		panic(err)
	}
	next, err := s.Reopened(units.MM(14.1), units.MM(13.5))
	if err != nil {
		panic(err)
	}
	fmt.Println(next.Text(units.Millimetres, 2))
	// Output: 14.00 mm
}

// What a list of work may ask of a cover that does not go on.
func ExampleActions() {
	for _, a := range gasket.Actions() {
		fmt.Println(a)
	}
	// Output:
	// open
	// drill
	// plug
}

func ExampleParseAction() {
	a, err := gasket.ParseAction("open")
	fmt.Println(a == gasket.Open, err)
	_, err = gasket.ParseAction("weld")
	fmt.Println(err)
	// Output:
	// true <nil>
	// gasket: action "weld": unknown; accepted: open, drill, plug
}
