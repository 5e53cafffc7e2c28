// Indicator says what a slide-valve engine does at work: the pressures round the turn
// as an indicator would draw them, work and power, turning moment, from where it
// starts, what it takes of air or steam, its flywheel, pipes, oil and water. Before all
// else stands what can hurt somebody and what will not work.
//
//	go run ./examples/indicator [-json] [-pressure "2 bar"] [-speed "300 rev/min"] \
//	    [-medium air|steam] [-index 1.2] [-clearance "8 %"] [-back "0 bar"] engine.toml
//
// The flags are also keys of the table [running] of the file, and win over it; what
// neither has is asked for, with what is usual, and never taken in silence. Pressures
// go in above the atmosphere and come out so and absolute. The file is that of
// enginebook, whose -demo explains every key. It ends with 1 when something can hurt
// somebody or will not work, and with 2, and nothing printed but the reason, when it
// cannot use what it was given.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.RunningQuestion
	var flags *cli.Flags
	index := 0.0
	return cli.Program{
		Name: "indicator", Arguments: "ENGINE.TOML",
		About: "Says what an engine does at work, on air or on steam: pressures, power, turning moment, from where it starts, what it" +
			" takes. The file is that of enginebook; what its table [running] lacks is given here.",
		Try: []string{"my-engine.toml", `-medium steam -index 1.135 -pressure "3 bar" my-engine.toml`},
		Define: func(f *cli.Flags) {
			flags = f
			cli.Optional(f, &ask.Pressure, "pressure", "PRESSURE", `in the steam chest, above the air, such as "2 bar"`)
			cli.Optional(f, &ask.Speed, "speed", "SPEED", `of the engine, such as "300 rev/min"`)
			cli.Optional(f, &ask.Medium, "medium", "MEDIUM", "air or steam")
			f.Number(&index, "index", "K", "of expansion: 1 as the old books have it, 1.135 for dry saturated steam, 1.3 for superheated, up to 1.4 for air")
			cli.Optional(f, &ask.Clearance, "clearance", "SHARE", `at each end, ports and passages and all, as a share of the swept volume, such as "8 %"`)
			cli.Optional(f, &ask.Back, "back", "PRESSURE", `of the exhaust, above the air: "0 bar" into the open`)
		},
		Run: func(args []string) (b book.Book, err error) {
			if flags.Given("index") {
				ask.Index = &index
			}
			if len(args) != 1 {
				return b, cli.ErrUsage("%d files; accepted: one engine file", len(args))
			}
			return pages.ReadIndicator(args[0], ask)
		},
	}
}
