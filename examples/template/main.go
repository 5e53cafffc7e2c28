// Template draws the steam-chest and cylinder-cover gaskets of an invented engine
// at full size, as PDF, SVG and DXF, and says what to punch and how the joint is
// tightened.
//
//	go run ./examples/template -out gaskets
//	go run ./examples/template -out corrected -part cover -drawn-x "132 mm" -printed-x "114 mm"
//
// The second line corrects for a printer that drew a line of 132 mm 114 mm long.
// It writes all files or, where something fails, none, and overwrites none that is
// there unless asked. It ends with 1 when a joint that it draws can hurt somebody or
// will not work, and with 2, with nothing printed but the reason and nothing
// written, when it cannot use what it is given or cannot write.
package main

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

func main() { program().Main() }

func program() cli.Program {
	hundred := pages.Printed{Drawn: units.MM(100), Measured: units.MM(100)}
	ask := pages.TemplateQuestion{
		Folder: ".", Part: "both", Times: 1, Thickness: units.MM(0.25), Pressure: 4 * units.Bar, X: hundred, Y: hundred,
	}
	jointing := "jointing without asbestos"
	overwrite := false
	var flags *cli.Flags
	return cli.Program{
		Name:  "template",
		About: "Draws the gaskets of an invented engine at full size, as PDF, SVG and DXF. Where a print is not true to size, measure a line on it and give -drawn-x and -printed-x, and the same along y.",
		Try: []string{
			"-out gaskets",
			`-out corrected -part cover -drawn-x "132 mm" -printed-x "114 mm"`,
		},
		Define: func(f *cli.Flags) {
			flags = f
			f.Word(&ask.Folder, "out", "FOLDER", "to write to; this one unless given")
			f.Switch(&overwrite, "overwrite", "write over files that are there")
			f.Word(&ask.Part, "part", "PART", "chest, cover or both; both unless given")
			f.Word(&ask.Name, "name", "TEXT", "name of the part on the sheet, in place of its own")
			f.Number(&ask.Times, "times", "NUMBER", "build the engine so many times the size, 0.8 to 20; the studs stay M3")
			f.Text(&ask.Paper, "paper", "SIZE", "of the sheets: "+strings.Trim(fmt.Sprint(template.Papers()), "[]")+"; A4 unless given")
			f.Word(&jointing, "material", "MATERIAL", `of the gasket, such as "oiled paper"; jointing without asbestos unless given`)
			f.Text(&ask.Thickness, "thickness", "LENGTH", `of the jointing; "0.25 mm" unless given`)
			f.Text(&ask.Pressure, "pressure", "PRESSURE", `of the steam above that outside; "4 bar" unless given`)
			f.Switch(&ask.Picture, "picture", "also write a small picture for a page on a screen")
			f.Text(&ask.X.Drawn, "drawn-x", "LENGTH", `of a line along x on the sheet; "100 mm" unless given`)
			f.Text(&ask.X.Measured, "printed-x", "LENGTH", `that it measures on the print; "100 mm" unless given`)
			f.Text(&ask.Y.Drawn, "drawn-y", "LENGTH", `of a line along y on the sheet; "100 mm" unless given`)
			f.Text(&ask.Y.Measured, "printed-y", "LENGTH", `that it measures on the print; "100 mm" unless given`)
		},
		Run: func(args []string) (b book.Book, err error) {
			if len(args) > 0 {
				return b, cli.ErrUsage("%q: the program takes flags only", cli.Short(args[0]))
			}
			if ask.Material, err = material.Lookup(jointing); err != nil {
				return b, cli.Named("-material", err)
			}
			b, files, err := pages.Template(ask)
			if err != nil {
				return b, err
			}
			flags.Files(ask.Folder, files, overwrite)
			return b, nil
		},
	}
}
