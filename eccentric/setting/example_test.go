package setting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/units"
)

// leading is a locomotive's gear without slant that is to have the mean of two leads at
// both ends.
func leading(first, second units.Length) eccentric.Gear {
	g := eccentric.Gear{
		Stroke: units.Inch(24), ConnectingRod: eccentric.InfiniteRod(),
		Travel: units.Inch(5), EccentricRod: eccentric.InfiniteRod(),
		Ports: eccentric.Ports{Steam: units.Inch(1.25), Bar: units.Inch(1), Exhaust: units.Inch(2.5), Length: units.Inch(16)},
	}
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.Inch(0.875)})
	g, err := g.WithLead(first.Add(second).Scale(0.5), eccentric.BothEnds)
	if err != nil {
		panic(err)
	}
	return g
}

// E. L. Ahrons reads 1/16 in of lead in front and 3/16 behind: half their difference,
// 1/16 in, is what the rod is altered by, and both ends lead by 1/8 (scan page 118). A.
// Sinclair reads 1/16 in, and the other end as much blind: by 1/16 again, and both are
// line and line (chapter XIX).
func ExampleSetting_Correct_ahronsSinclair() {
	for _, read := range []setting.Leads{
		{Head: units.InchFraction(1, 16), Crank: units.InchFraction(3, 16)},
		{Head: units.InchFraction(1, 16), Crank: units.InchFraction(-1, 16)},
	} {
		c, err := setting.Setting{Gear: leading(read.Head, read.Crank)}.Correct(read)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s of the rod, then %s and %s; the sheave by %v\n", c.Rod.Text(units.Inches, 4),
			c.After.Head.Text(units.Inches, 4), c.After.Crank.Text(units.Inches, 4), c.Turn)
	}
	// Output:
	// -0.0625 in of the rod, then 0.1250 in and 0.1250 in; the sheave by 0 deg
	// 0.0625 in of the rod, then 0.0000 in and 0.0000 in; the sheave by 0 deg
}

// drawn is the gear of the demonstration engine.
func drawn() eccentric.Gear {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)}
	return eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: ports, Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
}

// The sheave of the demonstration engine has slipped back, and its valve stands off.
func ExampleSetting_Correct() {
	s := setting.Setting{
		Gear: drawn(), Nut: setting.Nut{Pitch: units.MM(0.59), Places: 2}, Shaft: units.MM(6),
		Rotation: setting.Clockwise, SeenFrom: "the flywheel",
	}
	c, err := s.Correct(setting.Leads{Head: units.MM(0.42), Crank: units.MM(-0.3)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("sheave %.1f deg forwards, %s round the shaft\n", c.Turn.Degrees(), c.Arc.Text(units.Millimetres, 2))
	fmt.Printf("valve %s towards the crank\n%v\n", c.Move.Text(units.Millimetres, 2), c.Nut)
	fmt.Printf("leads %s and %s\n", c.After.Head.Text(units.Millimetres, 2), c.After.Crank.Text(units.Millimetres, 2))
	// Output:
	// sheave 2.8 deg forwards, 0.15 mm round the shaft
	// valve -0.29 mm towards the crank
	// 0.488 turns of the nut; the nearest that it can be set is 1/2 turn, which leaves it 0.007 mm (0.3 thou) too far
	// leads 0.26 mm and 0.14 mm
}

func ExampleSetting_Sheet() {
	sheet, err := setting.Setting{Gear: drawn(), Wheel: units.MM(100)}.Sheet()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, stage := range sheet.Stages {
		fmt.Println(stage.Title)
	}
	fmt.Println("A degree is", sheet.PerDegree.Text(units.Millimetres, 3), "of lead.")
	fmt.Println("The sheave stands", sheet.Stands, "ahead of the crank; for the other way it is turned by", sheet.Reverse)
	// Output:
	// Both dead centres
	// The sheave about in its place
	// The valve in the middle
	// The lead at the head end
	// The other end
	// Split what is left
	// Prove it
	// Fasten it
	// A degree is 0.050 mm of lead.
	// The sheave stands 116 deg ahead of the crank; for the other way it is turned by 128 deg
}

// A shift of 1/64 in by a flat nut on 40 threads to the inch.
func ExampleNut_Set() {
	turn, err := setting.Nut{Pitch: units.Inch(1.0 / 40), Places: 2}.Set(units.InchFraction(1, 64))
	fmt.Println(turn, err)
	// Output:
	// 0.625 turns of the nut; the nearest that it can be set is 1/2 turn, which leaves it 0.079 mm (3.1 thou) short <nil>
}

// The least that a square nut on 40 threads to the inch moves the valve, and a rotation
// seen from the other side.
func ExampleNut_Step() {
	nut := setting.Nut{Pitch: units.Inch(0.025), Places: 4}
	fmt.Println(nut.Step().Text(units.Inches, 5))
	fmt.Println(setting.Clockwise.Opposite())
	// Output:
	// 0.00625 in
	// anticlockwise
}
