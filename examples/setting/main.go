// Setting says how the valve and the eccentric of an engine are set: what is done in
// which order, what is to be read after each step, and what to turn or to move, and by
// how much, where something else is read.
//
//	go run ./examples/setting [-json] [engine.toml]
//	go run ./examples/setting -head "0.10 mm" -crank "0.55 mm" engine.toml
//	go run ./examples/setting -move "1/64 in" -spindle "M3" -nut-places 2 engine.toml
//
// With the leads of both ends as they are read, each at its dead centre, it says first
// by how much the sheave is turned and the valve moved; below zero a port is still
// shut by so much. With a move of the valve it says first how many turns of the nut
// that is, and what a nut that seats in a few places of a turn leaves of it. The file
// is that of enginebook, with what the valve is set by in its table [setting]; without
// one it takes an invented engine. It ends with 1 when the gear, set so, can hurt
// somebody or will not work, and with 2, and nothing printed but the reason, when it
// cannot use what it was given.
//
// In JSON setting has the stages dead_centres, sheave, middle, lead, other_end, split,
// prove and fasten, each with its number, its readings and its text under notes.
// correction has turn_deg, forwards, arc_mm, turn_other_hand_deg where the ports shut as
// the crank goes on, move_mm, towards the crank, eccentric_rod_longer_mm in place of
// that, lap_more_mm in place of the turn, nut, and the leads after it; nut has turns,
// set_turns, moves_mm, left_mm and most_left_mm. An arc of a diameter that the file does
// not give is null.
package main

import (
	_ "embed"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

//go:embed demo/engine.toml
var demo []byte

func main() { program().Main() }

func program() cli.Program {
	var q pages.SettingQuestion
	return cli.Program{
		Name: "setting", Arguments: "[ENGINE.TOML]",
		About: "Says how the valve and the eccentric are set, with the readings to expect, from the engine file; without one, for" +
			" an invented engine with a slip eccentric. The file is that of enginebook.",
		Try: []string{"", `-head "0.10 mm" -crank "0.55 mm" my-engine.toml`, `-move "1/64 in" -spindle "M3" -nut-places 2`},
		Define: func(f *cli.Flags) {
			cli.Optional(f, &q.Head, "head", "LENGTH", `lead of the head end as it is read, such as "0.10 mm"; below zero the port is still shut`)
			cli.Optional(f, &q.Crank, "crank", "LENGTH", "lead of the crank end, the same")
			cli.Optional(f, &q.Move, "move", "LENGTH", `of the valve on its spindle, such as "1/64 in", for the turns of the nut`)
			cli.Optional(f, &q.Spindle, "spindle", "THREAD", `of the valve spindle, such as "5 BA" or "1/8 x 40 ME"`)
			f.OptionalCount(&q.NutPlaces, "nut-places", "N", "in which the nut seats in a turn: 2 of a flat one in a slot; left out, anywhere")
		},
		Run: func(args []string) (book.Book, error) {
			switch len(args) {
			case 0:
				return pages.SettingFile("demo/engine.toml", demo, q)
			case 1:
				return pages.ReadSetting(args[0], q)
			}
			return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
		},
	}
}
