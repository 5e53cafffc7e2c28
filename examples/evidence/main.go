// Evidence counts, in the source of this module, what its numbers are checked
// against and what not: numbers shipped by how they are known, figures compared by
// how independent they are, functions with an example and a published figure, and
// what the tests found of mistakes when that was last measured.
//
//	go run ./examples/evidence
//	go run ./examples/evidence -missing
//
// It ends with 2, and nothing printed but the reason, when the folder does not hold
// the source.
package main

import (
	"fmt"
	"os"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/evidence"
)

func main() { program().Main() }

func program() cli.Program {
	missing := false
	return cli.Program{
		Name: "evidence", Arguments: "[FOLDER]",
		About: "Counts, in the source of this module, what its numbers are checked against and what not. FOLDER holds the source; " +
			"the working folder unless given.",
		Try: []string{"", "-missing"},
		Define: func(f *cli.Flags) {
			f.Switch(&missing, "missing", "name the functions without an example or a word of a published figure too")
		},
		Run: func(args []string) (book.Book, error) {
			folder := "."
			if len(args) == 1 {
				folder = args[0]
			} else if len(args) > 1 {
				return book.Book{}, cli.ErrUsage("wanted: one folder at most")
			}
			if _, err := os.Stat(folder + "/testdata/sources.csv"); err != nil {
				return book.Book{}, cli.Named("FOLDER", fmt.Errorf("%s does not hold the source of this module", cli.Short(folder)))
			}
			report, err := evidence.Read(os.DirFS(folder))
			if err != nil {
				return book.Book{}, err
			}
			b := report.Book()
			if missing {
				b.Sections = append(b.Sections, book.Section{Title: "Missing", Intro: report.Missing()})
			}
			return b, nil
		},
	}
}
