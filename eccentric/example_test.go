package eccentric_test

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// An invented engine: what its valve does at the head end, and what it lacks.
func ExampleGear_Events() {
	gear := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
	events, err := gear.Events()
	if err != nil {
		fmt.Println(err)
		return
	}
	head := events.Head
	fmt.Printf("cut-off %.1f deg, %.1f %% of the stroke\n", head.CutOff.Crank.Degrees(), 100*head.CutOff.Stroke)
	fmt.Printf("lead %s, sheave offset %s\n", head.Lead.Text(units.Millimetres, 2), gear.EccentricOffset())
	// Output:
	// cut-off 133.4 deg, 87.0 % of the stroke
	// lead 0.27 mm, sheave offset 3.2 mm
}

// T. Bevan, The Theory of Machines, chapter 5, example 1 (p. 147 of the
// transcription seen): travel 4.5 in, outside lap 1.125, inside lap 0.25, angle
// of advance 35 degrees. The book neglects the slant of both rods.
func ExampleGear_Events_bevan() {
	ports := eccentric.Ports{Steam: units.Inch(1.125), Bar: units.Inch(1), Exhaust: units.Inch(4)} // not printed; no event depends on them
	gear := eccentric.Gear{
		Stroke: units.Inch(20), ConnectingRod: eccentric.InfiniteRod(),
		Travel: units.Inch(4.5), EccentricRod: eccentric.InfiniteRod(), Advance: 35 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.Inch(1.125), Exhaust: units.Inch(0.25)}),
	}
	events, err := gear.Events()
	if err != nil {
		fmt.Println(err)
		return
	}
	e := events.Head
	for _, event := range []struct {
		name string
		eccentric.Event
	}{{"admission", e.Admission}, {"cut-off", e.CutOff}, {"release", e.Release}, {"compression", e.Compression}} {
		fmt.Printf("%-11s %7.2f\n", event.name, event.Crank.Degrees())
	}
	// Output:
	// admission     -5.00
	// cut-off      115.00
	// release      151.38
	// compression  318.62
}

// C. A. Purinton, Lap and Lead in Slide Valves: travel is twice the lap and the
// width of the port, 2 (1/8 + 1/8) = 1/2 in, for the port to open fully.
func ExampleGear_Check_purinton() {
	ports := eccentric.Ports{Steam: units.InchFraction(1, 8), Bar: units.InchFraction(1, 8), Exhaust: units.InchFraction(3, 8)}
	gear := eccentric.Gear{
		Stroke: units.Inch(2), ConnectingRod: eccentric.InfiniteRod(),
		Travel: units.InchFraction(3, 8), EccentricRod: eccentric.InfiniteRod(), Advance: 42 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.InchFraction(1, 8)}),
	}
	for _, f := range gear.Check() {
		if f.Code == eccentric.SteamPartOpen && f.End == eccentric.HeadEnd {
			fmt.Println(f.Text, f.Severity)
		}
	}
	gear.Travel = units.InchFraction(1, 2)
	events, err := gear.Events()
	fmt.Println(events.Head.OverTravel, err)
	// Output:
	// The head port opens 1.59 mm (62.5 thou) of its 3.18 mm to steam, 50 %. That is often so; the full width still serves the exhaust. note
	// 0 mm <nil>
}

func ExampleGear_WithLead() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	gear := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)),
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2)}),
	}
	gear, err := gear.WithLead(units.MM(0.1), eccentric.BothEnds)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("advance %.1f deg: sin d = (S + lead) / r = (1.2 + 0.1) / 3.2\n", gear.Advance.Degrees())
	// Output:
	// advance 24.0 deg: sin d = (S + lead) / r = (1.2 + 0.1) / 3.2
}

// A builder's engine with 30 degrees of advance and no lead is to run the other
// way. The eccentric is turned by 120 degrees; turned by half a turn instead it
// opens the port 60 degrees late. Geometry.
func ExampleGear_TurnToReverse() {
	ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	gear := eccentric.Gear{
		Stroke: units.MM(40), ConnectingRod: eccentric.InfiniteRod(),
		Travel: units.MM(6), EccentricRod: eccentric.InfiniteRod(), Advance: 30 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.5)}),
	}
	fmt.Printf("turn the eccentric %.0f deg\n", gear.TurnToReverse().Degrees())

	gear.Advance = -gear.Advance // half a turn, seen in the new direction
	events, err := gear.Events()
	fmt.Printf("after half a turn the port opens at %.0f deg %v\n", events.Head.Admission.Crank.Degrees(), err)
	// Output:
	// turn the eccentric 120 deg
	// after half a turn the port opens at 60 deg <nil>
}

// A builder's twin has its cranks at 90 degrees. With no lead and 35 degrees of
// advance each end is driven for 110 degrees, so that one of the four always is;
// with 50 degrees it is 80, and the engine may stop where none is. Geometry.
func ExampleEndEvents_Driven() {
	ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	for _, advance := range []units.Angle{35 * units.Degree, 50 * units.Degree} {
		gear := eccentric.Gear{
			Stroke: units.MM(40), ConnectingRod: eccentric.InfiniteRod(),
			Travel: units.MM(6), EccentricRod: eccentric.InfiniteRod(), Advance: advance,
			Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(3).Scale(math.Sin(advance.Radians()))}),
		}
		events, err := gear.Events()
		if err != nil {
			fmt.Println(err)
			return
		}
		from, to := events.Head.Driven()
		_, crankTo := events.Crank.Driven()
		fmt.Printf("driven from %.0f to %.0f deg; starts everywhere: %v\n", from.Degrees(), to.Degrees(), min(to, crankTo) >= 90*units.Degree)
	}
	// Output:
	// driven from 0 to 110 deg; starts everywhere: true
	// driven from 0 to 80 deg; starts everywhere: false
}
