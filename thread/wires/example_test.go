package wires_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/wires"
	"github.com/valvechest/valvechest/units"
)

func ExampleRangeOf() {
	r, err := wires.RangeOf(thread.MustParse("M6"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("best", r.Best.Text(units.Millimetres, 3), "from", r.Min.Text(units.Millimetres, 3), "to",
		r.Max.Text(units.Millimetres, 3))
	// Output: best 0.577 mm from 0.505 mm to 1.011 mm
}

// F. D. Jones, Turning and Boring, thread measurement by three wires: a US
// standard thread of 1 1/2 in and 6 to the inch over wires of 0.140 in measures
// 1.6674 in.
func ExampleSet_Over_jones() {
	t := thread.MustParse("1 1/2-6 UNC")
	over, err := wires.Set{Thread: t, Wire: units.Inch(0.140)}.Over(t.PitchDiameter())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(over.Text(units.Inches, 4))
	// Output: 1.6674 in
}

func ExampleSet_Measure() {
	t := thread.MustParse("M8")
	m, err := wires.Set{Thread: t, Wire: units.MM(0.75)}.Measure(t.PitchDiameter())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("M = E + %.4f W - %.4f P = %s\n", m.PerWire, m.PerPitch, m.Over.Text(units.Millimetres, 4))
	// Output: M = E + 3.0000 W - 0.8660 P = 8.3555 mm
}

func ExampleSet_PitchDiameter() {
	set := wires.Set{Thread: thread.MustParse("1 1/2-6 UNC"), Wire: units.Inch(0.140)}
	e, err := set.PitchDiameter(units.Inch(1.6674))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(e.Text(units.Inches, 4))
	// Output: 1.3917 in
}

func ExampleSet_Window() {
	t := thread.MustParse("9/16-18 UNF")
	limits, err := t.Limits("2A")
	if err != nil {
		fmt.Println(err)
		return
	}
	// The limits of the pitch diameter, not those of the major diameter.
	window, err := wires.Set{Thread: t, Wire: units.Inch(0.0395)}.Window(limits.PitchDiameter)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(window.Min.Text(units.Inches, 4), "to", window.Max.Text(units.Inches, 4))
	fmt.Println(window.Contains(units.Inch(0.586)))
	// Output:
	// 0.5909 in to 0.5954 in
	// false
}

func ExampleWindow_Check() {
	window := wires.Window{Min: units.MM(15.0085), Max: units.MM(15.1228)}
	for _, f := range window.Check(units.MM(15.15)) {
		fmt.Println(f.Text, f.Remedies[0])
	}
	// Output: The screw is still too large by 0.0272 mm (1.07 thou) on the diameter. Take off no more than 0.1415 mm (5.57 thou), and measure again.
}
