// Template draws the steam-chest and cylinder-cover gaskets of an invented engine
// at full size, as PDF, SVG and DXF, and says what to check before cutting.
//
//	template -out gaskets
//	template -part cover -paper Letter -drawn-x "132 mm" -printed-x "114 mm"
//
// The second line corrects for a printer that drew a line of 132 mm 114 mm long.
// It exits with 1 when a joint that it draws can hurt somebody or will not work,
// and with 2 when it cannot use what it is given.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
)

func main() { os.Exit(cli.Run(run)) }

// A job is what the flags ask for.
type job struct {
	out       string
	part      string
	name      string
	times     float64
	thickness units.Length
	pressure  units.Pressure
	picture   bool
	options   template.Options
}

func run(args []string, stdout, stderr io.Writer) int {
	fail := func(err error) int {
		fmt.Fprintln(stderr, err)
		return 2
	}
	j, err := parse(args, stdout, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case errors.Is(err, errShown):
		return 2
	case err != nil:
		return fail(err)
	}
	all, err := parts(j.times)
	if err != nil {
		return fail(err)
	}
	status := 0
	for _, p := range all {
		if j.part != "both" && j.part != p.file {
			continue
		}
		outline, err := p.outline()
		if err != nil {
			return fail(err)
		}
		if j.name != "" {
			outline.Name = j.name
		}
		t, err := template.New(template.Part{
			Outline:   outline,
			Engine:    "Invented engine, 20 × 25 mm",
			Material:  "Oiled paper",
			Thickness: j.thickness,
		}, j.options)
		if err == nil {
			err = write(t, filepath.Join(j.out, p.file))
		}
		if err == nil && j.picture {
			err = writeFile(filepath.Join(j.out, p.file+"-picture.svg"), t.WritePicture)
		}
		if err != nil {
			return fail(err)
		}
		findings, err := report(stdout, outline, t, j, p.file)
		if err != nil {
			return fail(err)
		}
		if !findings.OK() {
			status = 1
		}
	}
	warn(stdout)
	return status
}

// errShown is an error that package flag has printed.
var errShown = errors.New("shown")

func parse(args []string, stdout, stderr io.Writer) (job, error) {
	var j job
	flags := flag.NewFlagSet("template", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.StringVar(&j.out, "out", ".", "`folder` to write to")
	flags.StringVar(&j.part, "part", "both", "chest, cover or both")
	flags.StringVar(&j.name, "name", "", "name of the part on the sheet, instead of its own")
	flags.Float64Var(&j.times, "times", 1, "build the engine this many times the size, 0.8 to 20; the studs stay M3")
	flags.TextVar(&j.options.Paper, "paper", template.A4, "`size` of the sheets: "+strings.Trim(fmt.Sprint(template.Papers()), "[]"))
	flags.TextVar(&j.thickness, "thickness", units.MM(0.25), "`thickness` of the jointing")
	flags.TextVar(&j.pressure, "pressure", 4*units.Bar, "`pressure` of the steam above that outside")
	flags.BoolVar(&j.picture, "picture", false, "also write a small picture for a page on a screen")
	flags.Usage = func() {
		fmt.Fprintln(stderr, `usage: template [flags]
Draws the gaskets of the invented engine. Where a print is not true to size,
measure a line on it and give -drawn-x and -printed-x, and the same along y.`)
		flags.PrintDefaults()
	}
	var drawn, printed [2]units.Length
	hundred := units.MM(100)
	for i, axis := range [...]string{"x", "y"} {
		flags.TextVar(&drawn[i], "drawn-"+axis, hundred, "`length` of a line along "+axis+" on the sheet")
		flags.TextVar(&printed[i], "printed-"+axis, hundred, "`length` that it measures on the print")
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return j, err
		}
		return j, errShown
	}
	if flags.NArg() > 0 {
		return j, fmt.Errorf("template: argument %q: the program takes flags only", flags.Arg(0))
	}
	if j.part != "both" && j.part != "chest" && j.part != "cover" {
		return j, fmt.Errorf("template: -part %q: accepted: chest, cover, both", j.part)
	}
	if !(j.pressure > 0) {
		return j, fmt.Errorf("template: -pressure %v: accepted: above zero", j.pressure)
	}
	if !(j.times >= 0.8 && j.times <= 20) {
		return j, fmt.Errorf("template: -times %g: accepted: 0.8 to 20", j.times)
	}
	for i, factor := range [...]*float64{&j.options.Correction.X, &j.options.Correction.Y} {
		var err error
		*factor, err = template.Factor(drawn[i], printed[i])
		if causes, e := template.CheckScale(drawn[i], printed[i]); e == nil && len(causes) > 0 {
			fmt.Fprintf(stdout, "%v came out at %v:\n", drawn[i], printed[i])
			tell(stdout, causes)
		}
		if err != nil {
			return j, err
		}
		if drawn[i] != printed[i] {
			fmt.Fprintf(stdout, "correction %s = drawn / printed = %v / %v = %.4f\n", "XY"[i:i+1], drawn[i], printed[i], *factor)
		}
	}
	return j, nil
}

// write writes one part in the three formats, SVG sheet by sheet.
func write(t *template.Template, path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return err
	}
	for page := 1; page <= t.Pages(); page++ {
		if err := writeFile(fmt.Sprintf("%s-%d.svg", path, page), func(w io.Writer) error { return t.WriteSVG(w, page) }); err != nil {
			return err
		}
	}
	return errors.Join(writeFile(path+".pdf", t.WritePDF), writeFile(path+".dxf", t.WriteDXF))
}

func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}
