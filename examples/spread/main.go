// Spread says what the tolerances of a valve gear do: which size to hold first, the
// limits beyond which no engine lies and what makes them, how the events of engines
// drawn at random spread and how often something is wrong with one, where the spread
// is from, the widest tolerances that keep what is wanted, and what a step of each size
// and lap does: of 0.01 mm or, where the file is in inches, of a thou; the JSON has both.
// It reads an engine file with a table [tolerances].
//
//	go run ./examples/spread [-json] [-runs 100000] [-seed 1] [engine.toml]
//
// Without a file it takes an invented engine, demo/engine.toml. Every key is explained
// in the file that examples/enginebook -demo writes. The same seed draws the same
// engines. It ends with 1 when something is wrong with the gear as drawn, and with 2,
// and nothing but the reason, when the file cannot be used.
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
	ask := pages.SpreadQuestion{Runs: 100_000, Seed: 1}
	return cli.Program{
		Name: "spread", Arguments: "[ENGINE.TOML]",
		About: "Says what the tolerances of an engine file do to its valve gear, which size to hold first, and how wide each may " +
			"be; without a file, for an invented engine.",
		Try: []string{"", "my-engine.toml", "-runs 1000000 -seed 7 my-engine.toml"},
		Define: func(f *cli.Flags) {
			f.Count(&ask.Runs, "runs", "COUNT", "of engines drawn at random, up to 1,000,000; 100,000 unless given")
			f.Count(&ask.Seed, "seed", "NUMBER", "from which they are drawn, a whole number; the same draws the same; 1 unless given")
		},
		Run: func(args []string) (book.Book, error) {
			switch len(args) {
			case 0:
				return pages.SpreadFile("demo/engine.toml", demo, ask)
			case 1:
				return pages.ReadSpread(args[0], ask)
			}
			return book.Book{}, cli.ErrUsage("%d files; accepted: one engine file or none", len(args))
		},
	}
}
