// Template draws the steam-chest and cylinder-cover gaskets of an invented engine
// at full size, as PDF, SVG and DXF.
//
//	template -out gaskets
//	template -part cover -paper Letter -drawn-x "132 mm" -printed-x "114 mm"
//
// The engine is invented: bore 20 mm, stroke 25 mm, steam ports 2 mm, bars
// 2.5 mm, exhaust port 4 mm, all 10 mm long.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/units"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("template", flag.ContinueOnError)
	flags.SetOutput(stderr)
	var (
		out      = flags.String("out", ".", "folder to write to")
		which    = flags.String("part", "both", "chest, cover or both")
		name     = flags.String("name", "", "name of the part on the sheet, instead of its own")
		times    = flags.Float64("times", 1, "build the engine this many times the size, 0.5 to 20; the studs stay M3")
		paper    template.Paper
		thick    = units.MM(0.25)
		drawnX   = units.MM(100)
		drawnY   = units.MM(100)
		printedX = units.MM(100)
		printedY = units.MM(100)
	)
	flags.TextVar(&paper, "paper", template.A4, "A4, A3, A2, A1, A0, Letter, Legal or Tabloid")
	flags.TextVar(&thick, "thickness", thick, "thickness of the jointing")
	flags.TextVar(&drawnX, "drawn-x", drawnX, "length of a line across the sheet")
	flags.TextVar(&printedX, "printed-x", printedX, "what that line measures on the print")
	flags.TextVar(&drawnY, "drawn-y", drawnY, "length of a line up the sheet")
	flags.TextVar(&printedY, "printed-y", printedY, "what that line measures on the print")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	fail := func(err error) int {
		fmt.Fprintln(stderr, "template:", err)
		return 2
	}
	if flags.NArg() > 0 {
		return fail(fmt.Errorf("argument %q: the program takes flags only", flags.Arg(0)))
	}
	if !(*times >= 0.5 && *times <= 20) {
		return fail(fmt.Errorf("-times %g: accepted: 0.5 to 20", *times))
	}
	options := template.Options{Paper: paper}
	for _, axis := range [...]struct {
		factor         *float64
		drawn, printed units.Length
	}{{&options.Correction.X, drawnX, printedX}, {&options.Correction.Y, drawnY, printedY}} {
		var err error
		if *axis.factor, err = template.Factor(axis.drawn, axis.printed); err != nil {
			return fail(err)
		}
		if axis.drawn != axis.printed {
			fmt.Fprintf(stdout, "correction = drawn / printed = %v / %v = %.4f\n", axis.drawn, axis.printed, *axis.factor)
		}
		if cause := template.Cause(axis.drawn, axis.printed); cause != "" {
			fmt.Fprintln(stdout, "  ", cause)
		}
	}
	for _, p := range parts(*times) {
		if *which != "both" && *which != p.file {
			continue
		}
		outline, err := p.outline()
		if err != nil {
			return fail(err)
		}
		if *name != "" {
			outline.Name = *name
		}
		if err := draw(stdout, outline, thick, options, filepath.Join(*out, p.file)); err != nil {
			return fail(err)
		}
	}
	if *which != "both" && *which != "chest" && *which != "cover" {
		return fail(fmt.Errorf("-part %q: accepted: chest, cover, both", *which))
	}
	return 0
}

// draw writes the files of one gasket and says what to check and to punch.
func draw(stdout io.Writer, outline gasket.Outline, thickness units.Length, options template.Options, path string) error {
	t, err := template.New(template.Part{
		Outline:   outline,
		Engine:    "Invented engine, 20 × 25 mm",
		Material:  "Oiled paper",
		Thickness: thickness,
	}, options)
	if err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s: %d sheet(s) of %s\n", outline.Name, t.Pages(), options.Paper)
	for _, h := range t.Holes() {
		punch := "no punch of the rack will do"
		if !h.Punch.IsZero() {
			punch = "punch " + h.Punch.String()
		}
		fmt.Fprintf(stdout, "  %d holes of %v (%s), %s\n", h.Count, h.Diameter, h.Diameter.Text(units.Thousandths, 0), punch)
	}
	files := map[string]func(io.Writer) error{path + ".pdf": t.WritePDF, path + ".dxf": t.WriteDXF}
	for page := 1; page <= t.Pages(); page++ {
		files[fmt.Sprintf("%s-%d.svg", path, page)] = func(w io.Writer) error { return t.WriteSVG(w, page) }
	}
	for name, write := range files {
		if err := writeFile(name, write); err != nil {
			return err
		}
	}
	return nil
}

func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}

// A demo is one gasket of the invented engine.
type demo struct {
	file    string
	outline func() (gasket.Outline, error)
}

func parts(times float64) []demo {
	mm := func(v float64) units.Length { return units.MM(v * times) }
	stud := units.MM(3.4) // clears M3, medium series of ISO 273
	return []demo{
		{"chest", func() (gasket.Outline, error) {
			studs, err := gasket.Rectangle(2, 3, mm(23), mm(33))
			if err != nil {
				return gasket.Outline{}, err
			}
			inside := gasket.Rect{Width: mm(16), Height: mm(26), Corner: mm(2)}
			return gasket.Rectangular("Steam-chest cover gasket", gasket.Rect{Width: mm(30), Height: mm(40), Corner: mm(3)}, []gasket.Rect{inside}, studs.Drilled(stud))
		}},
		{"cover", func() (gasket.Outline, error) {
			studs, err := gasket.BoltCircle(6, mm(28), 90*units.Degree)
			if err != nil {
				return gasket.Outline{}, err
			}
			return gasket.Round("Cylinder-cover gasket", mm(36), mm(20.5), studs.Drilled(stud))
		}},
	}
}
