// Dividing says how to turn the crank of a dividing head or rotary table for a
// number of divisions or an angle: whole turns and spaces on a circle of the
// plates that are there, and the nearest when it cannot be had.
//
//	go run ./examples/dividing -own "15 16 17 18 19 20 / 21 23 27 29 31 33" 7
//	go run ./examples/dividing -angle 22.5deg
//	go run ./examples/dividing -table -ratio 90 -d "40 mm" 7
//	go run ./examples/dividing -d "22.23 mm" -flats "18 mm" 6
//
// It ends with 1 when the plates do not give the number, and with 2, and nothing
// but the reason, when it was asked something that it cannot answer.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.DividingQuestion{Ratio: 40}
	return cli.Program{
		Name: "dividing", Arguments: "NUMBER",
		About: "Says how to turn the crank of a dividing head or rotary table for a number of divisions, or with -angle for an angle.",
		Try: []string{
			`-own "15 16 17 18 19 20 / 21 23 27 29 31 33" 7`,
			"-angle 22.5deg",
			`-table -ratio 90 -d "40 mm" 7`,
			`-d "22.23 mm" -flats "18 mm" 6`,
		},
		Define: func(f *cli.Flags) {
			f.Word(&ask.Own, "own", "CIRCLES", `the circles of your plates, such as "15 16 17 / 21 23 27", "two-sided" `+
				`(24 to 66; so unless given) or "three" (15 to 49)`)
			f.Count(&ask.Ratio, "ratio", "TURNS", "turns of the crank for one of the work; 40 unless given")
			cli.Optional(f, &ask.Angle, "angle", "ANGLE", `an angle of the work in place of a number, such as 22.5deg or "22°30'"`)
			cli.Optional(f, &ask.Diameter, "d", "DIAMETER", `of the circle, such as "40 mm", for the chord to set dividers to`)
			cli.Optional(f, &ask.Across, "flats", "LENGTH", `across the flats that are cut on a bar of the diameter -d, such as "18 mm": how deep each is`)
			f.Switch(&ask.Table, "table", "a rotary table without plates: every position in degrees and in turns of the handwheel")
		},
		Run: func(args []string) (b book.Book, err error) {
			if ask.Angle != nil && len(args) != 0 || ask.Angle == nil && len(args) != 1 {
				return b, cli.ErrUsage("wanted: one number of divisions, such as 7, or -angle and no number")
			}
			if ask.Angle == nil {
				if ask.Number, err = cli.ParseCount(args[0]); err != nil {
					return b, cli.Named("number", err)
				}
			}
			return pages.Dividing(ask)
		},
	}
}
