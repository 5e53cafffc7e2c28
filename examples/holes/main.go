// Holes says whether a cover goes over its studs: it lays one measured list of
// holes on another, whatever the order in which they were measured, and says
// which hole to open, by how much, or where to drill afresh.
//
//	go run ./examples/holes
//	go run ./examples/holes -stud "2.75 mm" -stud-length "25 mm" -tilt "0.5 deg"
//	go run ./examples/holes -stud "3 mm" -hole "3.4 mm" cover.csv chest.csv
//	go run ./examples/holes -bolt "1/8 in" -turn-over cover.csv flange.csv
//
// A list is comma-separated values with the columns hole, x, y and diameter, such
// as demo/cover.csv; without files it takes that and demo/chest.csv, which are
// invented. It ends with 1 when the cover does not go on as it is, with 0 when
// it goes on or no stud or bolt was given to judge by, and with 2, and nothing
// printed but the reason, when it cannot use what it is given.
package main

import (
	_ "embed"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/pages"
	"github.com/valvechest/valvechest/units"
)

//go:embed demo/cover.csv
var demoCover []byte

//go:embed demo/chest.csv
var demoChest []byte

const largestList = 16 << 20 // bytes

func main() { program().Main() }

func program() cli.Program {
	ask := pages.HolesQuestion{
		Cover: pages.HoleList{Name: "demo/cover.csv", Text: demoCover}, Chest: pages.HoleList{Name: "demo/chest.csv", Text: demoChest},
	}
	return cli.Program{
		Name: "holes", Arguments: "[FIRST.CSV SECOND.CSV]",
		About: `Says whether a cover goes over the studs of the part that it goes on. Without files it takes an ` +
			`invented cover and chest, with studs of 3 mm. A file names its columns in the first line, such as ` +
			`"hole, x mm, y mm, diameter mm", and has a hole a line, such as "1, -22, -16, 3.4"; hole and ` +
			`diameter may be left out.`,
		Try: []string{
			"",
			`-stud "2.75 mm" -stud-length "25 mm" -tilt "0.5 deg"`,
			`-stud "3 mm" -hole "3.4 mm" cover.csv chest.csv`,
			`-bolt "1/8 in" -turn-over cover.csv flange.csv`,
		},
		Define: func(f *cli.Flags) {
			f.FirstUnit(&ask.Inch)
			cli.Optional(f, &ask.Stud, "stud", "DIAMETER", `the largest of studs or screws fixed in the second part, such as "3 mm"`)
			cli.Optional(f, &ask.Bolt, "bolt", "DIAMETER", "the largest of loose bolts through both parts, in place of -stud")
			cli.Optional(f, &ask.Hole, "hole", "DIAMETER", "the smallest of the first part's holes, where its list gives none")
			cli.Optional(f, &ask.SecondHole, "second-hole", "DIAMETER", "the same of the second part, for -bolt")
			cli.Optional(f, &ask.StudLength, "stud-length", "HEIGHT", "of the studs where the first part sits, with -tilt")
			cli.Optional(f, &ask.Tilt, "tilt", "ANGLE", `how far the studs may lean, such as "0.5 deg", with -stud-length`)
			cli.Optional(f, &ask.Within, "within", "DISTANCE", "holes farther apart than this are no pair; half the least spacing unless given")
			f.Switch(&ask.Ordered, "ordered", "the holes are in the same order in both lists")
			f.Switch(&ask.TurnOver, "turn-over", "the first part may also be turned over")
		},
		Run: func(args []string) (b book.Book, err error) {
			switch {
			case len(args) != 0 && len(args) != 2:
				return b, cli.ErrUsage("number of files %d; accepted: two, the cover and the part that it goes on, or none", len(args))
			case len(args) == 0 && ask.Stud == nil && ask.Bolt == nil:
				stud := units.MM(3)
				ask.Stud = &stud
			}
			for i, name := range args {
				list := []*pages.HoleList{&ask.Cover, &ask.Chest}[i]
				list.Name = name
				if list.Text, err = cli.ReadFile(name, largestList); err != nil {
					return b, err
				}
			}
			return pages.Holes(ask)
		},
	}
}
