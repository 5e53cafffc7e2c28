// Shrink says whether a hub and a shaft go together at the temperatures that are
// to be had, when the fit grabs, and, with the other dimensions, what the joint
// then bears. Where neither part is heated or chilled it is a press fit, and with
// the other dimensions comes the force of the press.
//
//	go run ./examples/shrink -d "3/8 in" -over "1 thou" -clear "0.3 thou" -hub "mild steel" -shaft "phosphor bronze" -hub-at "200 degC" -shaft-at "-18 degC"
//	go run ./examples/shrink -d "20 mm" -over "0.02 mm" -hub-at "392 degF" -outside "40 mm" -seat "20 mm" -mu 0.12
//
// A temperature needs its scale. It ends with 0 when they go together and hold;
// with 1 when they would stick, break or melt; and with 2, and nothing but the reason,
// when it was asked something that it cannot answer.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.ShrinkQuestion
	return cli.Program{
		Name: "shrink",
		About: "Says whether a hub and a shaft go together hot or cold, with what clearance, and which temperature does it, " +
			"or as a press fit where neither is heated; with -outside, -seat and -mu, what the press must push and what the joint bears.",
		Try: []string{
			`-d 3/8in -over 1thou -shaft "phosphor bronze" -hub-at 200degC`,
			`-d 20mm -over 20um -hub-at 392degF -outside 40mm -seat 20mm -mu 0.12`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&ask.Diameter, "d", "DIAMETER", `of the joint, such as "20 mm" or "3/8 in"`)
			f.Must(&ask.Interference, "over", "INTERFERENCE", `on the diameter, cold, such as "0.02 mm" or "1 thou"`)
			cli.Optional(f, &ask.Clearance, "clear", "CLEARANCE", "on the diameter that assembly needs; a thousandth of the diameter unless given")
			cli.Optional(f, &ask.Hub, "hub", "MATERIAL", "of the hub, such as \"cast iron\"; mild steel unless given")
			cli.Optional(f, &ask.Shaft, "shaft", "MATERIAL", "of the shaft or bush; mild steel unless given")
			cli.Optional(f, &ask.Room, "room", "TEMPERATURE", `at which the parts were measured; "20 degC" unless given`)
			cli.Optional(f, &ask.HubAt, "hub-at", "TEMPERATURE", `of the hub, such as "200 degC" or "392 degF"; that of the room unless given`)
			cli.Optional(f, &ask.ShaftAt, "shaft-at", "TEMPERATURE", "of the shaft or bush; that of the room unless given")
			cli.Optional(f, &ask.Outside, "outside", "DIAMETER", "outside diameter of the hub, for what the joint bears")
			cli.Optional(f, &ask.Seat, "seat", "LENGTH", "of the joint, for what it bears")
			f.Number(&ask.Mu, "mu", "FRICTION", "coefficient of friction, such as 0.12, for what the joint bears")
			cli.Optional(f, &ask.Bore, "bore", "DIAMETER", "of the hole in the shaft or bush; solid unless given")
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) > 0 {
				return book.Book{}, cli.ErrUsage(`"%s": no such argument; accepted: flags`, cli.Visible(args[0]))
			}
			return pages.Shrink(ask)
		},
	}
}
