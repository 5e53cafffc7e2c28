// Firstrun is for an engine that is built and has not run, or does not: it tells from a
// few readings which part of the valve gear is wrong and by how much, what cures it,
// which readings to take again and which to take next, and what to try on this engine,
// in order, before it has steam.
//
//	go run ./examples/firstrun [-json] [engine.toml [readings.toml]]
//
// The readings are tables [[readings]] of the engine file, or of a file beside it, and
// what the engine does is symptoms, both explained in the file that examples/enginebook
// -demo writes. Without a file it takes an invented engine whose sheave has slipped,
// demo/slipped.toml. It ends with 1 when the engine can hurt somebody, will not work as
// it is drawn, or surely has a fault that keeps it from running; and with 2, and nothing
// printed but the reason, when it cannot use a file.
//
// In JSON verdict is the first of faults[], sure or not: fault, end, sure, odds,
// probability, amount_mm or amount_deg and its standard deviation sd_mm or sd_deg, text,
// cures[], and under also the other part where two are wrong. next is the reading to take
// next: kind, end, text; null where none is wanted. cannot_tell[] says what the readings
// cannot tell apart, measure_again[] what to read again, explained[] which faults show
// the symptoms: fault, fits, test. first_run[] is what to try: number, key, by (hand or
// air), try, see, if_not.
package main

import (
	_ "embed"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

//go:embed demo/slipped.toml
var demo []byte

func main() { program().Main() }

func program() cli.Program {
	return cli.Program{
		Name: "firstrun", Arguments: "[ENGINE.TOML [READINGS.TOML]]",
		About: "Tells from readings on a built engine which part of its valve gear is wrong, what cures it and what to read next, and" +
			" what to try before it has steam; without a file, for an invented engine.",
		Try: []string{"", "my-engine.toml", "my-engine.toml readings.toml"},
		Run: func(args []string) (book.Book, error) {
			switch len(args) {
			case 0:
				return pages.FirstRunFile("demo/slipped.toml", demo, "", nil)
			case 1:
				return pages.ReadFirstRun(args[0], "")
			case 2:
				return pages.ReadFirstRun(args[0], args[1])
			}
			return book.Book{}, cli.ErrUsage("%d files; accepted: an engine file, and one with what was read on it", len(args))
		},
	}
}
