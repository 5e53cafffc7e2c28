package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

// castingFlags are those of a rough casting.
func castingFlags(f *cli.Flags, ask *pages.CastingQuestion) {
	f.Lengths(&ask.Rim, "rim", "READINGS", `of a dial round the outside of a rough casting, such as "0 0.35 0.95 1.10 0.85 0.25 mm": `+
		`4 or more, at equal steps of a turn from place 1 on`)
	f.Lengths(&ask.Inside, "inside", "READINGS", "the same of the inside of its rim, more where the metal comes towards the dial")
	f.Switch(&ask.InsideStays, "inside-stays", "the inside is left as cast: the casting is set true by it")
	cli.Optional(f, &ask.RimDiameter, "d", "DIAMETER", "over the rim as cast, for a casting that lies far off")
	cli.Optional(f, &ask.InsideDiameter, "inside-d", "DIAMETER", "of the inside of the rim")
	cli.Optional(f, &ask.RimStock, "stock", "LENGTH", "on the radius of the rim: half of what it measures, on the mean, above the finished diameter")
	cli.Optional(f, &ask.InsideStock, "inside-stock", "LENGTH", "on the radius of the inside")
	f.Lengths(&ask.Face, "face", "READINGS", "of a dial round the face of the casting, along the lathe; with -face-d")
	f.Lengths(&ask.Back, "back", "READINGS", "of a dial round the face that looks at the chuck")
	cli.Optional(f, &ask.FaceDiameter, "face-d", "DIAMETER", "of the circle on which the faces are read")
	cli.Optional(f, &ask.FaceStock, "face-stock", "LENGTH", "on the face")
	cli.Optional(f, &ask.BackStock, "back-stock", "LENGTH", "on the back")
	f.OptionalCount(&ask.Jaws, "jaws", "NUMBER", "of jaws that the shims go to; 4 unless given")
	cli.Optional(f, &ask.Seats, "seats", "DIAMETER", "of the circle on which the jaws or the faceplate touch the casting; that of -face-d unless given")
}

// ofCasting answers the question of a casting, beside which no other is asked.
func ofCasting(f *cli.Flags, args []string, ask pages.CastingQuestion) (book.Book, error) {
	for _, name := range []string{"blank", "offset", "travel", "jaw", "opens", "packing", "reads", "dial", "bore", "towards", "range", "n",
		"travel", "mass", "weight-at"} {
		if f.Given(name) {
			return book.Book{}, cli.ErrUsage("-%s beside what is of a casting; accepted: one question at a time, of a casting with -pitch and -falls", name)
		}
	}
	if len(args) > 0 {
		return book.Book{}, cli.ErrUsage("an engine file beside what is of a casting; accepted: one question at a time")
	}
	return pages.Casting(ask)
}
