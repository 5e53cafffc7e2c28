// Keys says what keeps a hub on a small shaft: the key of the standards and what is
// measured over its seats, a taper pin with its drill, the dimple or the flat under a
// grub screw.
//
//	go run ./examples/keys -d "8 mm"
//	go run ./examples/keys -d "6 mm" -hub "14 mm" -screw M3
//	go run ./examples/keys -d "1/2 in" -hub "1 in"
//
// It ends with 2, and nothing printed but the reason, when it cannot use what it is
// given.
package main

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

func main() { program().Main() }

func program() cli.Program {
	var ask pages.KeysQuestion
	return cli.Program{
		Name: "keys",
		About: "Says what keeps a hub from turning on a small shaft: a key, a taper pin, a grub screw in a dimple or on a flat. " +
			"What a press fit or adhesive holds is asked of shrink and bond.",
		Try: []string{
			`-d "8 mm"`,
			`-d "6 mm" -hub "14 mm" -screw M3`,
			`-d "1/2 in" -hub "1 in"`,
		},
		Define: func(f *cli.Flags) {
			f.Must(&ask.Shaft, "d", "DIAMETER", `of the shaft, such as "6 mm" or "3/8 in"`)
			cli.Optional(f, &ask.Hub, "hub", "DIAMETER", "of the hub where a taper pin goes through")
			f.Word(&ask.Screw, "screw", "SIZE", "of a grub screw with a cup point, such as M3")
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) > 0 {
				return book.Book{}, cli.ErrUsage("%d arguments; accepted: flags alone", len(args))
			}
			return pages.Keys(ask)
		},
	}
}
