// Changewheels sets up a lathe for a thread: the change wheels, exact or
// nearest, with what the nearest cost; where to close the half nuts; how deep
// to cut and how far the topslide travels for it.
//
//	go run ./examples/changewheels -leadscrew "10 tpi" -own "24-100x4" M8
//	go run ./examples/changewheels -leadscrew "3 mm" "26 tpi"
//	go run ./examples/changewheels -slide 27deg -tip "flat 3 thou" 1/4x40
//
// It ends with 1 when nothing comes near the lead, or when the best of the exact
// trains may foul a stud, and with 2, and nothing printed but the reason, when it
// cannot use what it is given.
package main

import (
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.ChangeWheelsQuestion{Own: "24,24-100x4", Engaged: units.MM(10), Show: 6}
	var leadscrew *screwcut.Lead
	return cli.Program{
		Name: "changewheels", Arguments: "THREAD or LEAD",
		About: `Sets up a lathe for a thread: the change wheels, the half nuts and the infeed. Give a thread, such as ` +
			`M8 or "1/4 BSF", or a lead, such as "1.5 mm" or "26 tpi".`,
		Try: []string{
			"M8",
			`-leadscrew "10 tpi" -own "24-100x4" M8`,
			`-leadscrew "3 mm" "26 tpi"`,
			`-slide 27deg -tip "flat 3 thou" 1/4x40`,
		},
		Define: func(f *cli.Flags) {
			cli.Optional(f, &leadscrew, "leadscrew", "LEAD", `of the leadscrew, such as "10 tpi" or "3 mm"; 10 tpi unless given`)
			f.Word(&ask.Own, "own", "WHEELS", `the wheels there are; one of which there are two is given twice. "24,24-100x4" unless given`)
			f.Count(&ask.GearedDrivers, "gear-drivers", "FIGURE", "drivers of gears that are always in the drive; none unless given")
			f.Count(&ask.GearedDriven, "gear-driven", "FIGURE", "driven of gears that are always in the drive; none unless given")
			f.Text(&ask.Engaged, "engaged", "LENGTH", "that the nut engages; 10 mm unless given")
			f.Count(&ask.Dial, "dial", "TEETH", "of the indicator's wheel on the leadscrew; no indicator unless given")
			cli.Optional(f, &ask.Slide, "slide", "ANGLE", "of the topslide from the line of the cross-slide; half a degree under half the thread's angle unless given")
			cli.Optional(f, &ask.Tip, "tip", "TIP", `of the tool: sharp, "flat 0.1 mm" or "radius 0.1 mm"; each that people grind unless given`)
			f.Count(&ask.Show, "show", "NUMBER", "trains of each kind to show; 6 unless given")
		},
		Run: func(args []string) (b book.Book, err error) {
			if len(args) == 0 {
				return b, cli.ErrUsage("wanted: a thread or a lead, such as M8 or 26 tpi")
			}
			if leadscrew != nil {
				ask.Leadscrew = *leadscrew
			} else if ask.Leadscrew, err = screwcut.NewLead(units.Inch(1), 10); err != nil {
				return b, err
			}
			ask.Wanted = strings.Join(args, " ")
			return pages.ChangeWheels(ask)
		},
	}
}
