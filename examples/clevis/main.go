// Clevis says how deep the slot of a fork is, and how its corners are rounded, so that
// the eye in it swings without binding, and which holes its pin wants.
//
//	go run ./examples/clevis -pin "3 mm" -width "6 mm" -swing "8 deg"
//	go run ./examples/clevis -pin "3 mm" -width "6 mm" -swing "8 deg" -slot "3.2 mm" -thick "3 mm" -gap "3.1 mm"
//	go run ./examples/clevis -pin "3 mm" -width "6 mm" examples/enginebook/engines/demo.toml
//
// An engine file gives the swing of its eccentric rod. It ends with 1 when the joint
// binds, and with 2, and nothing printed but the reason, when it cannot use what it is
// given.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.ClevisQuestion
	return cli.Program{
		Name: "clevis", Arguments: "[ENGINE.TOML]",
		About: "Says how deep the slot of a fork is so that its eye swings without binding, with an engine file for the swing of its " +
			"eccentric rod. Lengths are from the middle of the pin.",
		Try: []string{
			`-pin "3 mm" -width "6 mm" -swing "8 deg"`,
			`-pin "3 mm" -width "6 mm" -swing "8 deg" -slot "3.2 mm" -thick "3 mm" -gap "3.1 mm"`,
			`-pin "3 mm" -width "6 mm" my-engine.toml`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&ask.Pin, "pin", "DIAMETER", `of the pin, such as "3 mm"`)
			f.Must(&ask.Width, "width", "WIDTH", `of the eye across its part, such as "6 mm"`)
			cli.Optional(f, &ask.Beyond, "beyond", "LENGTH", "of the eye from the pin to its end; half its width unless given")
			cli.Optional(f, &ask.Corner, "corner", "RADIUS", "of the eye's two corners; sharp unless given")
			cli.Optional(f, &ask.Fork, "fork", "WIDTH", "of the cheeks of the fork; as the eye unless given, like the next two")
			cli.Optional(f, &ask.ForkBeyond, "fork-beyond", "LENGTH", "of the cheeks from the pin to their end")
			cli.Optional(f, &ask.ForkCorner, "fork-corner", "RADIUS", "of the cheeks' corners")
			cli.Optional(f, &ask.Swing, "swing", "ANGLE", `of the eye either way, such as "8 deg"; or an engine file`)
			cli.Optional(f, &ask.Slot, "slot", "LENGTH", "from the pin to the bottom of the slot that there is")
			cli.Optional(f, &ask.Shoulder, "shoulder", "LENGTH", "from the pin to the shoulder of the eye that there is")
			cli.Optional(f, &ask.Thickness, "thick", "THICKNESS", "of the eye, with -gap")
			cli.Optional(f, &ask.Gap, "gap", "WIDTH", "between the cheeks, with -thick")
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) > 1 {
				return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
			}
			if len(args) == 1 {
				ask.Engine = args[0]
			}
			return pages.Clevis(ask)
		},
	}
}
