package eccentric_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// The sheave of an engine has slipped 10 degrees back on the shaft: how to put it where
// it is drawn.
func ExampleGear_Restored() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	drawn := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: ports, Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
	slipped := drawn
	slipped.Advance -= 10 * units.Degree
	cures, err := slipped.Restored(drawn, eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range cures {
		fmt.Println(c)
	}
	// Output:
	// Turn the eccentric on the shaft 10.0 deg forwards, an arc of 0.52 mm (20.6 thou) on a shaft of 6 mm, until it stands 116.0 deg ahead of the crank in the direction of rotation (advance 26.0 deg).
}

// Half a millimetre of shims that turned out to be too much comes out again, and a rod
// that is taken as endless is asked.
func ExampleAlteration_Undone() {
	shims := eccentric.Alteration{Shims: units.MM(0.5), EccentricRod: units.MM(-0.5)}
	fmt.Println(shims.Undone().Shims, shims.Undone().EccentricRod)
	fmt.Println(eccentric.InfiniteRod().Infinite(), eccentric.RodOf(units.MM(60)).Infinite())
	// Output:
	// -0.5 mm 0.5 mm
	// true false
}

// The first cure of the valve that is too long, and one that is only lived with. The
// sheave of this engine was given by where it stands.
func ExampleGear_SalvagePlaced() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	gear, err := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)),
		Ports: ports, Valve: eccentric.Valve{Length: units.MM(17.4), Cavity: units.MM(9)},
	}.WithEccentricAt(116 * units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	saved, err := gear.SalvagePlaced(eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range saved.Cures {
		fmt.Printf("%v %s; restated: %v, only set: %v, leaves: %q\n", c.Steps[0].Part, c.Steps[0].Change, c.Restates(), c.Sets(), c.Leaves())
	}
	// Output:
	// valve metal off the ends; restated: false, only set: false, leaves: []
	// eccentric turned on the shaft; restated: false, only set: true, leaves: []
}
