// Changewheels sets up a lathe for a thread: the change wheels, exact or
// nearest, with what the nearest cost; where to close the half nuts; how deep
// to cut and how far the topslide travels for it.
//
//	go run ./examples/changewheels [-leadscrew "8 tpi"] [-wheels "20,20,25-100x5,63"] M8
//	go run ./examples/changewheels -leadscrew "3 mm" "26 tpi"
//
// It exits with 2, and nothing printed but the reason, when it cannot use what
// it is given.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"text/tabwriter"

	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
)

func main() { os.Exit(cli.Run(run)) }

// options is what the flags say.
type options struct {
	lathe   screwcut.Lathe
	wheels  string
	engaged units.Length
	dial    int
	set     units.Angle
	most    int
}

func run(args []string, stdout, stderr io.Writer) int {
	o := options{}
	flags := flag.NewFlagSet("changewheels", flag.ContinueOnError)
	flags.SetOutput(stderr)
	eight, err := screwcut.ParseLead("8 tpi")
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	flags.TextVar(&o.lathe.Leadscrew, "leadscrew", eight, `lead of the leadscrew, "8 tpi" or "3 mm"`)
	flags.StringVar(&o.wheels, "wheels", "20,20,25-100x5,38,63",
		"the wheels there are; one of which there are two is given twice")
	flags.IntVar(&o.lathe.GearedDrivers, "gear-drivers", 0, "drivers of gears that are always in the drive (0: none)")
	flags.IntVar(&o.lathe.GearedDriven, "gear-driven", 0, "driven of gears that are always in the drive (0: none)")
	flags.TextVar(&o.engaged, "engaged", units.MM(10), "length that the nut engages")
	flags.IntVar(&o.dial, "dial", 0, "teeth of the indicator's wheel on the leadscrew (0: no indicator)")
	flags.TextVar(&o.set, "set", units.Angle(0),
		"angle of the topslide from the cross-slide's line (0: half a degree under half the thread's angle)")
	flags.IntVar(&o.most, "n", 6, "trains of each kind to print")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "usage: changewheels [flags] thread or lead, such as M8, \"1/4 BSF\", \"1.5 mm\" or \"26 tpi\"")
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
	if o.most < 1 {
		fmt.Fprintf(stderr, "changewheels: -n %d; accepted: 1 train or more\n", o.most)
		return 2
	}
	if o.engaged.Sign() <= 0 {
		fmt.Fprintf(stderr, "changewheels: -engaged %v; accepted: a length above zero\n", o.engaged)
		return 2
	}
	for _, arg := range flags.Args()[1:] {
		if strings.HasPrefix(arg, "-") && len(arg) > 1 {
			fmt.Fprintf(stderr, "changewheels: %s stands behind the thread; accepted: flags first, then the thread or lead\n",
				arg)
			return 2
		}
	}
	var out strings.Builder
	if err := report(&out, o, strings.Join(flags.Args(), " ")); err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	if _, err := io.WriteString(stdout, out.String()); err != nil {
		fmt.Fprintln(stderr, "changewheels:", err)
		return 2
	}
	return 0
}

// report writes the whole page, or returns why it cannot.
func report(w io.Writer, o options, wanted string) error {
	lead, errLead := screwcut.ParseLead(wanted)
	named, errThread := thread.Parse(wanted)
	switch {
	case errLead == nil:
		named = thread.Thread{}
	case errThread == nil:
		lead = screwcut.LeadOf(named)
	default:
		return errors.Join(errThread, errLead)
	}
	var err error
	if o.lathe.Wheels, err = screwcut.ParseWheels(o.wheels); err != nil {
		return err
	}
	trains, err := o.lathe.Trains(lead)
	if err != nil {
		return err
	}

	fmt.Fprintf(w, "%s: lead %v, %s on a leadscrew of %v, %s\n", wanted, lead, lead.Length().Text(units.Millimetres, 6),
		o.lathe.Leadscrew, o.lathe.Leadscrew.Length().Text(units.Millimetres, 6))
	fmt.Fprintf(w, "drivers / driven = lead / leadscrew = %s / %s = %.8f\n", lead.Length().Decimal(units.Millimetres, 6),
		o.lathe.Leadscrew.Length().Decimal(units.Millimetres, 6), lead.Length().Ratio(o.lathe.Leadscrew.Length()))
	if o.lathe.GearedDrivers != 0 {
		fmt.Fprintf(w, "of which %d/%d is in the lathe already\n", o.lathe.GearedDrivers, o.lathe.GearedDriven)
	}
	fmt.Fprintf(w, "From the wheels %s: drivers over driven, from the spindle to the leadscrew.\n", o.wheels)
	if len(trains.Exact) > 0 {
		if err := exact(w, trains.Exact, o.most); err != nil {
			return err
		}
	} else if err := closest(w, o, named, lead, trains.Closest); err != nil {
		return err
	}
	if err := pickUp(w, o, lead, len(trains.Exact) > 0); err != nil {
		return err
	}
	if named != (thread.Thread{}) {
		if err := infeed(w, o, named); err != nil {
			return err
		}
	}
	fmt.Fprintln(w)
	for _, p := range screwcut.Precautions() {
		fmt.Fprintf(w, "%v (%v)\n", p, p.Ref)
	}
	return nil
}

func exact(w io.Writer, trains []screwcut.Train, most int) error {
	fmt.Fprintf(w, "\n%d exact, the roomiest first:\n", len(trains))
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, t := range trains[:min(most, len(trains))] {
		fmt.Fprintf(tw, "  %v", t)
		switch {
		case len(t.Drivers) == 1:
			fmt.Fprint(tw, "\twith any idler that reaches")
		default:
			for _, f := range t.Check() {
				fmt.Fprint(tw, "\t"+f.Text)
			}
		}
		fmt.Fprintln(tw)
	}
	return tw.Flush()
}

func closest(w io.Writer, o options, named thread.Thread, lead screwcut.Lead, trains []screwcut.Train) error {
	buy, err := o.lathe.WheelsToBuy(lead)
	if err != nil {
		return err
	}
	fmt.Fprintln(w, "\nNo exact train.")
	if len(buy) > 0 {
		fmt.Fprintf(w, "One more wheel would make one: %s teeth.\n", strings.Trim(fmt.Sprint(buy), "[]"))
	}
	if len(trains) == 0 {
		fmt.Fprintln(w, "Nothing comes within 2 %.")
		return nil
	}
	fmt.Fprintf(w, "Closest; error is cut less wanted, over %v and over the %v engaged:\n", units.MM(100), o.engaged)
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprint(tw, "  wheels\tcuts, mm\tover 100 mm\tengaged, um\tthou")
	if named != (thread.Thread{}) {
		fmt.Fprint(tw, "\tpitch dia., um")
	}
	fmt.Fprintln(tw)
	for _, t := range trains[:min(o.most, len(trains))] {
		off := t.ErrorOver(o.engaged)
		fmt.Fprintf(tw, "  %v\t%s\t%+.1f um\t%+.2f\t%+.3f", t, t.Cut.Decimal(units.Millimetres, 6),
			t.ErrorOver(units.MM(100)).Micron(), off.Micron(), off.Thou())
		if named != (thread.Thread{}) {
			fmt.Fprintf(tw, "\t%.2f", screwcut.PitchErrorOnDiameter(named, off).Micron())
		}
		fmt.Fprintln(tw)
	}
	return tw.Flush()
}

func pickUp(w io.Writer, o options, lead screwcut.Lead, exact bool) error {
	fmt.Fprintln(w)
	if !exact {
		fmt.Fprintln(w, "Half nuts: leave them closed and reverse the lathe; a near train never picks up.")
		return nil
	}
	p, err := screwcut.PickUpOnDial(o.lathe.Leadscrew, lead, o.dial)
	if err != nil {
		return err
	}
	switch {
	case p.Threads == 1:
		fmt.Fprintln(w, "Half nuts: close them anywhere.")
	case p.Places > 0:
		fmt.Fprintf(w, "Half nuts: close them at every %d threads of the leadscrew (%s), %d places in a turn of the dial.\n",
			p.Threads, p.Travel.Text(units.Millimetres, 3), p.Places)
	default:
		fmt.Fprintf(w,
			"Half nuts: right every %d threads of the leadscrew (%s); without a dial that shows it,"+
				" leave them closed and reverse.\n", p.Threads, p.Travel.Text(units.Millimetres, 3))
	}
	return nil
}

func infeed(w io.Writer, o options, t thread.Thread) error {
	set := o.set
	if set == 0 {
		set = t.Form().Angle()/2 - units.Degree/2
	}
	travel, err := screwcut.InfeedAlongSlide(t.Depth(), set)
	if err != nil {
		return err
	}
	sharp, err := screwcut.ToolTip{}.DepthFor(t)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\nDepth of the external thread %s (%s), with the root that the form has.\n", both(t.Depth()), t.Form())
	if _, taper := t.Taper(); taper {
		fmt.Fprintln(w, "The thread tapers 1 in 16 on the diameter: set over the tailstock or a taper attachment.")
	}
	fmt.Fprintf(w, "Topslide at %.4g degrees from the cross-slide: travel = depth / cos = %s / cos %.4g = %s\n",
		set.Degrees(), t.Depth().Decimal(units.Millimetres, 3), set.Degrees(), both(travel))
	fmt.Fprintf(w, "A sharp tool goes %s deep for the same pitch diameter.\n", both(sharp.Depth))
	fmt.Fprintf(w, "Source of the sizes: %v\n", t.Refs())
	return nil
}

func both(l units.Length) string {
	return fmt.Sprintf("%s, %s", l.Text(units.Millimetres, 3), l.Text(units.Thousandths, 1))
}
