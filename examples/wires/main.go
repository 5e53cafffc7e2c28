// Wires measures a screw over three wires: which wires serve, what a screw of a
// class of fit must read over them, and what pitch diameter a reading stands
// for.
//
//	go run ./examples/wires -wire 0.8mm -class 6g -lead helicoid -reads 8.2mm M8
//	go run ./examples/wires -wire 0.0395in -class 2A "9/16-18 UNF"
//
// It ends with 1 when a reading is outside the class, and with 2, and nothing
// printed but the reason, when it cannot use what it is given.
package main

import (
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units"
)

func main() { program().Main() }

func program() cli.Program {
	ask := pages.WiresQuestion{Step: units.MM(0.01)}
	return cli.Program{
		Name: "wires", Arguments: "THREAD",
		About: `Measures a screw over three wires: which wires serve, what a screw of a class must read over them, and ` +
			`what pitch diameter a reading stands for. A thread is such as M8, "1/4 BSF" or "9/16-18 UNF".`,
		Try: []string{
			"M8",
			"-wire 0.8mm -class 6g -lead helicoid -reads 8.2mm M8",
			`-wire 0.0395in -class 2A "9/16-18 UNF"`,
		},
		Define: func(f *cli.Flags) {
			cli.Optional(f, &ask.Wire, "wire", "DIAMETER", `of the wires, such as "0.8 mm"; the best unless given`)
			f.Word(&ask.Class, "class", "CLASS", "tolerance class of the screw, such as 6g, 2A or normal; none and the basic size only unless given")
			cli.Optional(f, &ask.Reads, "reads", "LENGTH", `what the micrometer reads over the wires, such as "8.2 mm"`)
			f.Text(&ask.Step, "step", "LENGTH", "what the micrometer shows; 0.01 mm unless given. The window is rounded inwards to it")
			f.Text(&ask.Lead, "lead", "CORRECTION", "for the lead angle: none, H28 or helicoid; none unless given")
		},
		Run: func(args []string) (book.Book, error) {
			if len(args) == 0 {
				return book.Book{}, cli.ErrUsage("wanted: a thread, such as M8")
			}
			ask.Thread = strings.Join(args, " ")
			return pages.Wires(ask)
		},
	}
}
