// Studs says how long to cut the studs of every cover of an engine file: how far they go
// into their holes, what they pass, and the nut of the standard with a turn and a half of
// thread beyond it.
//
//	go run ./examples/studs
//	go run ./examples/studs [-json] my-engine.toml
//
// Without a file it takes the covers of an invented engine, demo/engine.toml. It ends
// with 1 when a stud does not hold in its hole, and with 2, and nothing printed but the
// reason, when it cannot use the file. For one stud without a file there is
// examples/tapping with -cover.
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
	return cli.Program{
		Name: "studs", Arguments: "[ENGINE.TOML]",
		About: "Says how long to cut the studs of every cover of an engine file; without a file, of an invented engine. Each cover " +
			"needs its cover_thickness, and [[fasteners]] of its place say what its studs are screwed into.",
		Try: []string{"", "my-engine.toml"},
		Run: func(args []string) (book.Book, error) {
			switch len(args) {
			case 0:
				return pages.StudsFile("demo/engine.toml", demo)
			case 1:
				return pages.ReadStuds(args[0])
			}
			return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
		},
	}
}
