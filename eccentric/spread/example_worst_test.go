package spread_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// An invented engine, whose sheave is set to a degree and whose valve is cut to
// 0.05 mm.
func invented() spread.Study {
	advance, _ := spread.Advance.PlusMinus("1 deg")
	valve, _ := spread.ValveLength.PlusMinus("0.05 mm")
	travel, _ := spread.Travel.PlusMinus("0.1 mm")
	return spread.Study{
		Gear: eccentric.Gear{
			Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
			Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
			Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
			Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
		},
		Tolerances: []spread.Tolerance{advance, valve, travel},
	}
}

func ExampleStudy_Worst() {
	worst, err := invented().Worst()
	if err != nil {
		fmt.Println(err)
		return
	}
	cutOff := worst.Head.CutOff
	fmt.Printf("cut-off at the head end %.2f to %.2f %% of the stroke\n", 100*cutOff.MinStroke.Stroke, 100*cutOff.MaxStroke.Stroke)
	fmt.Println("latest with", cutOff.MaxStroke.With)
	fmt.Printf("lead there %.3f to %.3f mm\n", worst.Head.Lead.Min.Length.MM(), worst.Head.Lead.Max.Length.MM())
	// Output:
	// cut-off at the head end 85.94 to 87.99 % of the stroke
	// latest with [valve.length -0.05 mm eccentric.travel 0.1 mm eccentric.advance -1 deg]
	// lead there 0.174 to 0.370 mm
}

// At 90 degrees the valve is least at 3.15*sin(117) + (3.15*cos(117))^2/120 = 2.824 mm, and
// most at 3.25*sin(115) + (3.25*cos(115))^2/120 = 2.961 mm; the laps are 1.175 to 1.225 mm.
func ExampleStudy_WorstAt() {
	places, err := invented().WorstAt(0, 90*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range places {
		fmt.Printf("valve %.2f to %.2f mm, head port open to steam %.2f to %.2f mm\n",
			p.Valve.Min.MM(), p.Valve.Max.MM(), p.Head.Steam.Min.MM(), p.Head.Steam.Max.MM())
	}
	// Output:
	// valve 1.40 to 1.55 mm, head port open to steam 0.17 to 0.37 mm
	// valve 2.82 to 2.96 mm, head port open to steam 1.60 to 1.79 mm
}

// One event of the worst case: the cut-off at the crank end.
func ExampleWorstEnd_At() {
	worst, err := invented().Worst()
	if err != nil {
		fmt.Println(err)
		return
	}
	cutOff := worst.Crank.At(spread.CutOff)
	fmt.Printf("%.1f to %.1f %% of the stroke\n", 100*cutOff.MinStroke.Stroke, 100*cutOff.MaxStroke.Stroke)
	// Output:
	// 78.3 to 81.0 % of the stroke
}
