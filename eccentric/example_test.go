package eccentric_test

import (
	"fmt"
	"math"
	"strings"

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
	// The ports are not printed; no event depends on them.
	ports := eccentric.Ports{Steam: units.Inch(1.125), Bar: units.Inch(1), Exhaust: units.Inch(4)}
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
	eighth := units.InchFraction(1, 8)
	ports := eccentric.Ports{Steam: eighth, Bar: eighth, Exhaust: units.InchFraction(3, 8)}
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

// An invented engine with 30 degrees of advance and no lead is to run the other
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

// An invented slip eccentric of 25 degrees of advance, driven by a pin of 1/8 in at
// 3/8 in from the middle of the shaft: how long its slot is, and what comes of a slot
// whose length was taken for the way of the pin. Geometry.
func ExampleGear_SlotFor() {
	ports := eccentric.Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	gear := eccentric.Gear{
		Stroke: units.MM(40), ConnectingRod: eccentric.InfiniteRod(),
		Travel: units.MM(6), EccentricRod: eccentric.InfiniteRod(), Advance: 25 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2)}),
	}
	pin, radius := units.InchFraction(1, 8), units.InchFraction(3, 8)
	slot, err := gear.SlotFor(pin, radius)
	fmt.Printf("pin turns %.0f deg, slot %.1f deg end to end %v\n", gear.TurnToReverse().Degrees(), slot.Degrees(), err)

	short, err := gear.WithSlot(gear.TurnToReverse(), pin, radius)
	fmt.Printf("a slot of %.0f deg sets %.1f deg of advance %v\n",
		gear.TurnToReverse().Degrees(), short.Advance.Degrees(), err)
	// Output:
	// pin turns 130 deg, slot 149.2 deg end to end <nil>
	// a slot of 130 deg sets 34.6 deg of advance <nil>
}

// A twin, invented, has its cranks at 90 degrees. With no lead and 35 degrees of
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
		fmt.Printf("driven from %.0f to %.0f deg; starts everywhere: %v\n",
			from.Degrees(), to.Degrees(), min(to, crankTo) >= 90*units.Degree)
	}
	// Output:
	// driven from 0 to 110 deg; starts everywhere: true
	// driven from 0 to 80 deg; starts everywhere: false
}

// The invented engine of the examples below.
var engine = eccentric.Gear{
	Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
	Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
	Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
	Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
}

// A cavity 2.8 mm too long leaves lands narrower than the ports.
func ExampleGear_Check() {
	gear := engine
	gear.Valve.Cavity = units.MM(11.8)
	findings := gear.Check()
	worst := findings[0]
	fmt.Println(worst.Severity, worst.Code, worst.End, worst.Amount)
	fmt.Println(worst.Remedies[1])
	// Output:
	// fails narrow-land both 0.2 mm
	// Or let strips into this valve, to make it one with a cavity of 9 mm (0.354 in).
}

// The crank's radius was typed for the stroke.
func ExampleGear_CheckProportions() {
	gear := engine
	gear.Stroke = units.MM(12.5)
	findings, err := gear.CheckProportions(units.MM(20))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range findings {
		fmt.Println(f.Text)
	}
	// Output:
	// For a bore of 20.00 mm (0.787 in) the stroke, 12.50 mm (0.492 in), is 0.62 times the bore (usual: 0.7 to 4). A builder may have his reasons; but look at the sizes first.
}

func ExampleGear_Laps() {
	laps := engine.Laps()
	fmt.Println("S = (15.4 - 2 x 2 - 2 x 2.5 - 4) / 2 =", laps.Steam)
	fmt.Println("E = (2 x 2.5 + 4 - 9) / 2 =", laps.Exhaust)
	// Output:
	// S = (15.4 - 2 x 2 - 2 x 2.5 - 4) / 2 = 1.2 mm
	// E = (2 x 2.5 + 4 - 9) / 2 = 0 mm
}

func ExamplePorts_ValveWith() {
	valve := engine.Ports.ValveWith(eccentric.Laps{Steam: units.MM(1.5), Exhaust: units.MM(0.2)})
	fmt.Println(valve.Length, valve.Cavity)
	// Output: 16 mm 8.6 mm
}

// Where the sheave goes on the shaft, and what a dial shows when it is turned.
func ExampleGear_EccentricLead() {
	offset := engine.EccentricOffset()
	lead := engine.EccentricLead()
	fmt.Printf("%.0f deg ahead of the crank, offset %v, dial %v\n", lead.Degrees(), offset, offset.Scale(2))

	reversing := engine
	reversing.LeverRatio = -1.6
	fmt.Printf("%.0f deg, offset %v\n", reversing.EccentricLead().Degrees(), reversing.EccentricOffset())
	// Output:
	// 116 deg ahead of the crank, offset 3.2 mm, dial 6.4 mm
	// -64 deg, offset 2 mm
}

func ExampleGear_Displacement() {
	x, err := engine.Displacement(0)
	fmt.Println(x.Text(units.Millimetres, 3), err) // the lap of 1.2 mm and the lead
	// Output: 1.472 mm <nil>
}

func ExampleGear_OpeningsAt() {
	open, err := engine.OpeningsAt(90 * units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("head port to steam %.2f mm, crank port to exhaust %.2f mm\n",
		open.Head.Steam.MM(), open.Crank.Exhaust.MM())
	// Output: head port to steam 1.69 mm, crank port to exhaust 2.00 mm
}

// With a rod of five cranks the piston is past the middle when the crank stands at
// 90 degrees, and at the middle before.
func ExampleGear_PistonPosition() {
	position, err := engine.PistonPosition(90 * units.Degree)
	fmt.Println(position.Text(units.Millimetres, 2), err)
	half, err := engine.CrankAt(0.5)
	fmt.Printf("%.1f deg %v\n", half.Degrees(), err)
	// Output:
	// 13.75 mm <nil>
	// 84.3 deg <nil>
}

func ExampleGear_CrankAt() {
	angle, err := engine.CrankAt(0.75)
	fmt.Printf("%.1f deg %v\n", angle.Degrees(), err)
	// Output: 114.7 deg <nil>
}

// What the slant of the eccentric rod does to the leads, and the valve's place that
// undoes it.
func ExampleGear_OffsetForEqualLead() {
	gear := engine
	for range 2 {
		events, err := gear.Events()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("leads %.3f and %.3f mm, mean %.3f\n",
			events.Head.Lead.MM(), events.Crank.Lead.MM(), events.MeanLead().MM())
		if gear.Valve.Offset, err = gear.OffsetForEqualLead(); err != nil {
			fmt.Println(err)
			return
		}
	}
	fmt.Printf("valve %.3f mm towards the crank\n", gear.Valve.Offset.MM())
	// Output:
	// leads 0.272 and 0.134 mm, mean 0.203
	// leads 0.203 and 0.203 mm, mean 0.203
	// valve -0.069 mm towards the crank
}

func ExampleGear_MoveForEqualLead() {
	for _, offset := range []units.Length{{}, units.MM(-0.07)} {
		gear := engine
		gear.Valve.Offset = offset
		move, err := gear.MoveForEqualLead()
		fmt.Println(offset, "off centre: move it", move.Text(units.Millimetres, 3), err)
	}
	// Output:
	// 0 mm off centre: move it -0.069 mm <nil>
	// -0.07 mm off centre: move it 0.000 mm <nil>
}

// With a cavity of 11.8 mm for 9 mm the crank end shuts its exhaust when the piston
// is on its way out again.
func ExampleEndEvents_Compresses() {
	gear := engine
	gear.Valve.Cavity = units.MM(11.8)
	events, err := gear.Events()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, end := range []eccentric.EndEvents{events.Head, events.Crank} {
		fmt.Printf("shut at %.1f deg, compresses: %v\n", end.Compression.Crank.Degrees(), end.Compresses())
	}
	// Output:
	// shut at 358.5 deg, compresses: true
	// shut at 361.3 deg, compresses: false
}

func ExampleGear_Sweep() {
	sweep := engine.Sweep()
	fmt.Printf("the ports end at %v, the valve at %v to %v from the middle\n", sweep.Ports, sweep.Min, sweep.Max)
	fmt.Printf("a chest has more than %v inside\n", sweep.Chest)
	// Output:
	// the ports end at 6.5 mm, the valve at 4.5 mm to 10.9 mm from the middle
	// a chest has more than 21.8 mm inside
}

// A rod has a length or is infinite; left out it is neither.
func ExampleParseRod() {
	for _, text := range []string{"2 1/2 in", "infinite"} {
		rod, err := eccentric.ParseRod(text)
		fmt.Println(rod, err)
	}
	_, err := eccentric.Gear{Stroke: units.MM(25)}.Events()
	fmt.Println(strings.Contains(err.Error(), `connecting rod: missing; accepted: a length above zero, or "infinite"`))
	// Output:
	// 63.5 mm <nil>
	// infinite <nil>
	// true
}

// An invented vertical engine of 3/4 by 3/4 in has shims of 25 thou put under its
// main bearings. The crank comes nearer to the cylinder, and the valve goes away
// from the crank: the lead that both ends had is gone at the one and large at the
// other. Geometry.
func ExampleGear_Altered() {
	inch := units.InchFraction
	gear := eccentric.Gear{
		Stroke: inch(3, 4), ConnectingRod: eccentric.RodOf(inch(29, 16)),
		Travel: inch(3, 16), EccentricRod: eccentric.RodOf(inch(9, 4)),
		Ports: eccentric.Ports{Steam: inch(1, 16), Bar: inch(3, 32), Exhaust: inch(1, 8)},
		Valve: eccentric.Valve{Length: inch(17, 32), Cavity: inch(5, 16)},
	}
	gear, err := gear.WithLead(units.Thou(2), eccentric.BothEnds)
	if err != nil {
		fmt.Println(err)
		return
	}
	shimmed, err := gear.Altered(eccentric.Alteration{Shims: units.Thou(25)})
	if err != nil {
		fmt.Println(err)
		return
	}
	events, err := shimmed.Events()
	fmt.Printf("leads %.1f and %.1f thou, cut-off %.1f and %.1f %% %v\n",
		events.Head.Lead.Thou(), events.Crank.Lead.Thou(), 100*events.Head.CutOff.Stroke, 100*events.Crank.CutOff.Stroke, err)
	// Output:
	// leads -21.6 and 25.6 thou, cut-off 63.2 and 82.0 % <nil>
}

// D. A. Low, An Introduction to Machine Drawing and Design (4th edition, 1890), p.
// 74 and Fig. 58: a cylinder of 6 by 12 in, 14 1/2 in between its covers, with a
// piston of 2 in. The text has a quarter of an inch at each end. The book gives no
// rods, and no clearance depends on them.
func ExampleRoom_Clearance_low() {
	ports := eccentric.Ports{Steam: units.Inch(0.625), Bar: units.Inch(0.625), Exhaust: units.Inch(1.25)}
	room := eccentric.Room{
		Gear: eccentric.Gear{
			Stroke: units.Inch(12), ConnectingRod: eccentric.InfiniteRod(),
			Travel: units.Inch(2), EccentricRod: eccentric.InfiniteRod(),
			Ports: ports, Valve: eccentric.Valve{Length: units.Inch(4.5), Cavity: units.Inch(2.5)},
		},
		Length: units.Inch(14.5), Piston: units.Inch(2),
	}
	c, err := room.Clearance()
	fmt.Printf("%s at the head end, %s at the crank end, %.2f %% of the stroke %v\n",
		c.Head.Text(units.Inches, 3), c.Crank.Text(units.Inches, 3), 100*c.HeadShare, err)
	// Output:
	// 0.250 in at the head end, 0.250 in at the crank end, 2.08 % of the stroke <nil>
}

// An invented engine whose covers leave 4.5 mm beyond the stroke, gaskets counted: shared
// equally, and as it was measured, with nothing at the head end. Geometry.
func ExampleRoom_Clearance() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	room := eccentric.Room{
		Gear: eccentric.Gear{
			Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
			Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
			Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2)}),
		},
		Length: units.MM(37), Piston: units.MM(8), Gaskets: units.MM(0.5),
	}
	c, err := room.Clearance()
	fmt.Println(c.Head, c.Crank, c.Total(), err)

	room, err = room.WithHeadClearance(units.Length{})
	if err != nil {
		fmt.Println(err)
		return
	}
	f := room.Check()[0]
	fmt.Println(f.Severity, f.Code, f.End)
	ways, err := room.ToShare()
	if err != nil {
		fmt.Println(err)
		return
	}
	room, err = room.Altered(ways[0])
	fmt.Println("connecting rod longer by", ways[0].ConnectingRod, err)
	c, err = room.Clearance()
	fmt.Println(c.Head, c.Crank, err)
	// Output:
	// 2.25 mm 2.25 mm 4.5 mm <nil>
	// danger piston-strikes head
	// connecting rod longer by -2.25 mm <nil>
	// 2.25 mm 2.25 mm <nil>
}

// The port face of an engine as it was cut: the crank end's port is a quarter of a
// millimetre narrower and its bar as much wider, and the cavity of the valve is
// 0.1 mm off its middle. The sheave was found 116 degrees ahead of the crank.
// Invented.
func ExampleGear_LapsAt() {
	built := engine
	built.Ports.CrankSteam, built.Ports.CrankBar = units.MM(1.75), units.MM(2.75)
	built.Valve.CavityOffset = units.MM(0.1)
	built, err := built.WithEccentricAt(116 * units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	port, bar := built.Ports.At(eccentric.CrankEnd)
	fmt.Printf("at the crank end a port of %v and a bar of %v\n", port, bar)
	fmt.Printf("head end:  %v\n", built.LapsAt(eccentric.HeadEnd))
	fmt.Printf("crank end: %v\n", built.LapsAt(eccentric.CrankEnd))
	fmt.Printf("advance %.1f deg\n", built.Advance.Degrees())
	// Output:
	// at the crank end a port of 1.75 mm and a bar of 2.75 mm
	// head end:  steam 1.2 mm, exhaust 0.1 mm
	// crank end: steam 1.2 mm, exhaust 0.15 mm
	// advance 26.0 deg
}

// An invented engine of 1/4 in of travel, line on line: what 5 thou on the exhaust lap
// do to release and compression. Geometry.
func ExampleGear_MovedByExhaustLap() {
	sixteenth := units.InchFraction(1, 16)
	ports := eccentric.Ports{Steam: sixteenth, Bar: sixteenth.Scale(1.5), Exhaust: sixteenth.Scale(2)}
	gear := eccentric.Gear{
		Stroke: units.InchFraction(3, 4), ConnectingRod: eccentric.InfiniteRod(),
		Travel: units.InchFraction(1, 4), EccentricRod: eccentric.InfiniteRod(), Advance: 30 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: sixteenth}),
	}
	moved, err := gear.MovedByExhaustLap(units.Thou(5))
	fmt.Printf("%.1f deg %v\n", moved.Degrees(), err)
	// Output:
	// 2.3 deg <nil>
}

// The valve of the demonstration engine, which is invented, has been made 2 mm too
// long; every part is made.
func ExampleSalvage() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	gear := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: ports, Valve: eccentric.Valve{Length: units.MM(17.4), Cavity: units.MM(9)},
	}
	saved, err := eccentric.Salvage(gear, eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range saved.Cures {
		fmt.Printf("%v: %s; cut-off %.1f and %.1f %%, right: %v\n", c.Steps[0].Part, c.Steps[0].Change,
			100*c.Events.Head.CutOff.Stroke, 100*c.Events.Crank.CutOff.Stroke, c.Right())
	}
	fmt.Println(saved.Cures[0])
	// Output:
	// valve: metal off the ends; cut-off 87.0 and 79.6 %, right: true
	// eccentric: turned on the shaft; cut-off 58.7 and 46.8 %, right: false
	// Take 1 mm (39.4 thou) off each end of the valve, which is then 15.4 mm (0.606 in) long over its outer edges.
}

// A valve gear for three quarters of the stroke on a cylinder of which only the rods
// are settled: the exact one, and the one to make in steps of 0.05 mm.
func ExampleDesign() {
	wish := eccentric.Wish{
		Gear: eccentric.Gear{
			Stroke: units.MM(30), ConnectingRod: eccentric.RodOf(units.MM(75)), EccentricRod: eccentric.RodOf(units.MM(70)),
		},
		CutOff: 0.75, Lead: units.MM(0.1), Opening: units.MM(2), Compression: 0.08, EqualLead: true,
	}
	exact, rounded, err := eccentric.Design(wish)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range []eccentric.Designed{exact, rounded} {
		g := d.Gear
		fmt.Printf("travel %s, valve %s, cavity %s, ports %s, advance %.2f deg: cut-off %.2f %%, lead %s\n",
			g.Travel.Text(units.Millimetres, 3), g.Valve.Length.Text(units.Millimetres, 3), g.Valve.Cavity.Text(units.Millimetres, 3),
			g.Ports.Steam.Text(units.Millimetres, 3), g.Advance.Degrees(), 100*d.CutOff, d.Lead.Text(units.Millimetres, 3))
	}
	// Output:
	// travel 7.799 mm, valve 16.231 mm, cavity 8.008 mm, ports 2.080 mm, advance 30.85 deg: cut-off 75.00 %, lead 0.100 mm
	// travel 7.850 mm, valve 16.400 mm, cavity 8.100 mm, ports 2.100 mm, advance 31.00 deg: cut-off 74.73 %, lead 0.097 mm
}

// A rod that is too short for so early a cut-off: what is the earliest that it
// allows?
func ExampleDesign_nearest() {
	wish := eccentric.Wish{
		Gear: eccentric.Gear{
			Stroke: units.MM(100), ConnectingRod: eccentric.RodOf(units.MM(250)), EccentricRod: eccentric.RodOf(units.MM(12)),
		},
		CutOff: 0.2, Opening: units.MM(2),
	}
	_, _, err := eccentric.Design(wish)
	fmt.Println(err)
	// Output:
	// eccentric: cut-off 20 %: with the lead and the opening that are wished, and these rods, no gear has it; accepted: at least 46.60 %
}

// A valve that follows its eccentric with 0.3 mm of play: every event comes later, and
// the port opens less far. The sheave is turned on for the lead that it had. Invented.
func ExampleValve() {
	worn := engine
	worn.Valve.LostMotion = units.MM(0.3)
	print := func(name string, g eccentric.Gear) {
		e, err := g.Events()
		if err != nil {
			fmt.Println(err)
			return
		}
		h := e.Head
		fmt.Printf("%s: lead %.2f mm, cut-off %.1f %%, release %.1f %%, opening %.2f mm\n",
			name, e.MeanLead().MM(), 100*h.CutOff.Stroke, 100*h.Release.Stroke, h.Opening.MM())
	}
	print("as drawn", engine)
	print("worn    ", worn)
	set, err := worn.WithLead(units.MM(0.2), eccentric.BothEnds)
	if err != nil {
		fmt.Println(err)
		return
	}
	print("turned  ", set)
	fmt.Printf("by %.1f deg\n", (set.Advance - worn.Advance).Degrees())
	// Output:
	// as drawn: lead 0.20 mm, cut-off 87.0 %, release 96.4 %, opening 2.00 mm
	// worn    : lead 0.05 mm, cut-off 88.5 %, release 97.1 %, opening 1.85 mm
	// turned  : lead 0.20 mm, cut-off 87.0 %, release 96.3 %, opening 1.85 mm
	// by 3.0 deg
}

// An eccentric that a builder found 64 degrees behind the crank, with a rocker that
// reverses. Invented.
func ExampleGear_WithEccentricAt() {
	gear := engine
	gear.LeverRatio = -1
	gear, err := gear.WithEccentricAt(-64 * units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("advance %.0f deg\n", gear.Advance.Degrees())
	gear, err = gear.WithEccentricAt(26 * units.Degree) // the advance, taken for the place
	if err != nil {
		fmt.Println(err)
		return
	}
	first := gear.CheckPlaced()[0]
	fmt.Println(first.Code)
	fmt.Println(first.Remedies[0])
	// Output:
	// advance 26 deg
	// advance-for-place
	// If the eccentric is to stand 64.0 deg behind the crank in the direction of rotation, turn nothing and give its place as -64.0 deg.
}
