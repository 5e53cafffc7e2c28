// Design finds the valve gear that does what is wanted of it: cut-off, lead, the
// opening or the travel, compression or exhaust lap, equal leads or cut-offs. It
// reads an engine file with a table [wanted] and prints the gear to make, in sizes
// that can be held, and the exact one beside it, what both do at both ends of the
// cylinder, what is wrong with them, and the lines to put into the engine file.
//
//	go run ./examples/design [-json] [engine.toml]
//
// Without a file it takes an invented engine, demo/engine.toml. Every key is
// explained in the file that examples/enginebook -demo writes; what is to be found
// may be missing, and ports that are not given are made to suit. It ends with 1 when
// something will not work, and with 2, and nothing but the reason, when no gear does
// what is wanted, with the nearest that one does.
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
		Name: "design", Arguments: "[ENGINE.TOML]",
		About: "Finds the ports, the valve and the eccentric for a wanted cut-off, lead and opening from an engine file with a " +
			"table [wanted]; without one, for an invented engine.",
		Try: []string{"", "my-engine.toml"},
		Run: func(args []string) (book.Book, error) {
			switch len(args) {
			case 0:
				return pages.DesignFile("demo/engine.toml", demo)
			case 1:
				return pages.ReadDesign(args[0])
			}
			return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
		},
	}
}
