// Portface says where the spindle goes to mill the three ports of an engine with a
// cutter that is smaller than they are: along and across, from the middle of the exhaust
// port or from the zero of the scales, by the dials of a table with its backlash taken
// up one way, and in how many passes.
//
//	go run ./examples/portface -cutter "1.5 mm"
//	go run ./examples/portface -cutter "1.5 mm" -depth "3 mm" my-engine.toml
//	go run ./examples/portface -cutter "1.5 mm" -centre-x "20 mm" -centre-y "12 mm" -screw "2 mm" -divisions 80
//
// Without a file it takes an invented engine, demo/engine.toml. It ends with 2, and
// nothing printed but the reason, when it cannot use what it is given.
package main

import (
	_ "embed"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

//go:embed demo/engine.toml
var demo []byte

func main() { program().Main() }

func program() cli.Program {
	var ask pages.PortFaceQuestion
	return cli.Program{
		Name: "portface", Arguments: "[ENGINE.TOML]",
		About: "Says where the spindle goes to mill the ports of an engine file with a cutter that is smaller than they are; " +
			"without a file, of an invented engine.",
		Try: []string{
			`-cutter "1.5 mm"`,
			`-cutter "1.5 mm" -depth "3 mm" my-engine.toml`,
			`-cutter "1.5 mm" -centre-x "20 mm" -centre-y "12 mm" -screw "2 mm" -divisions 80`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&ask.Cutter, "cutter", "DIAMETER", `of the slot it cuts, no wider than the narrowest port, such as "1.5 mm"`)
			cli.Optional(f, &ask.Depth, "depth", "DEPTH", "of the ports, for the passes")
			cli.Optional(f, &ask.CentreX, "centre-x", "LENGTH", "of the middle of the exhaust port from the zero of the scales, along the travel; 0 unless given")
			cli.Optional(f, &ask.CentreY, "centre-y", "LENGTH", "of the middle of the ports from the zero of the scales, across the travel; 0 unless given")
			cli.Optional(f, &ask.Screw, "screw", "TRAVEL", `of the table for a turn of its screws, such as "2 mm" or "0.1 in"; with -divisions`)
			f.Count(&ask.Divisions, "divisions", "NUMBER", "of the dials of the table")
			cli.Optional(f, &ask.Past, "past", "LENGTH", "that a slide goes past before it comes back, more than its backlash; half a turn unless given")
		},
		Run: func(args []string) (book.Book, error) {
			switch len(args) {
			case 0:
				return pages.PortFaceFile("demo/engine.toml", demo, ask)
			case 1:
				return pages.ReadPortFace(args[0], ask)
			}
			return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
		},
	}
}
