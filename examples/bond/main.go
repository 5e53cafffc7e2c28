// Bond says what a shaft or bush holds that is fixed with a retaining compound, and
// whether the compound fills the gap, from the data sheet of the one in the bottle
// or, for a first estimate, from generic figures.
//
//	go run ./examples/bond -d "6 mm" -seat "6 mm" H7/f7
//	go run ./examples/bond -hole "6.03 mm" -shaft "5.99 mm" -seat "6 mm" -shear "20 MPa" -gap-most "0.1 mm"
//
// It ends with 0; with 1 when the gap is wider than the compound fills or the joint gets
// hotter than it stands; and with 2, and nothing but the reason, when it was asked
// something that it cannot answer.
package main

import (
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.BondQuestion{Share: 0.5}
	return cli.Program{
		Name: "bond", Arguments: "FIT",
		About: "Says what a shaft or bush holds that is fixed with a retaining compound, and whether the compound fills the gap " +
			"of a fit, such as H7/f7, or of two parts as they came out.",
		Try: []string{
			`-d "6 mm" -seat "6 mm" H7/f7`,
			`-hole "6.03 mm" -shaft "5.99 mm" -seat "6 mm" -shear "20 MPa" -gap-most "0.1 mm"`,
			`-d "1/4 in" -seat "1/4 in" -share 1 -hottest "160 degC" RC5`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&ask.Seat, "seat", "LENGTH", `of the joint, such as "6 mm"`)
			cli.Optional(f, &ask.Diameter, "d", "SIZE", `nominal size of the fit, such as "6 mm" or "1/4 in"`)
			cli.Optional(f, &ask.HoleIs, "hole", "SIZE", "what the hole came out at, in place of a fit")
			cli.Optional(f, &ask.ShaftIs, "shaft", "SIZE", "what the shaft came out at, with -hole")
			cli.Optional(f, &ask.Shear, "shear", "STRENGTH", `of the compound, cured, by its data sheet, such as "20 MPa"; 10 to 30 MPa unless given`)
			f.Share(&ask.Share, "share", "SHARE", "of that strength that is left for metal, dirt, heat and gap; a half unless given, 1 for clean steel in the cold")
			cli.Optional(f, &ask.GapLeast, "gap-least", "GAP", "on the diameter that it fills, by its data sheet; 0.02 mm unless given")
			cli.Optional(f, &ask.GapMost, "gap-most", "GAP", "on the diameter that it fills, by its data sheet; 0.15 mm unless given")
			cli.Optional(f, &ask.Service, "service", "TEMPERATURE", `highest at work by its data sheet; "150 degC" unless given`)
			cli.Optional(f, &ask.Release, "release", "TEMPERATURE", "that takes the joint apart, by its data sheet")
			cli.Optional(f, &ask.Hottest, "hottest", "TEMPERATURE", `that the joint gets at work; "20 degC" unless given`)
		},
		Run: func(args []string) (book.Book, error) {
			ask.Fit = strings.Join(args, " ")
			return pages.Bond(ask)
		},
	}
}
