// Enginebook reads the dimensions of a slide-valve steam engine from a file and
// prints what the engine will do: laps, the events of the valve at both ends,
// lead and openings, the offset of the eccentric, fits, fasteners, machining,
// covers, and first of all whatever is wrong with it, while it can still be put
// right on paper.
//
//	go run ./examples/enginebook [-json] [engine.toml]
//	go run ./examples/enginebook -o book my-engine.toml
//	go run ./examples/enginebook -demo >my-engine.toml
//
// Without a file it takes an invented engine; the second command writes its
// file, engines/demo.toml, which explains every key; beside it are other engines,
// the one with the fewest keys first of all. It ends with 1 when something can hurt
// somebody or will not work, and with 2, and nothing printed but the reason, when
// the file cannot be used.
package main

import (
	_ "embed"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
)

//go:embed engines/demo.toml
var demo []byte

func main() { program().Main() }

func program() cli.Program {
	var flags *cli.Flags
	asFile := false
	paper := template.A4
	return cli.Program{
		Name: "enginebook", Arguments: "[ENGINE.TOML]",
		About: "Works out and checks the whole engine from its file; without one, an invented engine.",
		Try:   []string{"-demo >my-engine.toml", "my-engine.toml", "-o book my-engine.toml"},
		Define: func(f *cli.Flags) {
			flags = f
			f.Switch(&asFile, "demo", "print the file of the invented engine, which explains every key, "+
				"to put your own sizes in; with -json, -html or -o, the book of it")
			f.Booklet()
			f.Text(&paper, "paper", "SIZE", "of the sheets at true size: "+strings.Trim(fmt.Sprint(template.Papers()), "[]")+"; A4 unless given; with -o")
		},
		Run: func(args []string) (b book.Book, err error) {
			switch {
			case len(args) > 1:
				return b, cli.ErrUsage("%d files; accepted: one engine file or none, or -demo and no file", len(args))
			case asFile && len(args) > 0:
				return b, cli.ErrUsage("-demo and a file; accepted: one engine file or none, or -demo and no file")
			case asFile && !flags.Given("json") && !flags.Given("html") && !flags.Wanted(): // with one of them, the book of it
				flags.Raw(demo)
				return b, nil
			case flags.Given("paper") && !flags.Wanted():
				return b, cli.ErrUsage("-paper is for the sheets at true size; accepted: with -o")
			case flags.Wanted():
				name, text := "engines/demo.toml", demo
				if len(args) == 1 {
					name, text = args[0], nil // which is then read
				}
				b, files, left, err := pages.Booklet(name, text, paper, flags.Progress)
				flags.Beside(files...)
				flags.LeftOut(left...)
				return b, err
			case len(args) == 1:
				return pages.ReadEngine(args[0])
			}
			return pages.EngineFile("engines/demo.toml", demo)
		},
	}
}
