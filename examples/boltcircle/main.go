// Boltcircle says where the holes of a bolt circle are and how to set them out: X and
// Y from the middle and from a corner of the work, the step of dividers with its
// closing check, the dials of a milling table with the backlash taken up, the angles of
// a rotary table, and the order of drilling.
//
//	go run ./examples/boltcircle -d "36 mm" 6
//	go run ./examples/boltcircle -d "4 in" -straddle -inch 3
//	go run ./examples/boltcircle -d "36 mm" -centre-x "25 mm" -centre-y "20 mm" -screw "2 mm" -divisions 80 7
//	go run ./examples/boltcircle -d "36 mm" -hole "3.4 mm" -rotary "1 arcmin" 5
//
// Hole 1 is at the top unless -first says where; the numbers run anticlockwise. It ends
// with 2, and nothing but the reason, when it cannot use what it is given.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.BoltCircleQuestion{First: 90 * units.Degree}
	return cli.Program{
		Name: "boltcircle", Arguments: "HOLES",
		About: "Says where the holes of a bolt circle are and how to set them out: from the middle and from a corner, " +
			"with dividers, by the dials of a table and on a rotary table.",
		Try: []string{
			`-d "36 mm" 6`,
			`-d "4 in" -straddle -inch 3`,
			`-d "36 mm" -centre-x "25 mm" -centre-y "20 mm" -screw "2 mm" -divisions 80 7`,
			`-d "36 mm" -hole "3.4 mm" -rotary "1 arcmin" 5`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&ask.Diameter, "d", "DIAMETER", `of the circle on the hole centres, such as "36 mm"`)
			f.Text(&ask.First, "first", "ANGLE", `of hole 1, anticlockwise from the right; "90 deg", the top, unless given`)
			f.Switch(&ask.Straddle, "straddle", "that direction lies midway between two holes")
			cli.Optional(f, &ask.CentreX, "centre-x", "LENGTH", "of the middle from the corner of the work, to the right; half the diameter unless given")
			cli.Optional(f, &ask.CentreY, "centre-y", "LENGTH", "of the middle from the corner of the work, up; half the diameter unless given")
			cli.Optional(f, &ask.Hole, "hole", "DIAMETER", "of the holes, for a caliper over pins that fill them")
			cli.Optional(f, &ask.Screw, "screw", "TRAVEL", `of the table for a turn of its screws, such as "2 mm" or "0.1 in"; with -divisions`)
			f.Count(&ask.Divisions, "divisions", "NUMBER", "of the dials of the table")
			cli.Optional(f, &ask.Past, "past", "LENGTH", "that a slide goes past before it comes back, more than its backlash; half a turn unless given")
			cli.Optional(f, &ask.Rotary, "rotary", "ANGLE", `that a rotary table can be set to, such as "1 arcmin"`)
			f.Switch(&ask.Inch, "inch", "places in inches")
		},
		Run: func(args []string) (b book.Book, err error) {
			if len(args) != 1 {
				return b, cli.ErrUsage("wanted: one number of holes, such as 6")
			}
			if ask.Number, err = cli.ParseCount(args[0]); err != nil {
				return b, cli.Named("number", err)
			}
			return pages.BoltCircle(ask)
		},
	}
}
