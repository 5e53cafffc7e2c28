package gasket_test

import (
	"fmt"

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

	m, err := gasket.Match(drawn.Drilled(units.MM(3.4)), studs, gasket.MatchOptions{Stud: units.MM(3)})
	if err != nil {
		panic(err)
	}
	best := m.Positions[0]
	fmt.Printf("goes on: %v\n", m.Goes)
	fmt.Printf("greatest error %s, by least squares %s, room for %s\n",
		best.Greatest.Text(units.Millimetres, 3), best.LeastSquares.Greatest.Text(units.Millimetres, 3), best.Pairs[0].Allowance.Text(units.Millimetres, 3))
	fmt.Printf("one size for all holes: %s\n", best.HoleForAll.Text(units.Millimetres, 2))
	fmt.Printf("positions paired like this: %d\n", len(m.Positions))
	// Output:
	// goes on: true
	// greatest error 0.185 mm, by least squares 0.303 mm, room for 0.200 mm
	// one size for all holes: 3.37 mm
	// positions paired like this: 2
}

// A gasket for a made-up steam chest: what there is to cut and what is left.
func ExampleRectangular() {
	holes, err := gasket.Rectangle(3, 3, units.MM(44), units.MM(32))
	if err != nil {
		panic(err)
	}
	o, err := gasket.Rectangular("steam chest", gasket.Rect{Width: units.MM(52), Height: units.MM(40), Corner: units.MM(4)},
		[]gasket.Rect{{Width: units.MM(34), Height: units.MM(22), Corner: units.MM(2)}}, holes.Drilled(units.MM(3.2)))
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
	fmt.Printf("%.0f mm2 of gasket in a sheet of %v by %v\n", m.Area/units.SquareMillimetre, m.Max.X.Sub(m.Min.X), m.Max.Y.Sub(m.Min.Y))
	fmt.Printf("narrowest: %s between %s and %s\n", webs[0].Width.Text(units.Millimetres, 2), webs[0].From, webs[0].To)
	// Output:
	// 1257 mm2 of gasket in a sheet of 52 mm by 40 mm
	// narrowest: 2.40 mm between hole 1 and the outside
}

// The port face of a made-up engine: the openings of the gasket stand over the
// ports, wider by half a millimetre all round so that none is blinded.
func ExampleRectangular_ports() {
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
	o, err := gasket.Rectangular("port face", gasket.Rect{Width: units.MM(34), Height: units.MM(26)}, openings, studs.Drilled(units.MM(3.2)))
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

// A builder opened the holes of a chest by 0.5 mm to get it over studs that stood
// 25.4 mm above the face: that much forgives studs tilted by a little more than
// half a degree.
func ExampleTiltOfStud() {
	tilt, err := gasket.TiltOfStud(units.MM(25.4), units.MM(0.5).Scale(0.5))
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.2f degrees\n", tilt.Degrees())
	// Output: 0.56 degrees
}
