package thread_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// F. D. Jones, Turning and Boring, thread measurement by three wires: a US
// standard thread of 1 1/2 in and 6 to the inch over wires of 0.140 in measures
// 1.6674 in.
func ExampleThread_OverWires_jones() {
	t := thread.MustParse("1 1/2-6 UNC")
	over, err := t.OverWires(t.PitchDiameter(), units.Inch(0.140), thread.NoLeadCorrection)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(over.Text(units.Inches, 4))
	// Output: 1.6674 in
}

func ExampleThread_WireWindow() {
	t := thread.MustParse("9/16-18 UNF")
	limits, err := t.Limits("2A")
	if err != nil {
		fmt.Println(err)
		return
	}
	// The limits of the pitch diameter, not those of the major diameter.
	window, err := t.WireWindow(limits.PitchDiameter.Min, limits.PitchDiameter.Max, units.Inch(0.0395), thread.NoLeadCorrection)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(window.Min.Text(units.Inches, 4), "to", window.Max.Text(units.Inches, 4))
	fmt.Println(window.Holds(units.Inch(0.586)))
	// Output:
	// 0.5909 in to 0.5954 in
	// false
}
