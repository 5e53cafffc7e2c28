package cutting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A 200 W motor and cuts of 0.5 to 2 mm on 40 mm mild steel.
func ExampleCheckMotor() {
	steel, _ := material.Lookup("mild steel")
	k, err := cutting.KienzleFor(steel)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, depth := range []float64{0.5, 1, 2} {
		load, err := cutting.TurningLoad(k, units.MM(40), units.MM(depth), units.MM(0.1), 90*units.Degree,
			200*units.RevPerMinute)
		if err != nil {
			fmt.Println(err)
			return
		}
		c, _ := cutting.CheckMotor(load, 200, 0.75)
		fmt.Println(c.Findings[0].Severity, c.Findings[0].Text)
	}
	// Output:
	// note The cut takes 61 W at the motor of 200 W, 31 %: the motor carries it.
	// note The cut takes 122 W at the motor of 200 W, 61 %: the motor carries it.
	// fails The cut takes 245 W at the motor of 200 W, 122 %: the motor stalls or the belt slips.
}
