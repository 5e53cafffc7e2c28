// Template draws gaskets at full size, as PDF, SVG and DXF, and says what to punch and
// how the joint is tightened: those of an invented engine, of the covers of an engine
// file, or of an outline of your own.
//
//	go run ./examples/template -out gaskets
//	go run ./examples/template -out mine -thread M3 -class 8.8 examples/template/demo/flange.csv
//	go run ./examples/template -o book -cut examples/enginebook/engines/demo.toml
//	go run ./examples/template -out corrected -part cover -drawn-x "120 mm" -printed-x "111 mm"
//
// The last line corrects for a printer that drew a line of 120 mm 111 mm long. A list
// of corners has the columns part, x, y, bulge and diameter, as the invented
// demo/flange.csv; -o writes a whole folder, the drawings in its folder sheets; -cut
// adds files for a machine, with nothing in them but the edges. It writes all files or,
// where something fails, none, and overwrites none that is there unless asked. It ends
// with 1 when a joint that it draws can hurt somebody or will not work, which the sheets
// then say too, and with 2, with nothing printed but the reason and nothing written,
// when it cannot use what it is given or cannot write.
package main

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

func main() { program().Main() }

const (
	largestFile = 16 << 20 // bytes
	sheets      = "sheets" // where the drawings lie in the folder of a book
)

func program() cli.Program {
	hundred := pages.Printed{Drawn: units.MM(100), Measured: units.MM(100)}
	ask := pages.TemplateQuestion{
		Folder: ".", Part: "both", Times: 1, Thickness: units.MM(0.25), Pressure: 4 * units.Bar, X: hundred, Y: hundred,
	}
	jointing, stud, tapped := "jointing without asbestos", "", ""
	overwrite := false
	var flags *cli.Flags
	return cli.Program{
		Name: "template", Arguments: "[FILE]",
		About: "Draws gaskets at full size, as PDF, SVG and DXF. A FILE whose name ends in .toml is an engine file, of " +
			"which it draws the covers; any other is a list of the corners of your own outline, such as " +
			"demo/flange.csv, with a line part, x mm, y mm, bulge, diameter mm at its head. Without a FILE it " +
			"draws those of an invented engine. Where a print is not true to size, measure a line on it and " +
			"give -drawn-x and -printed-x, and the same along y.",
		Try: []string{
			"-out gaskets",
			"-out mine -thread M3 -class 8.8 flange.csv",
			"-o book -cut engine.toml",
			`-out corrected -part cover -drawn-x "120 mm" -printed-x "111 mm"`,
		},
		Define: func(f *cli.Flags) {
			flags = f
			f.Booklet()
			f.Word(&ask.Folder, "out", "FOLDER", "to write the drawings alone to; this one unless given")
			f.Switch(&overwrite, "overwrite", "write over files that are there")
			f.Word(&ask.Part, "part", "PART", "chest, cover or both; both unless given")
			f.Word(&ask.Name, "name", "TEXT", "name of the part on the sheet, in place of its own")
			f.Number(&ask.Times, "times", "NUMBER", "build the engine so many times the size, 0.8 to 20; the studs stay M3")
			f.Text(&ask.Paper, "paper", "SIZE", "of the sheets: "+strings.Trim(fmt.Sprint(template.Papers()), "[]")+"; A4 unless given")
			f.Switch(&ask.Inch, "inch", "sizes in inches, and bars of 4 in")
			f.Word(&stud, "thread", "THREAD", `of the studs of your own outline, such as "M3", to judge its joint; with -class`)
			f.Word(&ask.Class, "class", "CLASS", `of the steel of those studs, such as "8.8"`)
			f.Word(&tapped, "tapped", "MATERIAL", "that the studs are screwed into, as deep as the rule for studs has "+
				"it; cast iron unless given; an engine file has its own")
			f.Word(&jointing, "material", "MATERIAL", `of the gasket, such as "oiled paper"; jointing without asbestos unless given`)
			f.Text(&ask.Thickness, "thickness", "LENGTH", `of the jointing; "0.25 mm" unless given`)
			f.Text(&ask.Pressure, "pressure", "PRESSURE", `of the steam above that outside; "4 bar" unless given`)
			f.Switch(&ask.Picture, "picture", "also write a small picture for a page on a screen")
			f.Switch(&ask.Cut, "cut", "also write SVG and DXF with the edges alone, for a machine that cuts")
			f.Text(&ask.X.Drawn, "drawn-x", "LENGTH", `of a line along x on the sheet; "100 mm" unless given`)
			f.Text(&ask.X.Measured, "printed-x", "LENGTH", `that it measures on the print; "100 mm" unless given`)
			f.Text(&ask.Y.Drawn, "drawn-y", "LENGTH", `of a line along y on the sheet; "100 mm" unless given`)
			f.Text(&ask.Y.Measured, "printed-y", "LENGTH", `that it measures on the print; "100 mm" unless given`)
		},
		Run: func(args []string) (b book.Book, err error) {
			if flags.Wanted() {
				if flags.Given("out") || flags.Given("overwrite") {
					return b, cli.ErrUsage("-o with -out or -overwrite; accepted: -o for a whole book, or -out for the drawings alone")
				}
				ask.Folder = sheets
			}
			switch {
			case len(args) > 1:
				return b, cli.ErrUsage("number of files %d; accepted: one, an engine file or a list of corners, or none", len(args))
			case len(args) == 1:
				ask.Own.Name = args[0]
				if ask.Own.Text, err = cli.ReadFile(args[0], largestFile); err != nil {
					return b, err
				}
			}
			if stud != "" {
				t, err := thread.Parse(stud)
				if err != nil {
					return b, cli.Named("-thread", err)
				}
				ask.Thread = &t
			}
			if ask.Material, err = material.Lookup(jointing); err != nil {
				return b, cli.Named("-material", err)
			}
			if tapped != "" {
				if ask.Tapped, err = material.Lookup(tapped); err != nil {
					return b, cli.Named("-tapped", err)
				}
			}
			b, files, err := pages.Template(ask)
			if err != nil {
				return b, err
			}
			if !flags.Wanted() {
				flags.Files(ask.Folder, files, overwrite)
				return b, nil
			}
			for _, f := range files {
				f.Name = sheets + "/" + f.Name
				flags.Beside(f)
			}
			return b, nil
		},
	}
}
