package template_test

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/units"
)

// A line of 120 mm on the sheet measured 111 mm on the print: invented figures of a
// page that was fitted to the paper.
func ExampleFactor() {
	factor, err := template.Factor(units.MM(120), units.MM(111))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("correct by %.1f %%\n", 100*factor)
	fmt.Printf("not noticed, a bolt circle of 40 mm comes out at %.1f mm\n", 40/factor)
	// Output:
	// correct by 108.1 %
	// not noticed, a bolt circle of 40 mm comes out at 37.0 mm
}

// A part drawn 300 mm long came in at 79.375 mm: invented figures.
func ExampleCheckScale() {
	findings, err := template.CheckScale(units.MM(300), units.MM(79.375))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range findings {
		fmt.Println(f)
	}
	// Output: caution: Millimetres were read as pixels of 1/96 in. Choose the unit of the drawing when it is read in, and measure the bars.
}

// The gasket of a made-up cylinder cover, in every form.
func ExampleNew() {
	studs, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	o, err := gasket.Round("Cylinder cover", units.MM(36), units.MM(20.5), studs.Drilled(units.MM(3.4)))
	if err != nil {
		fmt.Println(err)
		return
	}
	part := template.Part{Outline: o, Thickness: units.MM(0.25)}
	t, err := template.New(part, template.Options{Paper: template.Letter})
	if err != nil {
		fmt.Println(err)
		return
	}
	h := t.Holes()[0]
	fmt.Printf("%d sheet, %d holes of %v, punch %v\n", t.Pages(), h.Count, h.Diameter, h.Punch)
	firstSheet := func(w io.Writer) error { return t.WriteSVG(w, 1) }
	for _, write := range []func(io.Writer) error{t.WritePDF, firstSheet, t.WriteDXF, t.WritePicture} {
		var file bytes.Buffer
		if err := write(&file); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.5q\n", file.String())
	}
	// Output:
	// 1 sheet, 6 holes of 3.4 mm, punch 3.5 mm
	// "%PDF-"
	// "<?xml"
	// "999\r\n"
	// "<?xml"
}

// The same for a machine that cuts.
func ExampleTemplate_WriteCutSVG() {
	o, err := gasket.Round("Washer", units.MM(10), units.MM(4), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := template.New(template.Part{Outline: o, Thickness: units.MM(0.25)}, template.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := t.WriteCutSVG(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// <?xml version="1.0" encoding="UTF-8"?>
	// <svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="12mm" height="12mm" viewBox="0 0 12 12">
	// <title>Washer</title>
	// <g class="OPENINGS" fill="none" stroke="#000" stroke-linejoin="round" stroke-width="0.1">
	// <circle cx="6" cy="6" r="2"/>
	// </g>
	// <g class="OUTSIDE" fill="none" stroke="#000" stroke-linejoin="round" stroke-width="0.1">
	// <circle cx="6" cy="6" r="5"/>
	// </g>
	// </svg>
}

func ExampleInchPunches() {
	set := template.InchPunches()
	fmt.Println(len(set), "from", set[0].Inch(), "to", set[len(set)-1].Inch(), "in")
	// Output: 21 from 0.125 to 1 in
}

func ExampleCommonPunches() {
	set := template.CommonPunches()
	fmt.Println(len(set), "from", set[0], "to", set[len(set)-1])
	// Output: 34 from 2 mm to 25 mm
}

// What every sheet says to whoever cuts it.
func ExamplePrecautions() {
	for _, p := range template.Precautions() {
		fmt.Println(p)
	}
	// Output: Jointing of unknown age may hold asbestos: do not scrape, cut or sand it dry.
}

// The marking out of a port face: three ports and the lines to scribe, one of which is
// not to be scribed but tells how far the valve comes.
func ExampleNewMarking() {
	var m template.Marking
	m.Face.Name, m.Engine = "Port face", "Invented engine"
	for _, port := range []struct{ middle, width float64 }{{-5.5, 2}, {0, 4}, {5.5, 2}} {
		loop, err := gasket.Rect{
			Centre: gasket.Point{X: units.MM(port.middle)}, Width: units.MM(port.width), Height: units.MM(10),
		}.Loop()
		if err != nil {
			fmt.Println(err)
			return
		}
		m.Face.Cutouts = append(m.Face.Cutouts, loop)
	}
	m.Lines = []template.Line{
		{Name: "middle of the exhaust port"},
		{Name: "outer edge", At: units.MM(-6.5)}, {Name: "outer edge", At: units.MM(6.5)},
		{Name: "end of the ports", Level: true, At: units.MM(-5)},
		{Name: "valve, furthest out", At: units.MM(10.9), Unseen: true},
	}
	t, err := template.NewMarking(m, template.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	var sheet bytes.Buffer
	if err := t.WriteSVG(&sheet, 1); err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range []string{">X FROM A<", ">-6.50<", ">0.00<", ">10.90<", ">17.40<"} {
		fmt.Println(row, strings.Contains(sheet.String(), row))
	}
	// Output:
	// >X FROM A< true
	// >-6.50< true
	// >0.00< true
	// >10.90< true
	// >17.40< true
}
