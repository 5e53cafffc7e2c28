// Salvage says what may still be done to a valve gear of which parts are made
// already: turn the sheave, move the valve, take metal off, let strips in, make one
// part anew. Each cure comes with its sizes, what the gear does after it and what is
// left, the cheapest of those that put the gear right first.
//
//	go run ./examples/salvage [-json] [engine.toml]
//	go run ./examples/salvage examples/enginebook/engines/wrong-cavity.toml
//
// The key made of the engine file says which parts are there, made = ["ports",
// "valve"]; without it all of them. Without a file it takes an invented engine with
// its valve made too long, demo/long-valve.toml. It ends with 1 when the gear as it
// is can hurt somebody or will not work, and with 2, and nothing printed but the
// reason, when the file cannot be used.
//
// In JSON each of cures has its first step as part, change and amount_mm or
// amount_deg, and all of them under steps; the sizes after it under gear, all that a
// cure may alter, an eccentric rod without end and a chest not given left out; events as
// in the engine book, and those that tell its price before it under was; right; and
// severity_left, of the gravest finding left: "note" where that is only worth
// knowing, "none" where there is none. The codes of what is left stand under left.
package main

import (
	_ "embed"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

//go:embed demo/long-valve.toml
var demo []byte

func main() { program().Main() }

func program() cli.Program {
	return cli.Program{
		Name: "salvage", Arguments: "[ENGINE.TOML]",
		About: "Says what saves a valve gear of which some parts are made already, from the engine file; without one," +
			" an invented engine whose valve is too long. The file is that of enginebook.",
		Try: []string{"", "-json", "my-engine.toml"},
		Run: func(args []string) (b book.Book, err error) {
			switch {
			case len(args) > 1:
				return b, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
			case len(args) == 1:
				return pages.ReadSalvage(args[0])
			}
			return pages.SalvageFile("demo/long-valve.toml", demo)
		},
	}
}
