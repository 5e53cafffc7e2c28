// Nutslot says how the slot across the back of a slide valve is cut, in which the nut of
// its rod drives it and leaves it free to lift and to wear down.
//
//	go run ./examples/nutslot -height "8 mm" -cavity "3 mm" -rod "2.5 mm" -rod-at "7.5 mm" \
//		-thick "5 mm" -high "5 mm" -long "8 mm" -length "15.4 mm" -width "16 mm"
//	go run ./examples/nutslot -height "8 mm" -cavity "3 mm" -rod "2.5 mm" -rod-at "7.5 mm" \
//		-thick "5 mm" -high "5 mm" -long "8 mm" examples/enginebook/engines/demo.toml
//
// An engine file gives length and width of the valve. It ends with 1 when the slot does
// not do, and with 2, and nothing printed but the reason, when it cannot use what it is
// given.
package main

import (
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.NutSlotQuestion{Slot: marking.NutSlot{Play: units.MM(0.03), Lift: units.MM(0.5), Wear: units.MM(0.3)}}
	s := &ask.Slot
	return cli.Program{
		Name: "nutslot", Arguments: "[ENGINE.TOML]",
		About: "Says how the slot for the nut in the back of a slide valve is cut: wide to the nut, and so deep that the valve can " +
			"lift. Heights are above the port face.",
		Try: []string{
			`-height "8 mm" -cavity "3 mm" -rod "2.5 mm" -rod-at "7.5 mm" -thick "5 mm" -high "5 mm" -long "8 mm" -length "15.4 mm" -width "16 mm"`,
			`-height "8 mm" -cavity "3 mm" -rod "2.5 mm" -rod-at "7.5 mm" -thick "5 mm" -high "5 mm" -long "8 mm" my-engine.toml`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&s.Height, "height", "HEIGHT", "of the valve, from its face to its back")
			f.Must(&s.Cavity, "cavity", "DEPTH", "of the cavity, from the face")
			f.Must(&s.Rod, "rod", "DIAMETER", "of the valve rod in the nut")
			f.Must(&s.RodAbove, "rod-at", "HEIGHT", "of the middle of the rod")
			f.Must(&s.Thick, "thick", "LENGTH", "of the nut along the rod")
			f.Must(&s.High, "high", "HEIGHT", "of the nut, square to the face")
			f.Must(&s.Long, "long", "LENGTH", "of the nut along the slot, across the valve")
			cli.Optional(f, &ask.Length, "length", "LENGTH", "of the valve along its travel; or an engine file")
			cli.Optional(f, &ask.Width, "width", "WIDTH", "of the valve across its travel; or an engine file")
			f.Text(&s.Play, "play", "LENGTH", `of the nut in the slot along the travel; "0.03 mm" unless given`)
			f.Text(&s.Lift, "lift", "LENGTH", `that the valve is to have; "0.5 mm" unless given`)
			f.Text(&s.Wear, "wear", "LENGTH", `by which it may come down with time; "0.3 mm" unless given`)
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) > 1 {
				return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
			}
			if len(args) == 1 {
				ask.Engine = args[0]
			}
			return pages.NutSlot(ask)
		},
	}
}
