// Spindle says what to set on a lathe, drill or mill: the cutting speed and
// where it is from, the spindle speed with the formula worked, the step of the
// machine, feed and minutes, and what to mind.
//
//	go run ./examples/spindle -machine "cone 600 355 210, back gear 6:1" -d "80 mm" -material "cast iron" facing
//
// It exits with 1 when something will not work or can hurt somebody, with reasons
// and remedies, and with 2, and nothing but the reason, when it was asked
// something it cannot answer.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

func main() { os.Exit(cli.Run(run)) }

// A question is what the command line asks.
type question struct {
	job       speeds.Job
	running   units.RotationalSpeed // what it runs at now
	speed     units.Speed           // the builder's own cutting speed
	length    units.Length
	cut       units.Length
	motor     units.Power
	chuck     units.RotationalSpeed // marked on the chuck
	unmarked  units.Length          // a chuck without a mark
	wheel     units.RotationalSpeed // of the flywheel that the part is
	drills    gauge.Set
	teeth     int
	work      holding.Work // set over on a faceplate
	published bool
}

func run(args []string, stdout, stderr io.Writer) int {
	q := question{job: speeds.Job{Tool: speeds.HSS}}
	flags := q.flags(stderr)
	switch err := flags.Parse(args); {
	case err == flag.ErrHelp:
		fmt.Fprintln(stderr, "OPERATION is one of", names(speeds.Operations()))
		flags.PrintDefaults()
		return 0
	case err != nil:
		return 2
	}
	var out bytes.Buffer
	ok, err := q.answer(&out, flags)
	if err == nil {
		_, err = stdout.Write(out.Bytes())
	}
	switch {
	case err != nil:
		fmt.Fprintln(stderr, "spindle:", err)
		return 2
	case !ok:
		return 1
	}
	return 0
}

// flags defines the flags that fill in the question.
func (q *question) flags(stderr io.Writer) *flag.FlagSet {
	flags := flag.NewFlagSet("spindle", flag.ContinueOnError)
	flags.SetOutput(stderr)
	text(flags, &q.job.Machine, "machine", `spindle speeds in rev/min: steps, ranges or a cone, such as "60 110 200 360", "50-2500", "low 50-1100, high 100-2500" or "cone 600 355 210, back gear 6:1"`)
	text(flags, &q.job.Diameter, "d", "`diameter` that governs: of the work, the bore, the rim that is faced, the drill or the cutter")
	text(flags, &q.job.Material, "material", "what is cut: `name`, such as \"mild steel\", \"cast iron, skin on\", \"gunmetal\" or EN8")
	text(flags, &q.job.Tool, "tool", "what cuts, a `name`: HSS, carbide, \"carbon steel\" or \"early HSS\"; HSS without it")
	text(flags, &q.speed, "v", "the builder's own cutting `speed`, such as \"25 m/min\", in place of the published one")
	text(flags, &q.running, "n", "a `speed` the machine runs at now, to be judged")
	text(flags, &q.job.Depth, "depth", "`depth` of a hole")
	text(flags, &q.length, "length", "`length` of the cut, for the minutes; a disc that is faced has half its diameter")
	text(flags, &q.cut, "cut", "`depth` of cut on the radius, for the motor")
	text(flags, &q.motor, "motor", "`power` of the motor, such as \"350 W\"")
	text(flags, &q.job.CentreHeight, "centre", "`height` of the centres over the bed or slide")
	text(flags, &q.job.Reach, "reach", "`length` that a parting blade reaches")
	text(flags, &q.job.Overhang, "overhang", "`length` that a tool or boring bar stands out")
	text(flags, &q.job.Section, "section", "`height` of that tool or bar")
	text(flags, &q.chuck, "chuck", "`speed` marked on the chuck")
	text(flags, &q.unmarked, "unmarked", "`diameter` of an iron chuck that has no speed marked on it")
	text(flags, &q.work.Mass, "mass", "`mass` of work that is set over, such as \"2 kg\", with -offset")
	text(flags, &q.work.Offset, "offset", "`length` from the axis to the middle of its weight")
	flags.IntVar(&q.teeth, "teeth", 0, "`number` of teeth of a milling cutter, for the minutes")
	text(flags, &q.wheel, "wheel", "the part is an iron flywheel and will run at this `speed`")
	text(flags, &q.drills, "own", "`drills` in the drawer, for the hole before a reamer: \"1-13x0.1 mm, #1-#60\"")
	flags.BoolVar(&q.published, "published", false, "list every published cutting speed for the pairing")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "usage: spindle -d DIAMETER -material NAME [flags] OPERATION; -h lists the flags")
	}
	return flags
}

// answer writes the answer, and says whether nothing in it fails or can hurt
// somebody.
func (q *question) answer(w io.Writer, flags *flag.FlagSet) (bool, error) {
	var err error
	if q.job.Operation, err = speeds.ParseOperation(strings.Join(flags.Args(), " ")); err != nil {
		return false, err
	}
	if q.job.Material.Name == "" {
		return false, fmt.Errorf("-material is missing; accepted: %s", names(speeds.Materials()))
	}
	if q.job.Diameter.IsZero() {
		return false, fmt.Errorf("-d is missing; accepted: %s, such as \"80 mm\" or \"3 1/8 in\"", q.job.Operation.GoverningDiameter())
	}
	if err := q.check(flags); err != nil {
		return false, err
	}
	if !q.unmarked.IsZero() {
		limit, err := holding.UnmarkedChuck(q.unmarked)
		if err != nil {
			return false, err
		}
		q.job.Limits = append(q.job.Limits, limit)
	}
	if q.chuck != 0 {
		limit, err := holding.MarkedChuck(q.chuck)
		if err != nil {
			return false, err
		}
		q.job.Limits = append(q.job.Limits, limit)
	}
	if q.speed != 0 {
		q.job.Min, q.job.Max = q.speed, q.speed
	}
	plan, err := q.job.Plan()
	if err != nil {
		return false, err
	}
	return q.report(w, plan)
}

// check refuses what was asked in vain: a flag that says nothing, or that the
// operation has no use for.
func (q *question) check(flags *flag.FlagSet) error {
	op := q.job.Operation
	given := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	for _, f := range []struct {
		name  string
		value float64
	}{
		{"v", float64(q.speed)}, {"n", float64(q.running)}, {"length", q.length.MM()}, {"cut", q.cut.MM()}, {"motor", float64(q.motor)},
		{"chuck", float64(q.chuck)}, {"wheel", float64(q.wheel)}, {"teeth", float64(q.teeth)}, {"depth", q.job.Depth.MM()},
		{"mass", float64(q.work.Mass)}, {"offset", q.work.Offset.MM()},
	} {
		if given[f.name] && f.value <= 0 {
			return fmt.Errorf("-%s: accepted: above zero", f.name)
		}
	}
	for _, f := range []struct {
		name string
		use  bool
		goes string
	}{
		{"depth", op == speeds.Drilling || op == speeds.Reaming, "drilling and reaming"},
		{"reach", op == speeds.Parting, "parting"},
		{"own", op == speeds.Reaming, "reaming"},
		{"teeth", op == speeds.Milling, "milling"},
		{"cut", given["motor"] && op.TurnsWork(), "turning, facing, boring or parting and -motor"},
		{"motor", op == speeds.Drilling || given["cut"], "drilling, or with -cut"},
		{"mass", given["offset"] && op.TurnsWork(), "work that turns and -offset"},
		{"offset", given["mass"], "-mass"},
	} {
		if given[f.name] && !f.use {
			return fmt.Errorf("-%s goes with %s", f.name, f.goes)
		}
	}
	return nil
}
