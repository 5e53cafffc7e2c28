// Chuck says how work is set in a lathe chuck: the packing under one jaw of a
// three-jaw chuck for an eccentric and how to correct it by the dial, the moves of the
// jaws of a four-jaw chuck after readings of a dial, where the middle of a rough
// casting is, and what a sheave as it came out does to the events of its engine.
//
//	go run ./examples/chuck -blank "20 mm" -offset "3.5 mm" -jaw "6 mm"
//	go run ./examples/chuck -blank "20 mm" -offset "3.5 mm" -jaw "6 mm" -packing "4.8 mm" -reads "6.4 mm"
//	go run ./examples/chuck -dial "0 12 30 20 thou" -pitch "1.5 mm"
//	go run ./examples/chuck -rim "0 0.35 0.95 1.10 0.85 0.25 mm"
//	go run ./examples/chuck -reads "6.3 mm" examples/enginebook/engines/demo.toml
//
// It ends with 0; with 1 when something can hurt somebody or will not work; and with
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
	var flags *cli.Flags
	return cli.Program{
		Name: "chuck", Arguments: "[ENGINE.TOML]",
		About: "Says how work is set in a lathe chuck: the packing under one jaw of a three-jaw chuck for an eccentric, the moves of the jaws of a" +
			" four-jaw chuck after readings of a dial; where the middle of a rough casting is, and whether it cleans up. The offset may be" +
			" that of an engine file, as enginebook has it; then it says what an error of it does to the events.",
		Try: []string{
			`-blank "20 mm" -offset "3.5 mm" -jaw "6 mm"`,
			`-blank "20 mm" -offset "3.5 mm" -jaw "6 mm" -packing "4.8 mm" -reads "6.4 mm"`,
			`-dial "0 12 30 20 thou" -pitch "1.5 mm"`,
			`-dial "0 2 5 1 thou" -blank "20 mm" -offset "3.5 mm" -range "5 mm"`,
			`-rim "0 0.35 0.95 1.10 0.85 0.25 mm"`,
			`-reads "6.3 mm" my-engine.toml`,
		},
		Define: func(f *cli.Flags) {
			f.FirstUnit(&ask.Inch)
			cli.Optional(f, &ask.Blank, "blank", "DIAMETER", `of the round work, such as "20 mm"`)
			cli.Optional(f, &ask.Offset, "offset", "LENGTH", `wanted, half of the travel and half of what a dial goes over in a turn, such as "3.5 mm"`)
			cli.Optional(f, &ask.Travel, "travel", "LENGTH", "of the valve where no lever is, twice the offset, in its place")
			f.Text(&ask.Jaw, "jaw", "WIDTH", `of the flat faces of a three-jaw chuck, such as "6 mm"; jaws that touch along one line unless given`)
			f.Text(&ask.Opens, "opens", "DIAMETER", "the largest that the three jaws may grip, by the chuck's maker")
			cli.Optional(f, &ask.Packing, "packing", "THICKNESS", "that is under the jaw: what it gives, or with -reads what it must be")
			cli.Optional(f, &ask.Reads, "reads", "LENGTH", "that a dial goes over in a turn of the work by hand, high side to low")
			f.Lengths(&ask.Dial, "dial", "READINGS", `of a dial in a four-jaw chuck, such as "0 12 30 20 thou": jaws 1 to 4, `+
				`or more at equal steps of a turn from jaw 1 on`)
			cli.Optional(f, &ask.Pitch, "pitch", "PITCH", `of the jaws' screws, such as "1.5 mm" or "1/20 in"`)
			f.Switch(&ask.Falls, "falls", "the dial reads less as its plunger is pushed in")
			f.Switch(&ask.Bore, "bore", "the dial stands in a bore")
			f.OptionalCount(&ask.Towards, "towards", "JAW", "towards which the work is wanted off centre in a four-jaw chuck; jaw 1 unless given")
			cli.Optional(f, &ask.Range, "range", "LENGTH", "that the dial has: how to read an offset that goes beyond it")
			cli.Optional(f, &ask.Speed, "n", "SPEED", `of the spindle, such as "200 rev/min": whether it is too fast for work off centre`)
			cli.Optional(f, &ask.Mass, "mass", "MASS", `of the work, such as "0.1 kg": the force that goes round with it`)
			cli.Optional(f, &ask.WeightAt, "weight-at", "LENGTH", "from the axis, of the middle of a weight that balances it")
			castingFlags(f, &rough)
			flags = f
		},
		Run: func(args []string) (book.Book, error) {
			switch {
			case len(args) > 1:
				return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
			case len(args) == 1:
				ask.Engine = args[0]
			}
			if rough.Asked() {
				rough.Pitch, rough.Falls = ask.Pitch, ask.Falls
				return ofCasting(flags, args, rough)
			}
			return pages.Chuck(ask)
		},
	}
}
