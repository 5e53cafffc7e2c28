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
