// Ringgap says what gap a piston ring needs, cold and in its bore, so that its ends
// never meet, whether a gap that is filed is enough, and what rules of thumb make of
// the bore.
//
//	go run ./examples/ringgap -d "2 in" -ring-at "150 degC"
//	go run ./examples/ringgap -d "2 in" -gap "1 mm" -ring-at "180 degC" -cylinder-at "150 degC"
//
// The least gap is that of a hot ring in a cylinder that is still cold. It ends with 0;
// with 1 when the ends meet at work; and with 2, and nothing but the reason, when it was
// asked something that it cannot answer.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.RingGapQuestion
	return cli.Program{
		Name: "ringgap",
		About: "Says what gap a piston ring needs, cold and square in its bore, so that its ends never meet, " +
			"and whether a gap that is filed is enough.",
		Try: []string{
			`-d "2 in" -ring-at "150 degC"`,
			`-d "2 in" -gap "1 mm" -ring-at "180 degC" -cylinder-at "150 degC"`,
			`-d "30 mm" -gap "0.05 mm" -ring bronze -ring-at "150 degC"`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&ask.Bore, "d", "BORE", `of the cylinder, such as "2 in" or "30 mm"`)
			f.Must(&ask.RingAt, "ring-at", "TEMPERATURE", `of the ring at work, such as "150 degC" or "300 degF"; steam heats it to about its own`)
			cli.Optional(f, &ask.Gap, "gap", "GAP", "between the ends, cold, the ring square in the bore; none filed yet unless given")
			cli.Optional(f, &ask.CylinderAt, "cylinder-at", "TEMPERATURE", "of the cylinder at work; that of the ring unless given")
			cli.Optional(f, &ask.Ring, "ring", "MATERIAL", "of the ring; cast iron unless given")
			cli.Optional(f, &ask.Cylinder, "cylinder", "MATERIAL", "of the cylinder; cast iron unless given")
			cli.Optional(f, &ask.Room, "room", "TEMPERATURE", `at which the gap is measured; "20 degC" unless given`)
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) > 0 {
				return book.Book{}, cli.ErrUsage(`"%s": no such argument; accepted: flags`, cli.Visible(args[0]))
			}
			return pages.RingGap(ask)
		},
	}
}
