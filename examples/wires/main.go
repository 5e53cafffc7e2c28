// Wires measures a screw over three wires: which wires serve, what a screw of a
// class of fit must read over them, and what pitch diameter a reading stands
// for.
//
//	go run ./examples/wires [-wire 0.8mm] [-class 6g] [-lead helicoid] [-reads 8.2mm] M8
//	go run ./examples/wires -wire 0.0395in -class 2A "9/16-18 UNF"
//
// It exits with 1 when a reading is outside the class, and with 2, and nothing
// printed but the reason, when it cannot use what it is given.
package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"

	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/wires"
	"github.com/valvechest/valvechest/units"
)

func main() { os.Exit(cli.Run(run)) }

// options is what the flags say.
type options struct {
	wire  units.Length
	class string
	lead  wires.LeadCorrection
	reads units.Length
	step  units.Length
}

func run(args []string, stdout, stderr io.Writer) int {
	o := options{}
	flags := flag.NewFlagSet("wires", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.TextVar(&o.wire, "wire", units.Length{}, "diameter of the wires (0 mm: the best wire)")
	flags.StringVar(&o.class, "class", "",
		`tolerance class of the screw, such as 6g, 2A or normal (blank: none, basic size only)`)
	flags.TextVar(&o.lead, "lead", wires.NoLeadCorrection, "correction for the lead angle: none, H28 or helicoid")
	flags.TextVar(&o.reads, "reads", units.Length{}, "what the micrometer reads over the wires (0 mm: nothing yet)")
	flags.TextVar(&o.step, "step", units.MM(0.01), "what the micrometer shows; the window is rounded inwards to it")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "usage: wires [flags] thread, such as M8, \"1/4 BSF\" or \"9/16-18 UNF\"")
		flags.PrintDefaults()
	}
	switch err := flags.Parse(args); {
	case err == flag.ErrHelp:
		return 0
	case err != nil:
		return 2
	case flags.NArg() == 0:
		flags.Usage()
		return 2
	}
	for _, arg := range flags.Args()[1:] {
		if strings.HasPrefix(arg, "-") && len(arg) > 1 {
			fmt.Fprintf(stderr, "wires: %s stands behind the thread; accepted: flags first, then the thread\n", arg)
			return 2
		}
	}
	var out strings.Builder
	good, err := report(&out, o, strings.Join(flags.Args(), " "))
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	if _, err := io.WriteString(stdout, out.String()); err != nil {
		fmt.Fprintln(stderr, "wires:", err)
		return 2
	}
	if !good {
		return 1
	}
	return 0
}

// report writes the whole page, or returns why it cannot. It reports false when
// the reading is outside the class.
func report(w io.Writer, o options, designation string) (bool, error) {
	t, err := thread.Parse(designation)
	if err != nil {
		return false, err
	}
	usable, err := wires.RangeOf(t)
	if err != nil {
		return false, err
	}
	if o.wire.IsZero() {
		o.wire = usable.Best
	}
	set := wires.Set{Thread: t, Wire: o.wire, Lead: o.lead}
	over, err := set.Over(t.PitchDiameter())
	if err != nil {
		return false, err
	}
	fmt.Fprintf(w, "%v, %v form of %.4g degrees, pitch %s\n", t, t.Form(), t.Form().Angle().Degrees(),
		t.Pitch().Text(units.Millimetres, 4))
	fmt.Fprintf(w, "Best wire P/2 / cos A = %s / cos %.5g = %s\n", t.Pitch().Scale(0.5).Decimal(units.Millimetres, 4),
		t.Form().Angle().Degrees()/2, both(usable.Best))
	fmt.Fprintf(w, "Usable    %s to %s\n\n", both(usable.Min), both(usable.Max))

	half := t.Form().Angle().Radians() / 2
	fmt.Fprintln(w, "M = E + W (1 + 1/sin A) - P/2 cot A"+map[wires.LeadCorrection]string{
		wires.NoLeadCorrection:       ", the lead angle ignored",
		wires.H28LeadCorrection:      " + W/2 tan^2 B cos A cot A",
		wires.HelicoidLeadCorrection: ", solved on the helicoid",
	}[o.lead])
	fmt.Fprintf(w, "  = %s + %.4f x %s - %.4f x %s", t.PitchDiameter().Decimal(units.Millimetres, 3), 1+1/math.Sin(half),
		o.wire.Decimal(units.Millimetres, 4), 0.5/math.Tan(half), t.Pitch().Decimal(units.Millimetres, 4))
	if o.lead != wires.NoLeadCorrection {
		fmt.Fprintf(w, " and the lead angle of %.2f degrees", t.LeadAngle().Degrees())
	}
	fmt.Fprintf(w, "\n  = %s for the basic pitch diameter\n", both(over))
	fmt.Fprintln(w, "  "+map[wires.LeadCorrection]string{
		wires.NoLeadCorrection: "geometry of a ring-shaped groove, checked in print for 60 degrees" +
			" (Machinery's Handbook, 31st edition, p. 2130)",
		wires.H28LeadCorrection: "geometry, with the term of FED-STD-H28 as Machinery's Handbook, 31st edition," +
			" p. 2127 names it",
		wires.HelicoidLeadCorrection: "derived here; Machinery's Handbook, 31st edition, p. 2136 agrees" +
			" for a steep Acme thread",
	}[o.lead])

	good := true
	if o.class != "" {
		limits, err := t.Limits(o.class)
		if err != nil {
			return false, err
		}
		if !limits.External {
			return false, fmt.Errorf("wires: class %s of %v is a nut's; wires measure a screw", o.class, t)
		}
		if good, err = window(w, o, set, limits); err != nil {
			return false, err
		}
	}
	if !o.reads.IsZero() {
		e, err := set.PitchDiameter(o.reads)
		if err != nil {
			return false, err
		}
		fmt.Fprintf(w, "\nReading   %s: pitch diameter %s, %+.1f um from the basic size\n", both(o.reads), both(e),
			e.Sub(t.PitchDiameter()).Micron())
	}
	fmt.Fprintf(w, "\nSource of the sizes: %v\n", t.Refs())
	return good, nil
}

// window writes the window of the class, and reports whether the reading, if
// there is one, lies in it.
func window(w io.Writer, o options, set wires.Set, limits thread.Limits) (bool, error) {
	win, err := set.Window(limits.PitchDiameter)
	if err != nil {
		return false, err
	}
	fmt.Fprintf(w, "\nClass %s: pitch diameter %s to %s\n", o.class, both(limits.PitchDiameter.Min),
		both(limits.PitchDiameter.Max))
	fmt.Fprintf(w, "Over the wires  %s to %s\n", both(win.Min), both(win.Max))
	low, high, err := units.RoundInward(win.Min, win.Max, o.step)
	if err != nil {
		return false, err
	}
	fmt.Fprintf(w, "On the micrometer, rounded inwards to %v:  %s to %s\n", o.step, both(low), both(high))
	fmt.Fprintf(w, "Limits: %v\n", limits.Refs)
	if o.reads.IsZero() {
		return true, nil
	}
	said := win.Check(o.reads)
	for _, f := range said {
		fmt.Fprintln(w, strings.Join(append([]string{f.Text}, f.Remedies...), " "))
	}
	if len(said) == 0 {
		fmt.Fprintf(w, "The reading is inside, %s from the small end.\n", both(o.reads.Sub(win.Min)))
	}
	return said.OK(), nil
}

func both(l units.Length) string {
	return fmt.Sprintf("%s (%s)", l.Text(units.Millimetres, 4), l.Text(units.Thousandths, 2))
}
