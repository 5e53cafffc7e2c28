package dial_test

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/dial"
	"github.com/valvechest/valvechest/units"
)

// Six holes on 36 mm from the corner of the square round the circle, on a table
// with screws of 1/10 in and dials in thou: the slide that has to come back goes
// past first, so that the backlash is always on the same side.
func ExampleTable_Set() {
	p, err := gasket.BoltCircle(6, units.MM(36), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	corner := gasket.Datum{Origin: gasket.Point{X: units.MM(-18), Y: units.MM(-18)}}
	wheel := dial.Handwheel{PerTurn: units.Inch(0.1), Division: units.Thou(1)}
	settings, err := dial.Table{X: wheel, Y: wheel, Overrun: units.Thou(20)}.Set(p, corner)
	if err != nil {
		panic(err)
	}
	show := func(d dial.SlideSetting) string {
		text := fmt.Sprintf("%2d turns + %s", d.Turns, d.Reading.Decimal(units.Thousandths, 0))
		if d.Over.Sign() > 0 {
			text += ", from " + d.Over.Decimal(units.Thousandths, 0) + " below"
		}
		return text
	}
	for _, s := range settings {
		fmt.Printf("%s  X %-30s  Y %s\n", s.Hole, show(s.X), show(s.Y))
	}
	// Output:
	// 1  X  7 turns + 9                    Y 14 turns + 17
	// 2  X  0 turns + 95, from 20 below    Y 10 turns + 63, from 20 below
	// 3  X  0 turns + 95                   Y  3 turns + 54, from 20 below
	// 4  X  7 turns + 9                    Y  0 turns + 0, from 20 below
	// 5  X 13 turns + 22                   Y  3 turns + 54
	// 6  X 13 turns + 22                   Y 10 turns + 63
}

// The same circle turned under the spindle on a rotary table that is set to a
// minute of arc.
func ExampleRotary_Set() {
	p, err := gasket.BoltCircle(7, units.MM(36), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	turns, err := dial.Rotary{Step: units.ArcMinute}.Set(p, gasket.Datum{})
	if err != nil {
		panic(err)
	}
	for _, s := range turns[:3] {
		fmt.Printf("%s  %d deg %02d min at %s, out by %s\n", s.Hole, s.Degrees, s.Minutes, s.Radius.Text(units.Millimetres, 3), s.Error.Text(units.Micrometres, 1))
	}
	// Output:
	// 1  90 deg 00 min at 18.000 mm, out by 0.0 um
	// 2  141 deg 26 min at 18.000 mm, out by 1.5 um
	// 3  192 deg 51 min at 18.000 mm, out by -2.2 um
}

// The order in which the X slide never comes back.
func ExampleTable_InOrder() {
	p, err := gasket.BoltCircle(6, units.MM(36), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	order, err := dial.Table{}.InOrder(p, gasket.Datum{})
	if err != nil {
		panic(err)
	}
	fmt.Println(order)
	// Output: [3 2 4 1 5 6]
}

// The angle of a setting, as the protractor of another table would have it.
func ExampleTurnSetting_Angle() {
	p, err := gasket.BoltCircle(7, units.MM(36), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	turns, err := dial.Rotary{Step: units.ArcMinute}.Set(p, gasket.Datum{})
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.4f degrees, exactly %.4f\n", turns[1].Angle().Degrees(), 90+360.0/7)
	// Output: 141.4333 degrees, exactly 141.4286
}

// What to mind under the drill.
func ExamplePrecautions() {
	for _, p := range dial.Precautions() {
		fmt.Println(p.Code)
	}
	// Output:
	// clamp-thin-work
	// stop-to-move
}
