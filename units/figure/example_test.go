package figure_test

import (
	"fmt"

	"github.com/valvechest/valvechest/units/figure"
)

// What the writing of a figure tells.
func ExampleParse() {
	for _, text := range []string{"28.5 mm", "1.125 in", "1 1/8 in"} {
		f, err := figure.Parse(text)
		fmt.Println(f, "rounded by no more than", f.Rounding, err)
	}
	// Output:
	// 28.5 mm (1.1220 in) rounded by no more than 0.05 mm <nil>
	// 1.125 in (28.575 mm) rounded by no more than 0.0127 mm <nil>
	// 1 1/8 in (28.575 mm) rounded by no more than 0 mm <nil>
}

// A part as drawn in inches and as listed in millimetres.
func ExampleFigure_Agrees() {
	drawn, err := figure.Parse("1.125 in")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, text := range []string{"28.6 mm", "28.0 mm"} {
		listed, err := figure.Parse(text)
		fmt.Println(listed, drawn.Agrees(listed), err)
	}
	// Output:
	// 28.6 mm (1.1260 in) true <nil>
	// 28.0 mm (1.1024 in) false <nil>
}

func ExampleDifferences() {
	a, err := figure.Parse("60 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := figure.Parse("2 3/8 in")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range figure.Differences(a, b) {
		fmt.Println(d)
	}
	// Output: 60 mm (2.3622 in) and 2 3/8 in (60.325 mm): 0.325 mm, 12.8 thou
}
