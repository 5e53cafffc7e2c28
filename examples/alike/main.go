// Alike tells threads apart that look alike: what may take a thread's place, from
// the taps and dies that there are, and what follows; what becomes of a screw in the
// nut of another thread; and which thread a measured screw or hole is.
//
//	go run ./examples/alike -own "metric coarse" 7 BA
//	go run ./examples/alike -in M8 5/16-18 UNC
//	go run ./examples/alike -pitch "26 tpi" -d "6.3 mm"
//	go run ./examples/alike -pitch "0.5 mm" -angle 60deg
//
// It ends with 1 when a screw does not belong in a nut, or one that is left over
// would run loose in the new thread, and with 2, and nothing printed but the reason,
// when it cannot use what it is given.
package main

import (
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.AlikeQuestion{Show: 6}
	var flags *cli.Flags
	return cli.Program{
		Name: "alike", Arguments: "THREAD",
		About: "Tells threads apart that look alike. With a thread: what may take its place, and what follows. With -in: what becomes of" +
			" a screw of that thread in the nut of another. With -pitch and no thread: which thread a specimen is.",
		Try: []string{
			`-own "metric coarse" 7 BA`,
			`-own "M2.5, M3, 5-40, 5-44" 5 BA`,
			"-in M8 5/16-18 UNC",
			`-pitch "26 tpi" -d "6.3 mm"`,
			`-pitch "10 mm in 20 turns" -angle 60deg`,
		},
		Define: func(f *cli.Flags) {
			flags = f
			f.Word(&ask.Own, "own", "THREADS", `for which you have taps and dies, series or threads, such as "metric `+
				`coarse, UNF" or "M3, 6 BA, 4-40"; every parallel series for fastening unless given`)
			f.Word(&ask.In, "in", "THREAD", "of the nut or tapped hole that the screw is tried in")
			cli.Optional(f, &ask.Pitch, "pitch", "PITCH", `of a specimen: "26 tpi", "1 mm", or the length of many threads, "10 mm in 20 turns"`)
			cli.Optional(f, &ask.Diameter, "d", "DIAMETER", `of the specimen, over the crests of a screw or in the `+
				`bore of a nut, such as "6.3 mm"; not measured unless given`)
			f.Switch(&ask.Internal, "nut", "the specimen is a nut or a tapped hole")
			cli.Optional(f, &ask.Angle, "angle", "ANGLE", "between the flanks of the specimen, by a gauge against the light, such as 55deg; not looked at unless given")
			cli.Optional(f, &ask.DiameterOff, "d-off", "LENGTH", "that the diameter may be off, either way; 0.03 mm unless given. Allow for wear here")
			cli.Optional(f, &ask.PitchOff, "pitch-off", "LENGTH", "that the pitch may be off, either way; 1 % of it unless given")
			f.Count(&ask.Show, "show", "NUMBER", "threads to show; 6 unless given")
		},
		Run: func(args []string) (book.Book, error) {
			ask.Thread = strings.Join(args, " ")
			if ask.Pitch == nil {
				for _, name := range []string{"d", "nut", "angle", "d-off", "pitch-off"} {
					if flags.Given(name) {
						return book.Book{}, cli.ErrUsage("-%s is of a specimen; accepted: with -pitch, such as -pitch \"26 tpi\"", name)
					}
				}
			}
			switch {
			case ask.Pitch != nil && (ask.Thread != "" || flags.Given("own") || flags.Given("in")):
				return book.Book{}, cli.ErrUsage("-pitch is of a specimen with no name; accepted: -pitch, or a thread")
			case ask.Pitch == nil && ask.Thread == "":
				return book.Book{}, cli.ErrUsage("wanted: a thread, such as 7 BA, or the -pitch of a specimen")
			case flags.Given("in") && flags.Given("own"):
				return book.Book{}, cli.ErrUsage("-own is for what may take a thread's place; accepted: -own or -in")
			case flags.Given("d-off") && ask.Diameter == nil:
				return book.Book{}, cli.ErrUsage("-d-off goes with a diameter; accepted: -d-off with -d")
			case flags.Given("in") && strings.TrimSpace(ask.In) == "", flags.Given("own") && strings.TrimSpace(ask.Own) == "":
				return book.Book{}, cli.ErrUsage("-in and -own name threads; accepted: such as M8")
			}
			return pages.Alike(ask)
		},
	}
}
