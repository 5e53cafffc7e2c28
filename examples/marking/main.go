// Marking says at which heights of the scribing block or the height gauge the end of a
// bar is marked out in a vee block for an eccentric, and what a bar does that is not
// what it was taken for.
//
//	go run ./examples/marking -bar "20 mm" -offset "3.5 mm"
//	go run ./examples/marking -bar "3/4 in" -is "0.748 in" -top "2.031 in" -offset "3/32 in"
//
// In JSON heights_mm has the line of the axis and that of the offset, from the root of
// the vee or, with -top, on the gauge. It ends with 0, and with 2, and nothing but the
// reason, when it was asked something that it cannot answer.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.MarkingQuestion{Vee: 90 * units.Degree}
	return cli.Program{
		Name: "marking", Arguments: "[ENGINE.TOML]",
		About: "Says at which heights the end of a bar is marked out in a vee block for an eccentric: the line of the axis, and after a quarter turn" +
			" that of the offset, which is half of the travel. The offset may be that of an engine file, as enginebook has it.",
		Try: []string{
			`-bar "20 mm" -offset "3.5 mm"`,
			`-bar "3/4 in" -is "0.748 in" -top "2.031 in" -offset "3/32 in"`,
			`-bar "20 mm" -vee "60 deg" my-engine.toml`,
		},
		Define: func(f *cli.Flags) {
			f.FirstUnit(&ask.Inch)
			f.Must(&ask.Bar, "bar", "DIAMETER", `of the bar, measured, such as "20 mm"`)
			f.Text(&ask.Vee, "vee", "ANGLE", `of the vee block, included; "90 deg" unless given`)
			cli.Optional(f, &ask.Offset, "offset", "LENGTH", `of the sheave, half of the travel, such as "3.5 mm"`)
			cli.Optional(f, &ask.Travel, "travel", "LENGTH", "of the valve where no lever is, twice the offset, in its place")
			cli.Optional(f, &ask.Top, "top", "HEIGHT", "that the gauge reads on the bar as it lies; heights are above the root of the vee unless given")
			cli.Optional(f, &ask.Is, "is", "DIAMETER", "that the bar really has, where another was taken: what that does")
		},
		Run: func(args []string) (book.Book, error) {
			switch {
			case len(args) > 1:
				return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
			case len(args) == 1:
				ask.Engine = args[0]
			}
			return pages.Marking(ask)
		},
	}
}
