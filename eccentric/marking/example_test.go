package marking_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/units"
)

// An offset of 3.5 mm on a blank of 20 mm, EC-07: jaws that touch along one line, jaws of
// 3 mm, and wide ones.
func ExampleThreeJaw_Packing() {
	for _, jaw := range []units.Length{{}, units.MM(3), units.MM(8)} {
		c := marking.ThreeJaw{Blank: units.MM(20), Offset: units.MM(3.5), Jaw: jaw}
		p, err := c.Packing()
		fmt.Printf("%s, and %.2f mm for each mm of offset (%v)\n", p.Thickness.Text(units.Millimetres, 2), p.PerOffset, err)
	}
	found, err := marking.ThreeJaw{Blank: units.MM(20), Offset: units.MM(4.5), Jaw: units.MM(1)}.Check()
	for _, f := range found {
		fmt.Println(f.Severity, f.Text, err)
	}
	// Output:
	// 4.78 mm, and 1.22 mm for each mm of offset (<nil>)
	// 5.13 mm, and 1.37 mm for each mm of offset (<nil>)
	// 5.25 mm, and 1.50 mm for each mm of offset (<nil>)
	// caution Jaws 1 mm wide touch the blank with their edges and press it on the packing with only 35 % of what flat faces would. <nil>
}

// The packing of narrow jaws under wide ones, EC-07: the dial says so, and by how much to
// change it.
func ExampleThreeJaw_Correct() {
	c := marking.ThreeJaw{Blank: units.MM(20), Offset: units.MM(3.5), Jaw: units.MM(8)}
	short, _ := c.OffsetFor(units.MM(4.78))
	fmt.Println("it is", short.Text(units.Millimetres, 2))
	k, err := c.Correct(units.MM(4.78), units.MM(6.37))
	fmt.Println("thicker by", k.Change.Text(units.Millimetres, 2), "to", k.Packing.Text(units.Millimetres, 2), err)
	// Output:
	// it is 3.19 mm
	// thicker by 0.47 mm to 5.25 mm <nil>
}

// Readings at the four jaws, EC-08.
func ExampleFourJaw_Solve() {
	t, err := marking.FourJaw{
		Readings: []units.Length{{}, units.Thou(12), units.Thou(30), units.Thou(20)}, Pitch: units.InchFraction(1, 20),
	}.Solve()
	for _, m := range t.Moves {
		fmt.Printf("let jaw %d back, jaw %d in by %s, %.2f turns: it reads %s\n", m.Loosen, m.Jaw,
			m.By.Text(units.Thousandths, 1), m.Turns, m.Reads.Text(units.Thousandths, 1))
	}
	fmt.Printf("the dial goes over %s, and over %s in the end (%v)\n", t.Reading.Text(units.Thousandths, 1), t.OutOfRound.Text(units.Thousandths, 1), err)
	// Output:
	// let jaw 1 back, jaw 3 in by 15.0 thou, 0.30 turns: it reads 15.0 thou
	// let jaw 2 back, jaw 4 in by 4.0 thou, 0.08 turns: it reads 16.0 thou
	// the dial goes over 31.0 thou, and over 1.0 thou in the end (<nil>)
}

// An inch bar in a right-angled vee, and one that is 2 thou smaller than was thought.
func ExampleVee_Heights() {
	v := marking.Vee{Bar: units.Inch(0.75), Included: 90 * units.Degree, Offset: units.InchFraction(3, 32)}
	h, err := v.Heights()
	fmt.Println(h.Centre.Text(units.Inches, 4), h.Offset.Text(units.Inches, 4), "above the root", err)
	h, err = h.Over(units.Inch(2))
	fmt.Println(h.Centre.Text(units.Inches, 4), h.Offset.Text(units.Inches, 4), "on the gauge", err)
	top, root, err := v.Misses(units.Inch(0.748))
	fmt.Println(top.Text(units.Thousandths, 2), root.Text(units.Thousandths, 2), err)
	// Output:
	// 0.5303 in 0.6241 in above the root <nil>
	// 1.6250 in 1.7188 in on the gauge <nil>
	// -1.00 thou 1.41 thou <nil>
}

func ExampleDial_Sweep() {
	s, err := marking.Dial{Range: units.MM(5), Offset: units.MM(3.5), Diameter: units.MM(20)}.Sweep()
	fmt.Printf("%s; a block from %v to %v, or %.0f degrees either way (%v)\n",
		s.Reading.Text(units.Millimetres, 2), s.Min, s.Max, s.Turn.Degrees(), err)
	// Output:
	// 7.00 mm; a block from 2 mm to 7 mm, or 105 degrees either way (<nil>)
}

func ExampleSpeedLimit() {
	limit, err := marking.SpeedLimit(units.MM(3.5))
	fmt.Printf("%.0f rev/min (%v)\n", limit.Speed.In(units.RevPerMinute), err)
	steady, err := marking.SteadySpeed(units.MM(3.5))
	fmt.Printf("unbalanced %.0f rev/min (%v)\n", steady.Speed.In(units.RevPerMinute), err)
	for _, n := range []units.RotationalSpeed{200, 700, 2000} {
		found, _ := marking.TooFast(units.MM(3.5), n*units.RevPerMinute)
		for _, f := range found {
			fmt.Println(f.Severity, f.Code)
		}
	}
	// Output:
	// 1598 rev/min (<nil>)
	// unbalanced 505 rev/min (<nil>)
	// caution swings-heavily
	// danger set-over-too-fast
}

// A sheave of 14 mm on a shaft of 6 mm with an offset of 3.2 mm, a boss of 11 mm and a
// grub screw of 3 mm.
func ExampleSheave_Walls() {
	s := marking.Sheave{Bore: units.MM(6), Offset: units.MM(3.2), Diameter: units.MM(14), Boss: units.MM(11), Screw: units.MM(3)}
	w, err := s.Walls()
	fmt.Println("thin", w.Thin, "boss", w.Boss, "out of", w.Blank, err)
	g, err := marking.GrooveFor(units.MM(5))
	fmt.Println("a groove of", g.Min, "to", g.Max, "with lips of", g.Lip, err)
	found, _ := s.Check()
	for _, f := range found {
		fmt.Println(f.Severity, f.Code)
	}
	// Output:
	// thin 0.8 mm boss 2.5 mm out of 17.4 mm <nil>
	// a groove of 5.05 mm to 5.1 mm with lips of 0.8 mm <nil>
	// caution short-grub
	// note boss-in-strap
}

// One thou more than was drawn.
func ExampleAsTurned() {
	g := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
	t, err := marking.AsTurned(g, g.EccentricOffset().Add(units.Thou(1)))
	fmt.Println(t.Kept.Travel, t.Reached, err)
	for _, gear := range []eccentric.Gear{g, t.Kept, t.Relaid} {
		e, _ := gear.Events()
		fmt.Printf("lead %s, cut-off %.2f %%\n", e.Head.Lead.Text(units.Millimetres, 3), 100*e.Head.CutOff.Stroke)
	}
	// Output:
	// 6.4508 mm true <nil>
	// lead 0.272 mm, cut-off 86.99 %
	// lead 0.284 mm, cut-off 87.10 %
	// lead 0.273 mm, cut-off 87.22 %
}

// The line of an advance of 26 degrees on a shaft of 6 mm.
func ExampleLineHeight() {
	h, err := marking.LineHeight(units.MM(6), 26*units.Degree)
	fmt.Println(h.Text(units.Millimetres, 3), err)
	// Output: 1.315 mm <nil>
}

// The rod of an eccentric of 3.2 mm on 60 mm between centres swings by asin(3.2/60), and
// the eye at its end, 6 mm wide and square, comes that much nearer to the bottom of a fork.
func ExampleRodSwing() {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	swing, err := marking.RodSwing(eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: ports, Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	reach, err := marking.EyeEnd{Width: units.MM(6), Beyond: units.MM(3)}.Reach(swing)
	fmt.Printf("%.2f deg, %s from the pin, %v\n", swing.Degrees(), reach.Text(units.Millimetres, 3), err)
	// Output:
	// 3.06 deg, 3.156 mm from the pin, <nil>
}

// A slot of 3 mm by passes of at most 0.8 mm: four of 0.75 mm.
func ExampleDepths() {
	depths, err := marking.Depths(units.MM(3), units.MM(0.8))
	fmt.Println(depths, err)
	// Output:
	// [0.75 mm 1.5 mm 2.25 mm 3 mm] <nil>
}
