package spread_test

import (
	"context"
	"fmt"

	"github.com/valvechest/valvechest/eccentric/spread"
)

func ExampleStudy_Random() {
	study := invented()
	offset, _ := spread.ValveOffset.PlusMinus("0.3 mm") // the valve is set by eye
	study.Tolerances = append(study.Tolerances, offset)
	study.Runs, study.Seed = 20_000, 1
	run, err := study.Random(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	cutOff := run.Head.CutOff.Stroke
	fmt.Printf("nine engines of ten cut off between %.1f and %.1f %% of the stroke\n", 100*cutOff.P05, 100*cutOff.P95)
	for _, c := range run.Chances {
		fmt.Printf("%s: %.0f %% of the engines, costs power in %.0f %%\n", c.Code, 100*c.Chance, 100*c.Caution)
	}
	fmt.Printf("%.0f %% of the engines do not run\n", 100*run.Fails)
	// Output:
	// nine engines of ten cut off between 85.2 and 88.7 % of the stroke
	// large-lead: 1 % of the engines, costs power in 1 %
	// off-centre: 100 % of the engines, costs power in 0 %
	// blind-arc: 100 % of the engines, costs power in 0 %
	// unequal-cut-off: 100 % of the engines, costs power in 0 %
	// steam-part-open: 94 % of the engines, costs power in 0 %
	// late-steam: 10 % of the engines, costs power in 0 %
	// 0 % of the engines do not run
}

// One event of twenty thousand engines.
func ExampleEndSpread_At() {
	study := invented()
	study.Runs, study.Seed = 20_000, 1
	run, err := study.Random(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	release := run.Crank.At(spread.Release).Crank
	fmt.Printf("release at the crank end, nine engines of ten: %.1f to %.1f deg\n", release.P05.Degrees(), release.P95.Degrees())
	// Output:
	// release at the crank end, nine engines of ten: 151.9 to 153.0 deg
}
