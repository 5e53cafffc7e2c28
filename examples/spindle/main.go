// Spindle says what to set on a lathe, drill or mill: the step of the machine,
// the spindle speed with the formula worked, the cutting speed and where it is
// from, feed and minutes, and what to mind. Small taps and dies it leaves to the hand.
//
//	go run ./examples/spindle -machine "cone 720 450 280 175, back gear 6.5:1" -d "80 mm" -material "cast iron" facing
//	go run ./examples/spindle -machine 50-5000 -d "5 mm" -material brass -depth "20 mm" -motor "250 W" drilling
//	go run ./examples/spindle -d "6 mm" -material gunmetal -own "1-13x0.1 mm" reaming
//	go run ./examples/spindle -machine 50-2000 -d "10 mm" -pitch "1.5 mm" -length "12 mm" -material "mild steel" screwcutting
//	go run ./examples/spindle -machine 100-2000 -d "1.5 mm" -material "cast iron" -length "10 mm" -width "2 mm" -depth "3 mm" -teeth 2 "slot milling"
//
// It ends with 1 when something will not work or can hurt somebody, with reasons
// and remedies, and with 2, and nothing but the reason, when it was asked
// something it cannot answer.
package main

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/speeds"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.SpindleQuestion
	return cli.Program{
		Name: "spindle", Arguments: "OPERATION",
		About: "Says what to set on a lathe, drill or mill. OPERATION is one of " + names(speeds.Operations()) + ".",
		Try: []string{
			`-machine "cone 720 450 280 175, back gear 6.5:1" -d "80 mm" -material "cast iron" facing`,
			`-machine 50-5000 -d "5 mm" -material brass -depth "20 mm" -motor "250 W" drilling`,
			`-d "6 mm" -material gunmetal -own "1-13x0.1 mm" reaming`,
			`-machine 50-2000 -d "10 mm" -pitch "1.5 mm" -length "12 mm" -material "mild steel" screwcutting`,
			`-machine 100-2000 -d "1.5 mm" -material "cast iron" -length "10 mm" -width "2 mm" -depth "3 mm" -teeth 2 "slot milling"`,
		},
		Define: func(f *cli.Flags) {
			cli.Optional(f, &ask.Diameter, "d", "DIAMETER", "that governs: of the work, the bore, the rim that is faced, the drill or the cutter (required)")
			f.Text(&ask.Material, "material", "NAME", `what is cut, such as "mild steel", "cast iron, skin on", "gunmetal" or EN8 (required)`)
			f.Text(&ask.Tool, "tool", "NAME", `what cuts: HSS (unless given), carbide, "carbon steel" or "early HSS"`)
			f.Text(&ask.Machine, "machine", "SPEEDS", `of the spindle in rev/min: steps, ranges or a cone, such as "60 110 200 360", "50-2500", `+
				`"low 50-1100, high 100-2500" or "cone 720 450 280 175, back gear 6.5:1"`)
			cli.Optional(f, &ask.Own, "v", "SPEED", `the builder's own cutting speed, such as "25 m/min", in place of the published one`)
			cli.Optional(f, &ask.Running, "n", "SPEED", `that the machine runs at now, to be judged, such as "600 rev/min"`)
			cli.Optional(f, &ask.Depth, "depth", "LENGTH", "of a hole at its full diameter, or of a slot")
			cli.Optional(f, &ask.Pitch, "pitch", "LEAD", `of the thread that is screwcut, such as "1.5 mm" or "26 tpi"`)
			cli.Optional(f, &ask.Length, "length", "LENGTH", "of the cut, for the minutes; a disc that is faced has half its diameter")
			cli.Optional(f, &ask.Width, "width", "LENGTH", "of a slot that is wider than its cutter")
			cli.Optional(f, &ask.Deep, "cut", "LENGTH", "depth of cut on the radius, for the motor; of a pass in a slot")
			cli.Optional(f, &ask.Motor, "motor", "POWER", `of the motor, such as "300 W"`)
			cli.Optional(f, &ask.Centre, "centre", "LENGTH", "height of the centres over the bed or slide")
			cli.Optional(f, &ask.Reach, "reach", "LENGTH", "that a parting blade reaches")
			cli.Optional(f, &ask.Overhang, "overhang", "LENGTH", "that a tool or boring bar stands out")
			cli.Optional(f, &ask.Section, "section", "LENGTH", "height of that tool or bar")
			cli.Optional(f, &ask.Chuck, "chuck", "SPEED", `marked on the chuck, such as "2500 rev/min"`)
			cli.Optional(f, &ask.Unmarked, "unmarked", "DIAMETER", "of an iron chuck that has no speed marked on it")
			cli.Optional(f, &ask.Mass, "mass", "MASS", `of work that is set over, such as "2 kg", with -offset`)
			cli.Optional(f, &ask.Offset, "offset", "LENGTH", "from the axis to the middle of its weight")
			f.OptionalCount(&ask.Teeth, "teeth", "NUMBER", "of teeth of a milling cutter, for the minutes")
			cli.Optional(f, &ask.Wheel, "wheel", "SPEED", "the part is a flywheel in one piece, -d its rim, and will run at this speed")
			f.Text(&ask.Drills, "own", "DRILLS", `in the drawer, for the hole before a reamer or a chain of holes along a slot: "1-13x0.1 mm, #1-#60"`)
			f.Switch(&ask.Published, "published", "list every published cutting speed for the pairing")
		},
		Run: func(args []string) (b book.Book, err error) {
			if len(args) == 0 {
				return b, cli.ErrUsage("OPERATION: missing; accepted: %s", names(speeds.Operations()))
			}
			if ask.Operation, err = speeds.ParseOperation(strings.Join(args, " ")); err != nil {
				return b, err
			}
			return pages.Spindle(ask)
		},
	}
}

func names[T fmt.Stringer](all []T) string {
	var list []string
	for _, v := range all {
		list = append(list, v.String())
	}
	return strings.Join(list, ", ")
}
