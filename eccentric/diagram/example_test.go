package diagram_test

import (
	"bytes"
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagram"
	"github.com/valvechest/valvechest/units"
)

// An invented engine, drawn: the valve over its ports, and crank and sheave at the dead
// centres.
func ExampleValve() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	gear := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2)}),
	}
	valve, err := diagram.Valve(gear, diagram.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(valve.Alt)
	drive, err := diagram.Drive(gear, diagram.Options{Inch: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(drive[0].Alt)
	var svg bytes.Buffer
	if err := valve.WriteSVG(&svg); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.HasSuffix(svg.Bytes(), []byte("</svg>\n")))
	// Output:
	// Section of the valve, 15.4 mm long with a cavity of 9 mm, over the port face. From the head end: port 2 mm, bar 2.5 mm, middle port 4 mm, bar 2.5 mm, port 2 mm. At the head end the steam lap is 1.2 mm and the exhaust lap 0 mm. At the crank end the steam lap is 1.2 mm and the exhaust lap 0 mm. The travel is 6.4 mm.
	// Head-end dead centre: the piston is 0 in from the head end, the valve 0.0579 in towards the crank. Crank-end dead centre: the piston is 0.9843 in from the head end, the valve 0.0525 in towards the head end. The sheave leads crank by 116.0°, angle of advance 26.0°, offset of the sheave 0.126 in; drawn turning clockwise: no rotation is given.
	// true
}
