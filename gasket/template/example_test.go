package template_test

import (
	"bytes"
	"fmt"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/units"
)

// A line of 132 mm on the sheet measured 114 mm on the print, as a builder found
// after fitting the page to the paper.
func ExampleFactor() {
	factor, err := template.Factor(units.MM(132), units.MM(114))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("correct by %.1f %%\n", 100*factor)
	fmt.Printf("not noticed, a bolt circle of 40 mm comes out at %.1f mm\n", 40/factor)
	// Output:
	// correct by 115.8 %
	// not noticed, a bolt circle of 40 mm comes out at 34.5 mm
}

// A part drawn 500 mm long came in at 132.3 mm.
func ExampleCheckScale() {
	findings, err := template.CheckScale(units.MM(500), units.MM(132.292))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range findings {
		fmt.Println(f)
	}
	// Output: caution: Millimetres were read as pixels of 1/96 in. Choose the unit of the drawing when it is read in, and measure the bars.
}

func ExampleNew() {
	studs, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	outline, err := gasket.Round("Cylinder cover", units.MM(36), units.MM(20.5), studs.Drilled(units.MM(3.4)))
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := template.New(template.Part{Outline: outline, Thickness: units.MM(0.25)}, template.Options{Paper: template.Letter})
	if err != nil {
		fmt.Println(err)
		return
	}
	var pdf bytes.Buffer
	if err := t.WritePDF(&pdf); err != nil {
		fmt.Println(err)
		return
	}
	h := t.Holes()[0]
	fmt.Printf("%d sheet, %d holes of %v, punch %v\n", t.Pages(), h.Count, h.Diameter, h.Punch)
	// Output: 1 sheet, 6 holes of 3.4 mm, punch 3.5 mm
}
