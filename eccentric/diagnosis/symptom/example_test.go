package symptom_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis/symptom"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/units"
)

// The demonstration engine, which is invented, moves to and fro on air, does not go
// round, and did run before.
func ExampleCase_Explain() {
	engine := indicator.Running{
		Gear: eccentric.Gear{
			Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
			Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
			Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
			Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
		},
		Bore: units.MM(20), Medium: indicator.Air, Chest: 2 * units.Bar, Index: 1.2, Clearance: indicator.Both(0.08),
	}
	told := []symptom.Symptom{symptom.JerksOnly, symptom.RanWell}
	found, err := symptom.Case{Running: engine, Symptoms: told}.Explain()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range found.Causes[:2] {
		fmt.Printf("%.2f %s: %s\n", c.Fits, c.Fault, c.Text)
	}
	fmt.Println(found.Causes[0].Test.Effort)
	// Output:
	// 0.77 valve_not_driven: The valve does not follow its spindle: nut off, pin out, buckle broken.
	// 0.50 sheave_loose: The sheave is loose on the shaft and slips.
	// by hand
}

// Which of two symptoms the ear decides.
func ExampleSymptom_Heard() {
	for _, s := range []symptom.Symptom{symptom.JerksOnly, symptom.BeatsUneven} {
		fmt.Println(s, s.Heard())
	}
	// Output:
	// jerks without turning false
	// beats uneven true
}
