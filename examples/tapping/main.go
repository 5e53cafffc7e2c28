// Tapping picks the drill for a tapped hole from the drills that somebody owns,
// and says what each choice does to the thread and the tap.
//
//	go run ./examples/tapping -own "1-6x0.1 mm" M3
//	go run ./examples/tapping -own "#1-#60, 1/16-1/2x1/64 in" -material brass 1/4-20
//	go run ./examples/tapping -blind "6 mm" -tap second M3
//	go run ./examples/tapping -hole "7 mm" -tap bottoming -material "cast iron" M3
//	go run ./examples/tapping -hole "7 mm" -tap bottoming -metal "9 mm" -spot M3
//	go run ./examples/tapping -die M3
//	go run ./examples/tapping -cover "3 mm" -gasket "0.25 mm" -material gunmetal M3
//
// It ends with 1 when none of the drills suits, and with 2, and nothing printed
// but the reason, when it cannot use what it is given.
package main

import (
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/thread"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.TappingQuestion{Share: 0.75, Basis: thread.FullDepth, Tap: thread.SecondTap}
	var flags *cli.Flags
	return cli.Program{
		Name: "tapping", Arguments: "THREAD",
		About: `Picks the drill for a tapped hole from the drills that you own, and says what each choice does to the ` +
			`thread and the tap. A thread is such as M3, "2 BA", 1/4-20 or "1/4 x 40".`,
		Try: []string{
			`-own "1-6x0.1 mm" M3`,
			`-own "#1-#60, 1/16-1/2x1/64 in" -material brass 1/4-20`,
			`-blind "6 mm" -tap second M3`,
			`-hole "7 mm" -tap bottoming -material "cast iron" M3`,
			`-hole "7 mm" -tap bottoming -metal "9 mm" -spot M3`,
			"-die M3",
			`-cover "3 mm" -gasket "0.25 mm" -material gunmetal M3`,
		},
		Define: func(f *cli.Flags) {
			flags = f
			f.Text(&ask.Own, "own", "DRILLS", `that you own, such as "1-6x0.1 mm, #1-#60, 1/16-1/2x1/64 in"; the metric drills of BS 328 unless given`)
			cli.Optional(f, &ask.Material, "material", "MATERIAL", "that is tapped, such as brass or silver steel; takes the place of -share and -basis")
			f.Share(&ask.Share, "share", "SHARE", `of a full thread that is wanted, such as 0.7 or "70 %"; 0.75 unless given`)
			f.Text(&ask.Basis, "basis", "BASIS", `what a full thread is: "full depth" (so unless given), "internal height" or "three-quarter height"`)
			cli.Optional(f, &ask.Blind, "blind", "LENGTH", `of full thread in a blind hole, such as "6 mm"; the hole goes through unless given`)
			cli.Optional(f, &ask.Hole, "hole", "DEPTH", `of a blind hole that there is, to its full diameter, such as "7 mm": how much thread it holds`)
			cli.Optional(f, &ask.Metal, "metal", "THICKNESS", "from the mouth of a blind hole to the port or bore below it: what the drill's point leaves")
			f.Text(&ask.Tap, "tap", "TAP", "the last one into a blind hole: taper, second (so unless given) or bottoming")
			f.Word(&ask.Clear, "clear", "DRILL", `for the clearance hole, to be judged, such as "#34"`)
			cli.Optional(f, &ask.Cover, "cover", "THICKNESS", "that a stud passes, with its washer: how long to cut the stud")
			cli.Optional(f, &ask.Gasket, "gasket", "THICKNESS", "under the cover; none unless given")
			cli.Optional(f, &ask.Nut, "nut", "HEIGHT", "of the nut on the stud; that of the standard unless given")
			cli.Optional(f, &ask.Engaged, "engaged", "LENGTH", "of the stud in its hole; by the rule for -material unless given")
			f.Switch(&ask.Die, "die", "a die cuts the thread: which diameter the rod is turned to first, and no hole")
			f.Switch(&ask.Spot, "spot", "the holes are carried over from the cover: which drill follows which")
			f.Switch(&ask.Broken, "broken", "a tap broke in the hole: what is tried, in -material")
		},
		Run: func(args []string) (book.Book, error) {
			switch {
			case len(args) == 0:
				return book.Book{}, cli.ErrUsage("wanted: a thread, such as M3")
			case ask.Die && (ask.Spot || ask.Broken || ask.Blind != nil || ask.Hole != nil || ask.Cover != nil ||
				flags.Given("own")):
				return book.Book{}, cli.ErrUsage("-die is for the thread of a rod; accepted: -die without the flags of a hole or a stud")
			case ask.Material != nil && (flags.Given("share") || flags.Given("basis")):
				return book.Book{}, cli.ErrUsage("-material brings its own depth; accepted: -material, or -share and -basis")
			case ask.Blind != nil && ask.Hole != nil:
				return book.Book{}, cli.ErrUsage("-blind is the thread wanted and -hole the hole there is; accepted: one of them")
			case flags.Given("tap") && ask.Blind == nil && ask.Hole == nil:
				return book.Book{}, cli.ErrUsage("-tap is the last one into a blind hole; accepted: -tap with -blind or -hole")
			case ask.Metal != nil && ask.Blind == nil && ask.Hole == nil:
				return book.Book{}, cli.ErrUsage("-metal is what a blind hole is drilled in; accepted: -metal with -blind or -hole")
			case ask.Cover == nil && (ask.Gasket != nil || ask.Nut != nil || ask.Engaged != nil):
				return book.Book{}, cli.ErrUsage("-gasket, -nut and -engaged belong to a stud; accepted: with -cover")
			case ask.Broken && ask.Material == nil:
				return book.Book{}, cli.ErrUsage("-broken asks for the metal that the tap is in; accepted: -broken with -material")
			}
			ask.Thread = strings.Join(args, " ")
			return pages.Tapping(ask)
		},
	}
}
