// Holes says whether a cover goes over its studs: it lays one measured list of
// holes on another, whatever the order in which they were measured, and says
// which hole to open, by how much, or where to drill afresh.
//
//	go run ./examples/holes -stud "3 mm" [-hole "3.4 mm"] cover.csv chest.csv
//	go run ./examples/holes -bolt "1/8 in" -turn-over cover.csv flange.csv
//
// A list is comma-separated values with the columns hole, x, y and diameter, such
// as demo/cover.csv; without files it takes that and demo/chest.csv, which are
// invented. It exits with 1 when the cover does not go on as it is, with 0 when
// it goes on or no stud or bolt was given to judge by, and with 2, and nothing
// printed but the reason, when it cannot use what it is given.
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

//go:embed demo/cover.csv
var demoCover []byte

//go:embed demo/chest.csv
var demoChest []byte

func main() { os.Exit(cli.Run(run)) }

// job is what the flags say.
type job struct {
	gasket.MatchOptions
	hole        units.Length
	studLength  units.Length
	tilt        units.Angle
	coverName   string
	chestName   string
	cover       gasket.Pattern
	chest       gasket.Pattern
	secondHoles units.Length
}

func run(args []string, stdout, stderr io.Writer) int {
	var j job
	flags := flag.NewFlagSet("holes", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.TextVar(&j.Stud, "stud", units.Length{}, "largest diameter of studs or screws fixed in the second part")
	flags.TextVar(&j.Bolt, "bolt", units.Length{}, "largest diameter of loose bolts through both parts, in place of -stud")
	flags.TextVar(&j.hole, "hole", units.Length{}, "smallest diameter of the first part's holes, where its list gives none")
	flags.TextVar(&j.secondHoles, "second-hole", units.Length{}, "the same of the second part, for -bolt")
	flags.TextVar(&j.studLength, "stud-length", units.Length{}, "height of the studs where the first part sits, with -tilt")
	flags.TextVar(&j.tilt, "tilt", units.Angle(0), "how far the studs may lean")
	flags.TextVar(&j.Reach, "reach", units.Length{}, "holes further apart than this are no pair (0 mm: half the least spacing)")
	flags.BoolVar(&j.Ordered, "ordered", false, "the holes are in the same order in both lists")
	flags.BoolVar(&j.TurnOver, "turn-over", false, "the first part may also be turned over")
	flags.Usage = func() {
		fmt.Fprintln(stderr, `usage: holes [flags] [first.csv second.csv], the cover and the part it goes on
Without files it takes an invented cover and chest. A file names its columns
in the first line and has a hole a line; diameter and hole may be left out:
  hole, x mm, y mm, diameter mm
  1, -22, -16, 3.4
It exits with 1 when the cover does not go on, and with 2 when it is given
something that it cannot use.`)
		flags.PrintDefaults()
	}
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return 2
	case flags.NArg() != 0 && flags.NArg() != 2:
		fmt.Fprintf(stderr, "holes: %d files; accepted: two, the cover and the part that it goes on, or none\n", flags.NArg())
		return 2
	}
	if err := j.read(flags.Args()); err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	var out strings.Builder
	goes, err := j.report(&out)
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	if _, err := io.WriteString(stdout, out.String()); err != nil {
		fmt.Fprintln(stderr, "holes:", err)
		return 2
	}
	if !goes {
		return 1
	}
	return 0
}

// read reads the two lists and fills in the diameters that they do not give.
func (j *job) read(names []string) error {
	j.coverName, j.chestName = "demo/cover.csv", "demo/chest.csv"
	first, second := io.Reader(bytes.NewReader(demoCover)), io.Reader(bytes.NewReader(demoChest))
	if len(names) == 2 {
		j.coverName, j.chestName = names[0], names[1]
		for i, to := range []*io.Reader{&first, &second} {
			f, err := os.Open(names[i])
			if err != nil {
				return fmt.Errorf("holes: %w", err)
			}
			defer f.Close()
			*to = f
		}
	} else if j.Stud.IsZero() && j.Bolt.IsZero() {
		j.Stud = units.MM(3)
	}
	var err error
	if j.cover, err = gasket.ReadPattern(first); err != nil {
		return fmt.Errorf("%s: %w", j.coverName, err)
	}
	if j.chest, err = gasket.ReadPattern(second); err != nil {
		return fmt.Errorf("%s: %w", j.chestName, err)
	}
	fill(j.cover, j.hole)
	fill(j.chest, j.secondHoles)
	if j.Lean, err = gasket.LeanOfStud(j.studLength, j.tilt); err != nil {
		return err
	}
	if (j.studLength.IsZero()) != (j.tilt == 0) {
		return errors.New("holes: -stud-length and -tilt go together; accepted: both, or neither")
	}
	return nil
}

func fill(p gasket.Pattern, diameter units.Length) {
	for i := range p {
		if p[i].Diameter.IsZero() {
			p[i].Diameter = diameter
		}
	}
}

// report writes the whole page, or returns why it cannot. It reports whether the
// cover goes on as it is; without sizes, that there is a position at all.
func (j *job) report(w io.Writer) (bool, error) {
	m, err := gasket.Match(j.cover, j.chest, j.MatchOptions)
	if err != nil {
		return false, err
	}
	fmt.Fprintf(w, "%s, %d holes, on %s, %d\n\n", j.coverName, len(j.cover), j.chestName, len(j.chest))
	if m.Goes {
		fmt.Fprint(w, "IT GOES ON as it is.\n\n")
	}
	for _, f := range m.Findings {
		fmt.Fprint(w, cli.Fit("- "+f.String()+"\n"))
	}
	if len(m.Findings) > 0 {
		fmt.Fprintln(w)
	}
	if len(m.Positions) == 0 {
		return false, nil
	}
	best := m.Positions[0]
	j.room(w, m, best)
	over := ""
	if best.TurnedOver {
		over = ", turned over"
	}
	turn, x, y := best.Turn.Degrees(), mm(best.Shift.X), mm(best.Shift.Y)
	fmt.Fprintf(w, "\nBest position%s: turned by %.4f deg,\n  then moved by x %s, y %s\n", over, turn, x, y)
	greatest := "Greatest error, as small as it can be  "
	if m.Decided && !alikeHoles(best) {
		greatest = "Greatest error where most room is left " // at the tightest hole
	}
	fmt.Fprintf(w, "%s %s (%s)\n", greatest, mm(best.Greatest), thou(best.Greatest))
	least := best.LeastSquares
	fmt.Fprintf(w, "By least squares: greatest error        %s, rms %s\n\n", mm(least.Greatest), mm(least.RMS))
	j.table(w, best, m.Decided)
	if len(m.Positions) > 1 && m.Alike < 2 {
		next := m.Positions[1]
		fmt.Fprintf(w, "\nThe next of %d positions has a greatest error of %s.\n", len(m.Positions), mm(next.Greatest))
	}
	for i, work := range m.Work {
		size, err := gauge.Metric().AtLeast(work.Diameter)
		if err != nil || work.Do != gasket.Open {
			continue
		}
		if i == 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintf(w, "Next metric drill for hole %s: %s\n", work.Hole, size.Name)
	}
	fmt.Fprintln(w, "\nBy a rigid turn and shift in the plane, to leave the tightest hole most room")
	fmt.Fprintln(w, "(geometry). A cover with a spigot is located by that and not by its studs.")
	fmt.Fprintln(w, "Measure as finely as the room that you ask about; take the burrs off first.")
	return m.Findings.OK(), nil
}

// room shows how the room of the tightest hole and the one size for all are worked
// out.
func (j *job) room(w io.Writer, m gasket.Matching, best gasket.Position) {
	if !m.Decided {
		if !best.HoleForAll.IsZero() {
			fmt.Fprintf(w, "One size for all holes:  %s (%s)\n", mm(best.HoleForAll), thou(best.HoleForAll))
		}
		return
	}
	number := func(l units.Length) string { return l.Decimal(units.Millimetres, 3) }
	tight := best.Tightest()
	a, b := j.cover[tight.First-1], j.chest[tight.Second-1]
	off, room := mm(tight.Distance), mm(tight.Allowance)
	fmt.Fprintf(w, "Tightest: hole %s on %s, %s off with room for %s.\n", a.Name, b.Name, off, room)
	lean := ""
	if !j.Lean.IsZero() {
		lean = " - lean " + number(j.Lean)
	}
	if j.Bolt.IsZero() {
		fmt.Fprintf(w, "Room = (hole %s - stud %s)/2%s = %s\n", number(a.Diameter), number(j.Stud), lean, room)
		fmt.Fprintf(w, "One size for all holes = stud + 2 (error + lean)\n  = %s + 2 (%s + %s) = %s\n",
			number(j.Stud), number(best.Greatest), number(j.Lean), mm(best.HoleForAll))
		return
	}
	fmt.Fprintf(w, "Room = (hole %s + hole %s)/2 - bolt %s%s = %s\n",
		number(a.Diameter), number(b.Diameter), number(j.Bolt), lean, room)
	fmt.Fprintf(w, "One size for all holes of the first part: %s\n", mm(best.HoleForAll))
}

func (j *job) table(w io.Writer, best gasket.Position, decided bool) {
	fmt.Fprintf(w, "%-8s %-8s %9s %9s %9s %9s %9s\n", "hole", "goes on", "off x", "off y", "distance", "room", "hole size")
	for _, p := range best.Pairs {
		room, hole, mark := "", "", ""
		if decided {
			room = p.Allowance.Decimal(units.Millimetres, 3)
			if !p.Goes() {
				mark = "  <"
			}
		}
		if !p.Hole.IsZero() {
			hole = p.Hole.Decimal(units.Millimetres, 3)
		}
		line := fmt.Sprintf("%-8s %-8s %9s %9s %9s %9s %9s%s",
			short(j.cover[p.First-1].Name), short(j.chest[p.Second-1].Name),
			p.Off.X.Decimal(units.Millimetres, 3), p.Off.Y.Decimal(units.Millimetres, 3),
			p.Distance.Decimal(units.Millimetres, 3), room, hole, mark)
		fmt.Fprintln(w, strings.TrimRight(line, " "))
	}
	for _, number := range best.OnlyFirst {
		fmt.Fprintf(w, "%-8s -\n", short(j.cover[number-1].Name))
	}
	for _, number := range best.OnlySecond {
		fmt.Fprintf(w, "-        %s\n", short(j.chest[number-1].Name))
	}
	fmt.Fprintln(w, "All in mm: off is from the hole to its partner; hole size what the pair needs.")
}

// short returns a name cut to its column.
func short(name string) string {
	const wide = 8
	letters := []rune(name)
	if len(letters) <= wide {
		return name
	}
	return string(letters[:wide-1]) + "…"
}

// alikeHoles reports whether every pair has the same allowance.
func alikeHoles(p gasket.Position) bool {
	for _, pair := range p.Pairs {
		if pair.Allowance != p.Pairs[0].Allowance {
			return false
		}
	}
	return true
}

func mm(l units.Length) string   { return l.Text(units.Millimetres, 3) }
func thou(l units.Length) string { return l.Text(units.Thousandths, 1) }
