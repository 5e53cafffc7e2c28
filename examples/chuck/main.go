// Chuck says how work is set in a lathe chuck: the packing under one jaw of a
// three-jaw chuck for an eccentric, and where the middle of a rough casting is.
//
//	go run ./examples/chuck -blank "20 mm" -offset "3.5 mm" -jaw "6 mm"
//	go run ./examples/chuck -rim "0 0.35 0.95 1.10 0.85 0.25 mm"
//
// It ends with 0; with 1 when something can hurt somebody or will not hold; and with
// 2, and nothing but the reason, when it was asked something that it cannot answer.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.ChuckQuestion
	var rough pages.CastingQuestion
	return cli.Program{
		Name:  "chuck",
		About: "Says how work is set in a lathe chuck: the packing under one jaw of a three-jaw chuck for an eccentric; where the middle of a rough casting is, and whether it cleans up.",
		Try:   []string{`-blank "20 mm" -offset "3.5 mm" -jaw "6 mm"`, `-rim "0 0.35 0.95 1.10 0.85 0.25 mm"`},
		Define: func(f *cli.Flags) {
			cli.Optional(f, &ask.Blank, "blank", "DIAMETER", `of the round blank, such as "20 mm"`)
			cli.Optional(f, &ask.Offset, "offset", "LENGTH", `wanted, half of the travel and half of what a dial shows over a turn, such as "3.5 mm"`)
			f.Text(&ask.Jaw, "jaw", "WIDTH", `of the flat faces of the jaws, such as "6 mm"; jaws that touch along one line unless given`)
			castingFlags(f, &rough)
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) > 0 {
				return book.Book{}, cli.ErrUsage(`"%s": no such argument; accepted: flags`, cli.Visible(args[0]))
			}
			if rough.Asked() && (ask.Blank != nil || ask.Offset != nil) {
				return book.Book{}, cli.ErrUsage("one question at a time: -rim, -inside, -face and -back are of a casting; accepted: them without the rest")
			}
			if rough.Asked() {
				return pages.Casting(rough)
			}
			return pages.Chuck(ask)
		},
	}
}
