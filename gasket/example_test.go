package gasket_test

import (
	"context"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// Machinery's Handbook, 31st edition, p. 709, example 1(b): five holes, the first
// at the top, counted from the upper left corner of the square round the circle
// with Y downwards. The factors there are 0.50000, 0.00000; 0.02447, 0.34549;
// 0.20611, 0.90451; 0.79389, 0.90451; 0.97553, 0.34549.
func ExampleBoltCircle_handbook() {
	p, err := gasket.BoltCircle(5, units.MM(100), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	corner := gasket.Datum{Origin: gasket.Point{X: units.MM(-50), Y: units.MM(50)}, YDown: true}
	for i, q := range p.From(corner) {
		fmt.Printf("hole %s  x %7s  y %7s\n", p[i].Name, q.X.Decimal(units.Millimetres, 3), q.Y.Decimal(units.Millimetres, 3))
	}
	// Output:
	// hole 1  x  50.000  y   0.000
	// hole 2  x   2.447  y  34.549
	// hole 3  x  20.611  y  90.451
	// hole 4  x  79.389  y  90.451
	// hole 5  x  97.553  y  34.549
}

// A made-up steam chest whose upper right stud stands 0.37 mm out of place:
// least squares leaves no room there, and yet the cover goes on.
func ExampleMatch() {
	drawn, err := gasket.Rectangle(3, 3, units.MM(48), units.MM(32))
	if err != nil {
		panic(err)
	}
	studs := drawn.Turned(3 * units.Degree).Moved(gasket.Point{X: units.MM(100)}) // as it lay when it was measured
	studs[4].At.X = studs[4].At.X.Add(units.MM(0.37))

	m, err := gasket.Match(context.Background(), drawn.Drilled(units.MM(3.4)), studs, gasket.MatchOptions{Stud: units.MM(3)})
	if err != nil {
		panic(err)
	}
	best := m.Positions[0]
	fmt.Printf("goes on: %v\n", m.Goes)
	fmt.Printf("greatest error %s, by least squares %s, room for %s\n",
		best.Greatest.Text(units.Millimetres, 3), best.LeastSquares.Greatest.Text(units.Millimetres, 3),
		best.Pairs[0].Allowance.Text(units.Millimetres, 3))
	fmt.Printf("one size for all holes: %s\n", best.HoleForAll.Text(units.Millimetres, 2))
	fmt.Printf("positions paired like this: %d\n", len(m.Positions))
	there, err := best.Place(drawn[4].At)
	if err != nil {
		panic(err)
	}
	back, err := best.Back(there)
	if err != nil {
		panic(err)
	}
	fmt.Printf("hole 5 at %s, %s\n", back.X.Decimal(units.Millimetres, 3), back.Y.Decimal(units.Millimetres, 3))
	// Output:
	// goes on: true
	// greatest error 0.185 mm, by least squares 0.303 mm, room for 0.200 mm
	// one size for all holes: 3.37 mm
	// positions paired like this: 2
	// hole 5 at 24.000, 16.000
}

func ExampleWork_Size() {
	work := gasket.Work{Do: gasket.Open, Hole: "6", Over: "d", Diameter: units.MM(4.12238)}
	fmt.Println(work.Size())
	fmt.Println(work)
	// Output:
	// 4.123 mm
	// open hole 6 at (0.000, 0.000) mm to 4.123 mm for stud d
}

func ExamplePosition_SameRoom() {
	studs := gasket.Pattern{{At: gasket.Point{}}, {At: gasket.Point{X: units.MM(40)}}}
	cover := studs.Drilled(units.MM(3.4))
	for _, second := range []float64{3.4, 3.6} {
		cover[1].Diameter = units.MM(second)
		m, err := gasket.Match(context.Background(), cover, studs, gasket.MatchOptions{Stud: units.MM(3)})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(m.Positions[0].SameRoom())
	}
	// Output:
	// true
	// false
}

// A gasket for a made-up steam chest: what there is to cut and what is left.
func ExampleRectangular() {
	holes, err := gasket.Rectangle(3, 3, units.MM(44), units.MM(32))
	if err != nil {
		panic(err)
	}
	outside := gasket.Rect{Width: units.MM(52), Height: units.MM(40), Corner: units.MM(4)}
	inside := gasket.Rect{Width: units.MM(34), Height: units.MM(22), Corner: units.MM(2)}
	o, err := gasket.Rectangular("steam chest", outside, []gasket.Rect{inside}, holes.Drilled(units.MM(3.2)))
	if err != nil {
		panic(err)
	}
	m, err := o.Measure()
	if err != nil {
		panic(err)
	}
	webs, err := o.Webs()
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.0f mm2 of gasket in a sheet of %v by %v\n", m.Area.In(units.SquareMillimetre), m.Max.X.Sub(m.Min.X), m.Max.Y.Sub(m.Min.Y))
	fmt.Printf("narrowest: %s between %s and %s\n", webs[0].Width.Text(units.Millimetres, 2), webs[0].From, webs[0].To)
	// Output:
	// 1257 mm2 of gasket in a sheet of 52 mm by 40 mm
	// narrowest: 2.40 mm between hole 1 and the outside
}

// The port face of a made-up engine: the openings of the gasket are over the
// ports, wider by half a millimetre all round so that none is blinded.
func ExampleOutline_Offset() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)}
	pitch := ports.Exhaust.Add(ports.Steam).Scale(0.5).Add(ports.Bar) // from the middle of one port to the next
	openings := []gasket.Rect{
		{Centre: gasket.Point{X: pitch.Neg()}, Width: ports.Steam, Height: ports.Length},
		{Width: ports.Exhaust, Height: ports.Length},
		{Centre: gasket.Point{X: pitch}, Width: ports.Steam, Height: ports.Length},
	}
	studs, err := gasket.Rectangle(2, 2, units.MM(26), units.MM(18))
	if err != nil {
		panic(err)
	}
	face := gasket.Rect{Width: units.MM(34), Height: units.MM(26)}
	o, err := gasket.Rectangular("port face", face, openings, studs.Drilled(units.MM(3.2)))
	if err != nil {
		panic(err)
	}
	o, err = o.Offset(units.Length{}, units.MM(0.5), units.Length{})
	if err != nil {
		panic(err)
	}
	webs, err := o.Webs()
	if err != nil {
		panic(err)
	}
	fmt.Printf("narrowest: %s between %s and %s\n", webs[0].Width.Text(units.Millimetres, 2), webs[0].From, webs[0].To)
	// Output: narrowest: 1.50 mm between opening 1 and opening 2
}

// A stud of 25 mm that leans by half a degree, its foot 0.05 mm out of place.
func ExampleClearanceHole() {
	lean, err := gasket.LeanOfStud(units.MM(25), 0.5*units.Degree)
	if err != nil {
		panic(err)
	}
	hole, err := gasket.ClearanceHole(units.MM(3), units.MM(0.05), lean)
	if err != nil {
		panic(err)
	}
	fmt.Printf("lean %s, hole %s\n", lean.Text(units.Millimetres, 3), hole.Text(units.Millimetres, 2))
	// Output: lean 0.218 mm, hole 3.54 mm
}

// A stud that is half a degree out of true, where a cover of 8 mm ends.
func ExampleLeanOfStud() {
	lean, err := gasket.LeanOfStud(units.MM(8), 0.5*units.Degree)
	if err != nil {
		panic(err)
	}
	fmt.Println(lean.Text(units.Millimetres, 3))
	// Output: 0.070 mm
}

// Invented: the holes of a chest had to be opened by 0.6 mm to get it over studs that
// stood 30 mm above the face: that much forgives studs tilted by a little more than
// half a degree.
func ExampleTiltOfStud() {
	tilt, err := gasket.TiltOfStud(units.MM(30), units.MM(0.6).Scale(0.5))
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.2f degrees\n", tilt.Degrees())
	// Output: 0.57 degrees
}

// A cover of five studs on 40 mm with its top straddled, so that no stud is in the
// way of the pipe.
func ExampleHalfPitch() {
	p, err := gasket.BoltCircle(5, units.MM(40), 90*units.Degree+gasket.HalfPitch(5))
	if err != nil {
		panic(err)
	}
	x, y := p[0].At.X.Decimal(units.Millimetres, 3), p[0].At.Y.Decimal(units.Millimetres, 3)
	fmt.Printf("hole 1 at %s, %s\n", x, y)
	// Output: hole 1 at -11.756, 16.180
}

// The eight studs of a chest, three along each side.
func ExampleRectangle() {
	p, err := gasket.Rectangle(3, 3, units.MM(48), units.MM(32))
	if err != nil {
		panic(err)
	}
	for _, h := range p[:4] {
		fmt.Println(h.Name, h.At.X, h.At.Y)
	}
	// Output:
	// 1 -24 mm -16 mm
	// 2 0 mm -16 mm
	// 3 24 mm -16 mm
	// 4 24 mm 0 mm
}

// What a caliper must read over pins of 3 mm in four holes on 40 mm.
func ExamplePattern_Spans() {
	p, err := gasket.BoltCircle(4, units.MM(40), 0)
	if err != nil {
		panic(err)
	}
	spans, err := p.Spans(units.MM(3))
	if err != nil {
		panic(err)
	}
	for _, s := range []gasket.Span{spans[0], spans[4]} {
		fmt.Printf("%s to %s: centres %s, over pins %s\n", s.First, s.Second,
			s.Centres.Text(units.Millimetres, 3), s.OverPins.Text(units.Millimetres, 3))
	}
	// Output:
	// 1 to 2: centres 28.284 mm, over pins 31.284 mm
	// 1 to 3: centres 40.000 mm, over pins 43.000 mm
}

// A list as it is kept beside the drawing.
func ExampleReadPattern() {
	const list = `hole, x mm, y mm, diameter mm
A, -22, -16, 3.4
B, 22, -16, 3.4
`
	p, err := gasket.ReadPattern(strings.NewReader(list))
	if err != nil {
		panic(err)
	}
	fmt.Println(len(p), p[1].Name, p[1].At.X, p[1].Diameter)
	_, err = gasket.ReadPattern(strings.NewReader("x, y\n1, 2\n"))
	fmt.Println(err)
	// Output:
	// 2 B 22 mm 3.4 mm
	// gasket: line 2, x "1": a number without a unit; accepted: a number or an inch fraction and one of mm, cm, m, um (or µm, micron), in (or ", inch), thou, ft, such as "6.35 mm", "1 3/8 in" or "5 thou"
}

// A plate of 60 by 40 mm with one end round: the side that bulges is half a circle.
func ExampleReadOutline() {
	const list = `part, x mm, y mm, bulge, diameter mm
outside, 0, 0
outside, 60, 0, 1
outside, 60, 40
outside, 0, 40
hole, 6, 20, , 3.4
`
	o, err := gasket.ReadOutline("plate", strings.NewReader(list))
	if err != nil {
		panic(err)
	}
	edges, err := o.Outside.Edges()
	if err != nil {
		panic(err)
	}
	for _, e := range edges {
		if !e.Straight() {
			fmt.Printf("radius %v about %v, %v ", e.Radius, e.Centre.X, e.Centre.Y)
			fmt.Printf("through %.0f degrees\n", e.Sweep.Degrees())
		}
	}
	// Output: radius 20 mm about 60 mm, 20 mm through 180 degrees
}

// A cylinder cover of 36 mm, open to 20.5 mm, on six studs: the area is
// pi/4 (36^2 - 20.5^2 - 6 * 3.4^2).
func ExampleOutline_Measure() {
	m, err := cover().Measure()
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f mm2, of %.1f mm2 within the outside\n", m.Area.In(units.SquareMillimetre), m.Enclosed.In(units.SquareMillimetre))
	// Output: 633.3 mm2, of 1017.9 mm2 within the outside
}

func ExampleOutline_Webs() {
	webs, err := cover().Webs()
	if err != nil {
		panic(err)
	}
	w := webs[0]
	fmt.Printf("%s between %s and %s\n", w.Width.Text(units.Millimetres, 2), w.From, w.To)
	// Output: 2.05 mm between hole 1 and opening 1
}

// The same cover from sheet of 2.5 mm, which wants webs as wide as it is thick.
func ExampleOutline_Check() {
	findings, err := cover().Check(units.MM(2.5))
	if err != nil {
		panic(err)
	}
	for _, f := range findings {
		fmt.Println(f.Severity, f.Code, f.Remedies[0])
	}
	// Output:
	// caution narrow-web Leave 2.50 mm: move the hole, make it smaller, or cut an open notch there.
	// caution narrow-web Leave 2.50 mm: move the hole, make it smaller, or cut an open notch there.
}

// An opening as large as this runs into the holes.
func ExampleOutline_Validate() {
	o := cover()
	o.Cutouts[0] = gasket.Circle(gasket.Point{}, units.MM(25))
	fmt.Println(strings.SplitN(o.Validate().Error(), "\n", 2)[0])
	// Output: gasket: outline "cylinder cover": hole 1 runs into opening 1; accepted: one outside, and openings and holes inside it that do not meet
}

func ExampleRound() {
	o := cover()
	_, diameter, ok := o.Outside.Circle()
	fmt.Println(ok, diameter, len(o.Holes))
	// Output: true 36 mm 6
}

// cover is the gasket of a made-up cylinder cover.
func cover() gasket.Outline {
	studs, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	o, err := gasket.Round("cylinder cover", units.MM(36), units.MM(20.5), studs.Drilled(units.MM(3.4)))
	if err != nil {
		panic(err)
	}
	return o
}

// The gasket of a gland on two studs, 24 mm apart.
func ExampleOval() {
	studs := gasket.Pattern{
		{At: gasket.Point{X: units.MM(-12)}, Diameter: units.MM(3)},
		{At: gasket.Point{X: units.MM(12)}, Diameter: units.MM(3)},
	}
	o, err := gasket.Oval("gland", units.MM(18), units.MM(8), units.MM(10), studs)
	if err != nil {
		panic(err)
	}
	m, err := o.Measure()
	if err != nil {
		panic(err)
	}
	wide, high := m.Max.X.Sub(m.Min.X), m.Max.Y.Sub(m.Min.Y)
	fmt.Printf("%s by %s, ", wide.Text(units.Millimetres, 2), high.Text(units.Millimetres, 2))
	fmt.Printf("%.0f mm2\n", m.Area.In(units.SquareMillimetre))
	// Output: 32.00 mm by 18.00 mm, 297 mm2
}

// The inside of a port as an end mill of 2 mm leaves it.
func ExampleRect_Loop() {
	port := gasket.Rect{Width: units.MM(10), Height: units.MM(2), Corner: units.MM(1)}
	l, err := port.Loop()
	if err != nil {
		panic(err)
	}
	edges, err := l.Edges()
	if err != nil {
		panic(err)
	}
	fmt.Println(len(edges), "sides; the first from", edges[0].From.X, "to", edges[0].To.X)
	// Output: 6 sides; the first from -4 mm to 4 mm
}

// A square of 20 mm moved out by 3 mm has round corners: 400 + 80*3 + pi 3^2 mm2.
func ExampleLoop_Offset() {
	square, err := gasket.Rect{Width: units.MM(20), Height: units.MM(20)}.Loop()
	if err != nil {
		panic(err)
	}
	moved, err := square.Offset(units.MM(3))
	if err != nil {
		panic(err)
	}
	m, err := gasket.Outline{Outside: moved}.Measure()
	if err != nil {
		panic(err)
	}
	fmt.Printf("%d sides, %.2f mm2\n", len(moved), m.Area.In(units.SquareMillimetre))
	// Output: 8 sides, 668.27 mm2
}

// Holes of 3.4 mm over M3 studs and over loose M3 bolts.
func ExamplePositionZones() {
	z, err := gasket.PositionZones(units.MM(3.4), units.MM(3))
	if err != nil {
		panic(err)
	}
	fmt.Printf("bolts %v, studs %v\n", z.Floating, z.Fixed)
	// Output: bolts 0.4 mm, studs 0.2 mm
}

func ExampleLeastWeb() {
	fmt.Println(gasket.LeastWeb(units.MM(0.25)), gasket.LeastWeb(units.MM(2.5)))
	// Output: 1.5 mm 2.5 mm
}

func ExampleStudCircles() {
	web := gasket.LeastWeb(units.MM(0.25))
	fmt.Println(gasket.StudCircles(units.MM(36), units.MM(20.5), units.MM(3.4), web))
	// Output: 26.9 mm 29.6 mm <nil>
}

func ExampleLoop_Edges() {
	edges, err := gasket.Circle(gasket.Point{}, units.MM(20)).Edges()
	if err != nil {
		panic(err)
	}
	for _, e := range edges {
		fmt.Printf("from %v to %v, radius %v\n", e.From.X, e.To.X, e.Radius)
	}
	// Output:
	// from -10 mm to 10 mm, radius 10 mm
	// from 10 mm to -10 mm, radius 10 mm
}

// The holes of a chest counted from its lower left corner, as a dial counts them.
func ExamplePattern_From() {
	p, err := gasket.Rectangle(2, 2, units.MM(48), units.MM(32))
	if err != nil {
		panic(err)
	}
	corner := gasket.Datum{Origin: gasket.Point{X: units.MM(-30), Y: units.MM(-20)}}
	for i, at := range p.From(corner) {
		fmt.Println(p[i].Name, at.X, at.Y)
	}
	// Output:
	// 1 6 mm 4 mm
	// 2 54 mm 4 mm
	// 3 54 mm 36 mm
	// 4 6 mm 36 mm
}

// Dividers for seven holes on 36 mm; set by a rule to 15.7, six steps left 15.16.
func ExampleStepOff() {
	s, err := gasket.StepOff(7, units.MM(36))
	if err != nil {
		panic(err)
	}
	for _, chord := range s.Chords {
		fmt.Print(chord.Text(units.Millimetres, 3), " ")
	}
	next, err := s.Reopened(units.MM(15.7), units.MM(15.16))
	if err != nil {
		panic(err)
	}
	fmt.Println("set again to", next.Text(units.Millimetres, 2))
	// Output: 15.620 mm 28.146 mm 35.097 mm set again to 15.62 mm
}
