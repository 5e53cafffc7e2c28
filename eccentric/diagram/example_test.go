package diagram_test

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagram"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// invented is the gear of an invented engine.
func invented() eccentric.Gear {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	return eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: ports, Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(1.2)}),
	}
}

// sentence prints what there is to see on a picture, from a word on to the end of the sentence.
func sentence(p diagram.Picture, err error, from string) {
	if err != nil {
		fmt.Println(err)
		return
	}
	text := p.Alt[strings.Index(p.Alt, from):]
	text, _, _ = strings.Cut(text+" ", ". ")
	fmt.Println(text)
}

// The valve over its ports, and the file of its picture.
func ExampleValve() {
	valve, err := diagram.Valve(invented(), diagram.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(valve)
	fmt.Println(valve.Alt)
	var svg bytes.Buffer
	if err := valve.WriteSVG(&svg); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.HasSuffix(svg.Bytes(), []byte("</svg>\n")))
	// Output:
	// The valve over the middle of its ports, in section along its travel
	// Section of the valve, 15.4 mm long with a cavity of 9 mm, over the port face. From the head end: port 2 mm, bar 2.5 mm, middle port 4 mm, bar 2.5 mm, port 2 mm. At the head end the steam lap is 1.2 mm and the exhaust lap 0 mm. At the crank end the steam lap is 1.2 mm and the exhaust lap 0 mm. The travel is 6.4 mm.
	// true
}

// Where the valve stands as the steam is cut off at the head end.
func ExamplePositions() {
	pictures, err := diagram.Positions(invented(), diagram.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	sentence(pictures[1], err, "Cut-off, head end: port")
	// Output: Cut-off, head end: port closes to steam, crank 133.4°, piston 87.0 %
}

// Crank and sheave at the dead centres, told in inches.
func ExampleDrive() {
	pictures, err := diagram.Drive(invented(), diagram.Options{Inch: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	sentence(pictures[0], err, "Head-end dead centre")
	sentence(pictures[0], err, "The sheave leads")
	// Output:
	// Head-end dead centre: the piston is 0 in from the head end, the valve 0.0579 in towards the crank
	// The sheave leads crank by 116.0°, angle of advance 26.0°, offset of the sheave 0.126 in; drawn turning clockwise: no rotation is given
}

func ExampleDisplacement() {
	p, err := diagram.Displacement(invented(), diagram.Options{})
	sentence(p, err, "Head end")
	// Output: Head end: admission -5.41°, cut-off 133.41°, release 155.53°, compression 332.47°; crank end: admission -2.58°, cut-off 130.58°, release 152.47°, compression 335.53°
}

func ExampleOval() {
	p, err := diagram.Oval(invented(), diagram.Options{})
	sentence(p, err, "Head end")
	// Output: Head end: admission 0.3 %, cut-off 87.0 %, release 96.4 %, compression 6.7 %; crank end: admission 0.0 %, cut-off 79.6 %, release 93.3 %, compression 3.6 %
}

// The valve circles are drawn the way the engine turns.
func ExamplePolar() {
	p, err := diagram.Polar(invented(), diagram.Options{Rotation: setting.Anticlockwise, SeenFrom: "the flywheel side"})
	sentence(p, err, "Angle of advance")
	fmt.Println(p.Caption[strings.Index(p.Caption, "It is drawn"):])
	// Output:
	// Angle of advance 26.00°
	// It is drawn turning anticlockwise, as the engine does seen from the flywheel side.
}

func ExamplePortOpenings() {
	p, err := diagram.PortOpenings(invented(), diagram.Options{})
	sentence(p, err, "Crank end")
	// Output: Crank end: lead 0.13 mm, greatest opening to steam 2.00 mm, to exhaust 2.00 mm
}

// A bore of 22 mm on air at 1.5 bar. A turn of 2*pi at the mean moment does the work of
// both ends, and 1.40 bar on the piston over 25 mm is 1.33 J.
func ExampleAtWork() {
	pictures, err := diagram.AtWork(indicator.Running{
		Gear: invented(), Bore: units.MM(22), Medium: indicator.Air, Index: 1.3,
		Chest: 1.5 * units.Bar, Clearance: indicator.Both(0.08),
	}, diagram.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	sentence(pictures[0], err, "Mean pressure")
	sentence(pictures[1], err, "Mean")
	// Output:
	// Mean pressure of the head end 1.40 bar, work 1.329 J; of the crank end 1.36 bar, work 1.290 J
	// Mean 0.417 N m; greatest 0.727 N m at 79.18°, least -0.098 N m at 346.93°
}

// The sheave is set to a degree and the valve cut to 0.05 mm.
func ExampleBands() {
	advance, _ := spread.Advance.PlusMinus("1 deg")
	valve, _ := spread.ValveLength.PlusMinus("0.05 mm")
	pictures, err := diagram.Bands(spread.Study{Gear: invented(), Tolerances: []spread.Tolerance{advance, valve}}, diagram.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	sentence(pictures[1], err, "Head end")
	// Output: Head end: admission -6.90° to -3.93°; cut-off 131.93° to 134.90°; release 154.53° to 156.53°; compression 331.47° to 333.47°; lead 0.20 to 0.35 mm; greatest to steam 1.98 to 2.00 mm; greatest to exhaust 2.00 to 2.00 mm
}

// A page takes the SVG as it is.
func ExamplePicture_WriteSVG() {
	written(diagram.Picture.WriteSVG, "</svg>")
	// Output: true
}

// A drawing office takes DXF: millimetres of the sheet.
func ExamplePicture_WriteDXF() {
	written(diagram.Picture.WriteDXF, "ENTITIES")
	// Output: true
}

// A printer takes PDF.
func ExamplePicture_WritePDF() {
	written(diagram.Picture.WritePDF, "%PDF-")
	// Output: true
}

// written says whether a file of the oval has a word in it.
func written(write func(diagram.Picture, io.Writer) error, word string) {
	p, err := diagram.Oval(invented(), diagram.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	if err := write(p, &file); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Contains(file.String(), word))
}
