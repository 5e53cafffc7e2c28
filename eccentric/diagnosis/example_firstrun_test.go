package diagnosis_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/units"
)

// What to see at both dead centres of a new engine, and which way the port goes on.
func ExampleFirstRun() {
	gear := eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
	trials, err := diagnosis.FirstRun(gear)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range trials[2:5] {
		fmt.Println(t.See)
	}
	// Output:
	// It is open by 0.27 mm (10.7 thou), and the valve stands 1.47 mm (57.9 thou) from the middle of the ports, towards the crank.
	// The port opens further, to 0.74 mm (29 thou).
	// It is open by 0.13 mm (5.3 thou), the valve stands 1.33 mm (52.5 thou) from the middle of the ports, away from the crank; and it goes on as the head end's did.
}

// The sheave of that engine has slipped: seven readings, and what puts it right.
func ExampleCase_Cures() {
	c := diagnosis.Case{Gear: eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}}
	for _, r := range []struct {
		kind  diagnosis.Kind
		end   eccentric.End
		value string
	}{
		{diagnosis.Lead, eccentric.HeadEnd, "-0.24 mm"}, {diagnosis.Lead, eccentric.CrankEnd, "-0.40 mm"},
		{diagnosis.Opening, eccentric.HeadEnd, "2 mm"}, {diagnosis.Opening, eccentric.CrankEnd, "2 mm"},
		{diagnosis.Travel, eccentric.BothEnds, "6.4 mm"},
		{diagnosis.CutOff, eccentric.HeadEnd, "143 deg"}, {diagnosis.Release, eccentric.CrankEnd, "163 deg"},
	} {
		reading, err := r.kind.Read(r.value, "")
		if err != nil {
			fmt.Println(err)
			return
		}
		reading.End = r.end
		c.Readings = append(c.Readings, reading)
	}
	d, err := c.Diagnose()
	if err != nil {
		fmt.Println(err)
		return
	}
	cures, err := c.Cures(d.Verdict(), eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Verdict().Fault, d.Verdict().Sure)
	fmt.Printf("%s by %.0f degrees\n", cures[0].Steps[0].Change, cures[0].Steps[0].Turn.Degrees())
	// Output:
	// advance true
	// turned on the shaft by 10 degrees
}
