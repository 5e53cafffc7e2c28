package spread_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// EC-10: what a thou on the exhaust lap is in degrees.
func ExampleStudy_Sensitivities() {
	all, err := invented().Sensitivities(units.Thou(1))
	if err != nil {
		fmt.Println(err)
		return
	}
	lap := all.ExhaustLap.Head
	fmt.Printf("release %.2f deg later, compression %.2f deg earlier\n", lap.Release.Crank.Degrees(), -lap.Compression.Crank.Degrees())
	// Output:
	// release 0.45 deg later, compression 0.45 deg earlier
}

func ExampleStudy_Hold() {
	all, err := invented().Hold()
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, h := range all {
		fmt.Printf("%d. %v: %s\n", i+1, h.Tolerance.Dimension, h.Text)
	}
	shares, err := invented().Shares()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the advance has %.0f %% of the variance of the cut-off\n", 100*shares[2].Head.CutOff.Crank)
	// Output:
	// 1. eccentric.advance: cut-off at the crank end by 0.8 % of the stroke, the lead by 0.052 mm (2.0 thou)
	// 2. valve.length: cut-off at the crank end by 0.4 % of the stroke, the lead by 0.025 mm (1.0 thou)
	// 3. eccentric.travel: cut-off at the crank end by 0.3 % of the stroke, the lead by 0.024 mm (0.9 thou)
	// the advance has 72 % of the variance of the cut-off
}

func ExampleStudy_Widest() {
	all, err := invented().Widest(spread.Keep{CutOff: 0.01, Lead: units.MM(0.1)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range all {
		fmt.Printf("%v: %.2f times\n", w.Tolerance.Dimension, w.Factor)
	}
	// Output:
	// valve.length: 0.83 times
	// eccentric.travel: 0.99 times
	// eccentric.advance: 0.58 times
}

// What a degree of the sheave does to the cut-off of the head end, and the share of its spread that
// each dimension has of it.
func ExampleChanges_At() {
	all, err := invented().Sensitivities(units.Thou(1))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range all.Sizes {
		if s.Dimension == spread.Advance {
			fmt.Printf("%.2f deg of crank a degree\n", s.Head.At(spread.CutOff).Crank.Degrees())
		}
	}
	shares, err := invented().Shares()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range shares {
		fmt.Printf("%v: %.0f %%\n", s.Dimension, 100*s.Head.At(spread.CutOff).Crank)
	}
	// Output:
	// -1.00 deg of crank a degree
	// valve.length: 17 %
	// eccentric.travel: 11 %
	// eccentric.advance: 72 %
}

// The tolerance of the valve that keeps the cut-off within a hundredth of the stroke, as
// it is held on a micrometer: rounded inwards to whole hundredths.
func ExampleWidened_Held() {
	all, err := invented().Widest(spread.Keep{CutOff: 0.01})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(all[0].Held(units.MM(0.01)))
	// Output:
	// dimension valve.length, lower -0.04 mm, upper 0.04 mm
}
