// Fitting says what size to make both parts of a fit, in millimetres and thou, on
// the steps that a micrometer shows, and how to make it with a reamer and a ground
// bar.
//
//	go run ./examples/fitting -d "10 mm" H7/g6
//	go run ./examples/fitting -d "3/4 in" RC4
//	go run ./examples/fitting -own "9.5-10.5x0.01 mm" -bar h8 10H7/f7
//	go run ./examples/fitting -d "9.5 mm" -least "0.5 thou" -most "2 thou"
//	go run ./examples/fitting -d "6 mm" -bar h6 -least "0.01 mm" -most "0.03 mm"
//	go run ./examples/fitting -hole "20.03 mm" -least "0.05 mm" -most "0.08 mm"
//	go run ./examples/fitting -hole "20.03 mm" -packing "soft packing"
//	go run ./examples/fitting -hole "5/8 in" -shaft "16 mm"
//
// With a wanted clearance in place of a fit it says which fits keep it, and with -bar
// which holes do on bar as it is bought. With the
// size that a part came out at it says what its mate is made to, and with both what
// they do to each other. It ends with 0, whatever the fit: how tight is too tight
// depends on what the parts are made of, and a caution says so; with 1 when two
// parts that are made do not go together, or not as wanted; and with 2, and nothing but
// the reason, when it was asked something that it cannot answer.
package main

import (
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.FittingQuestion
	return cli.Program{
		Name: "fitting", Arguments: "FIT",
		About: "Says what size to make both parts of a fit of ISO 286, such as H7/g6 or, with the size, 10H7/g6, or of ANSI B4.1, " +
			"such as RC4; with -least and -most in place of a fit, which fits keep that clearance.",
		Try: []string{
			`-d "10 mm" H7/g6`,
			`-d "3/4 in" RC4`,
			`-own "9.5-10.5x0.01 mm" -bar h8 10H7/f7`,
			`-d "9.5 mm" -least "0.5 thou" -most "2 thou"`,
			`-d "6 mm" -bar h6 -least "0.01 mm" -most "0.03 mm"`,
			`-hole "20.03 mm" -packing "soft packing"`,
			`-hole "5/8 in" -shaft "16 mm"`,
		},
		Define: func(f *cli.Flags) {
			cli.Optional(f, &ask.Nominal, "d", "SIZE", `nominal size, such as "10 mm" or "3/8 in"`)
			cli.Optional(f, &ask.Step, "step", "STEP", "what the micrometer shows; 0.01 mm and 0.1 thou unless given")
			cli.Optional(f, &ask.Own, "own", "REAMERS", `your own reamers, such as "6 mm, 8 mm, 3/8 in"; one of the nominal size unless given`)
			cli.Optional(f, &ask.Bar, "bar", "CLASS", "tolerance class of your ground or bright bar, left as it is bought; h8 unless given")
			cli.Optional(f, &ask.HoleIs, "hole", "SIZE", "what the hole came out at; the shaft is made to it, or with -shaft held against it")
			cli.Optional(f, &ask.ShaftIs, "shaft", "SIZE", "what the shaft came out at; the hole is made to it, or with -hole held against it")
			cli.Optional(f, &ask.Packing, "packing", "PACKING", "of a piston, in place of a fit: metal rings, soft packing, O-ring")
			cli.Optional(f, &ask.Piston, "piston", "MATERIAL", "of a piston with metal rings; cast iron unless given")
			cli.Optional(f, &ask.Least, "least", "CLEARANCE", "in place of a fit: least clearance wanted, below zero for interference")
			cli.Optional(f, &ask.Most, "most", "CLEARANCE", "with -least: most clearance wanted")
		},
		Run: func(args []string) (book.Book, error) {
			ask.Fit = strings.Join(args, " ")
			return pages.Fitting(ask)
		},
	}
}
