package template_test

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/units"
)

// coverSheet is the sheet of a made-up cylinder cover: 36 mm across, open to 20.5 mm, on
// six studs.
func coverSheet(o template.Options) *template.Template {
	studs, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	outline, err := gasket.Round("Cylinder cover", units.MM(36), units.MM(20.5), studs.Drilled(units.MM(3.4)))
	if err != nil {
		panic(err)
	}
	t, err := template.New(template.Part{Outline: outline, Thickness: units.MM(0.25)}, o)
	if err != nil {
		panic(err)
	}
	return t
}

// The size of that sheet in millimetres, whatever the screen thinks of its pixels.
func ExampleTemplate_WriteSVG() {
	var sheet bytes.Buffer
	if err := coverSheet(template.Options{}).WriteSVG(&sheet, 1); err != nil {
		panic(err)
	}
	_, root, _ := strings.Cut(sheet.String(), "<svg ")
	root, _, _ = strings.Cut(root, ">")
	for _, part := range strings.Fields(root) {
		if strings.HasPrefix(part, "width") || strings.HasPrefix(part, "height") {
			fmt.Println(part)
		}
	}
	// Output:
	// width="210mm"
	// height="297mm"
}

// The same for a printer; the dialog is asked not to scale it.
func ExampleTemplate_WritePDF() {
	var file bytes.Buffer
	if err := coverSheet(template.Options{}).WritePDF(&file); err != nil {
		panic(err)
	}
	fmt.Println(strings.HasPrefix(file.String(), "%PDF-"), strings.Contains(file.String(), "/PrintScaling /None"))
	// Output: true true
}

// The same for a drawing program: release 12 has no field for the unit, so that it is said
// in the first lines.
func ExampleTemplate_WriteDXF() {
	var file bytes.Buffer
	if err := coverSheet(template.Options{}).WriteDXF(&file); err != nil {
		panic(err)
	}
	lines := strings.Split(file.String(), "\r\n")
	fmt.Println(lines[1])
	fmt.Println(strings.Count(file.String(), "\r\nCIRCLE\r\n"), "circles")
	// Output:
	// One drawing unit is one millimetre.
	// 9 circles
}

// The edges alone, for a machine that cuts: an outside, an opening and six holes.
func ExampleTemplate_WriteCutDXF() {
	var file bytes.Buffer
	if err := coverSheet(template.Options{}).WriteCutDXF(&file); err != nil {
		panic(err)
	}
	for _, layer := range []string{"HOLES", "OPENINGS", "OUTSIDE"} {
		fmt.Println(layer, strings.Count(file.String(), "\r\nCIRCLE\r\n8\r\n"+layer+"\r\n"))
	}
	// Output:
	// HOLES 6
	// OPENINGS 1
	// OUTSIDE 1
}

// A picture of the part for a page, without the margins of a sheet.
func ExampleTemplate_WritePicture() {
	var file bytes.Buffer
	if err := coverSheet(template.Options{}).WritePicture(&file); err != nil {
		panic(err)
	}
	fmt.Println(strings.Contains(file.String(), "<svg "), strings.Contains(file.String(), "Cylinder cover"))
	// Output: true true
}

// A gasket of 250 mm goes on more than one sheet of A4.
func ExampleTemplate_Pages() {
	outline, err := gasket.Round("Large cover", units.MM(250), units.MM(200), nil)
	if err != nil {
		panic(err)
	}
	t, err := template.New(template.Part{Outline: outline, Thickness: units.MM(0.5)}, template.Options{})
	if err != nil {
		panic(err)
	}
	fmt.Println(t.Pages(), "sheets, and", coverSheet(template.Options{}).Pages(), "for the small cover")
	// Output: 4 sheets, and 1 for the small cover
}

// Which punch for its holes?
func ExampleTemplate_Holes() {
	for _, h := range coverSheet(template.Options{}).Holes() {
		fmt.Println(h)
	}
	// Output: diameter 3.4 mm, count 6, punch 3.5 mm
}

// The sheets that can be printed on.
func ExamplePapers() {
	for _, p := range template.Papers() {
		width, height := p.Size()
		fmt.Println(p, width, "by", height)
	}
	// Output:
	// A4 210 mm by 297 mm
	// A3 297 mm by 420 mm
	// A2 420 mm by 594 mm
	// A1 594 mm by 841 mm
	// A0 841 mm by 1189 mm
	// Letter 215.9 mm by 279.4 mm
	// Legal 215.9 mm by 355.6 mm
	// Tabloid 279.4 mm by 431.8 mm
}

func ExamplePaper_Size() {
	width, height := template.Letter.Size()
	fmt.Println(width.Inch(), "by", height.Inch(), "in")
	// Output: 8.5 by 11 in
}

func ExampleParsePaper() {
	p, err := template.ParsePaper("letter")
	fmt.Println(p == template.Letter, err)
	_, err = template.ParsePaper("foolscap")
	fmt.Println(err)
	// Output:
	// true <nil>
	// template: paper "foolscap": unknown; accepted: A4, A3, A2, A1, A0, Letter, Legal, Tabloid
}
