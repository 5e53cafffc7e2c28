// Tapping picks the drill for a tapped hole from the drills that somebody owns,
// and says what each choice does to the thread and the tap.
//
//	go run ./examples/tapping -own "1-6x0.1 mm" M3
//	go run ./examples/tapping -own "#1-#60, 1/16-1/2x1/64 in" -material brass 1/4-20
//	go run ./examples/tapping -blind "6 mm" -tap second M3
//
// It exits with 1 when none of the drills suits, and with 2, and nothing printed
// but the reason, when it cannot use what it is given.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

func main() { os.Exit(cli.Run(run)) }

// options is what the flags say.
type options struct {
	own      gauge.Set
	depth    float64
	basis    thread.Basis
	material string
	blind    units.Length
	tap      thread.Tap
}

func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("tapping", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.TextVar(&o.own, "own", gauge.Set{},
		`drills that you own, such as "1-6x0.1 mm, #1-#60, 1/16-1/2x1/64 in" (blank: the metric drills of BS 328)`)
	o.depth = 0.75
	flags.Func("depth", `share of a full thread that is wanted, such as 0.7 or "70 %" (default 0.75)`,
		func(s string) (err error) {
			o.depth, err = parseShare(s)
			return err
		})
	flags.TextVar(&o.basis, "basis", thread.FullDepth,
		`what a full thread is: "full depth", "internal height" or "three-quarter height"`)
	flags.StringVar(&o.material, "material", "",
		"what is tapped, such as brass or silver steel; takes the place of -depth and -basis")
	flags.TextVar(&o.blind, "blind", units.Length{},
		"length of full thread wanted in a blind hole (0 mm: the hole goes through)")
	flags.TextVar(&o.tap, "tap", thread.SecondTap, "last tap into a blind hole: taper, second or bottoming")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "usage: tapping [flags] thread, such as M3, \"2 BA\" or \"1/4 x 40\"")
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
	if err := misplacedFlag(flags.Args()); err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	set := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { set[f.Name] = true })
	if set["material"] && (set["depth"] || set["basis"]) {
		fmt.Fprintln(stderr, "tapping: -material brings its own depth; give it or -depth and -basis")
		return 2
	}
	var out strings.Builder
	good, err := report(&out, o, strings.Join(flags.Args(), " "))
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	if _, err := io.WriteString(stdout, out.String()); err != nil {
		fmt.Fprintln(stderr, "tapping:", err)
		return 2
	}
	if !good {
		return 1
	}
	return 0
}

// parseShare reads a share, or per cent with their sign.
func parseShare(s string) (float64, error) {
	number, perCent := strings.CutSuffix(strings.TrimSpace(s), "%")
	share, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err != nil {
		return 0, fmt.Errorf("tapping: not a number; accepted: a share above 0 and up to 1, such as 0.75, or \"75 %%\"")
	}
	if perCent {
		share /= 100
	}
	return share, nil
}

// misplacedFlag complains of a flag that stands behind the thread, where it
// would be taken for a part of the name.
func misplacedFlag(args []string) error {
	for _, arg := range args[1:] {
		if strings.HasPrefix(arg, "-") && len(arg) > 1 {
			return fmt.Errorf("tapping: %s stands behind the thread; accepted: flags first, then the thread", arg)
		}
	}
	return nil
}

// report writes the whole page, or returns why it cannot. It reports false when
// no drill suits.
func report(w io.Writer, o options, designation string) (bool, error) {
	t, err := thread.Parse(designation)
	if err != nil {
		return false, err
	}
	fmt.Fprintf(w, "%v, %v form: major diameter %s, pitch %s, minor diameter of the nut %s\n", t, t.Form(),
		both(t.Major()), both(t.Pitch()), both(t.Minor()))
	fmt.Fprintf(w, "  size: %v\n\n", t.Refs())

	if _, taper := t.Taper(); taper {
		if len(t.ChartDrills()) == 0 {
			return false, fmt.Errorf("tapping: a taper thread has no one depth in a drilled hole, and we have no chart for %v",
				t)
		}
		fmt.Fprintln(w, "A taper thread has no one depth in a drilled hole: the charts give its drill.")
		return true, charts(w, t)
	}
	name, own := "Your drills", o.own
	if own.Len() == 0 {
		name, own = "Metric drills of BS 328", gauge.Metric()
	}
	depth := thread.TapDepth{Share: o.depth, Basis: o.basis}
	if o.material != "" {
		m, err := material.Lookup(o.material)
		if err != nil {
			return false, err
		}
		depth = thread.TapDepth{Material: m}
	}
	plan, err := t.PlanDrill(own, depth)
	if err != nil {
		return false, err
	}
	if o.material == "" {
		formula(w, o, t, plan)
	} else if err := advice(w, t, depth.Material, plan); err != nil {
		return false, err
	}
	drills(w, name, plan)
	for _, class := range []string{"6H", "2B", "nut", "medium nut", "7H", "2G nut"} {
		if l, err := t.Limits(class); err == nil {
			fmt.Fprintf(w, "\nClass %s allows a hole from %s to %s\n  tolerances: %v\n", class, both(l.Minor.Min),
				both(l.Minor.Max), l.Refs)
			break
		}
	}
	if err := charts(w, t); err != nil {
		return false, err
	}
	if f, err := t.FormingHole(0.65); err == nil {
		fmt.Fprintf(w,
			"\nA forming tap needs another hole: D - 0.68 x 0.65 p = %s, or D - 0.42 p (0.49 p over 0.8 mm) = %s\n  %v\n",
			both(f.ByDepth), both(f.ByPitch), f.Refs)
	}
	if !o.blind.IsZero() {
		h, err := t.BlindHole(o.blind, o.tap)
		if err != nil {
			return false, err
		}
		fmt.Fprintf(w,
			"\nBlind hole: thread + lead of the %v tap + one pitch for chips = %s + %s + %s = %s,"+
				" without the point of the drill\n  %v\n",
			o.tap, millimetres(h.Thread), millimetres(h.Lead), millimetres(h.ChipRoom), both(h.Depth), h.Refs)
	}
	fmt.Fprintln(w, "\nUsual cautions (common practice)")
	for _, c := range t.TappingPrecautions(!o.blind.IsZero()) {
		fmt.Fprintln(w, "  -", c)
	}
	return len(plan.Findings) == 0, nil
}

// advice prints the depth that a material calls for, and its hole.
func advice(w io.Writer, t thread.Thread, m material.Material, plan thread.DrillPlan) error {
	advice, err := thread.AdvisedDepthFor(m)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "In %v: %s of the three-quarter height\n  %v\n", m, percent(advice.Min, advice.Max), plan.Refs)
	fmt.Fprintf(w, "Hole = D - share x 1.2990 p = %s - %.3g x 1.2990 x %s = %s\n", t.Major().Decimal(units.Millimetres, 3),
		t.Major().Sub(plan.Hole).Ratio(t.Pitch())/1.2990381057, t.Pitch().Decimal(units.Millimetres, 4), both(plan.Hole))
	return nil
}

// formula prints the hole for the wanted depth with the numbers put in, and what
// the same hole is on the other bases.
func formula(w io.Writer, o options, t thread.Thread, plan thread.DrillPlan) {
	k := t.Major().Sub(plan.Hole).Ratio(t.Pitch()) / o.depth
	fmt.Fprintf(w, "Hole = D - share x k x p = %s - %.4g x %.4f x %s = %s, k for the %v\n",
		t.Major().Decimal(units.Millimetres, 3), o.depth, k, t.Pitch().Decimal(units.Millimetres, 4),
		both(plan.Hole), o.basis)
	fmt.Fprintf(w, "  %v\n", plan.Refs)
	for _, other := range thread.Bases() {
		if share, err := t.ConvertDepth(o.depth, o.basis, other); err == nil && other != o.basis {
			fmt.Fprintf(w, "  the same hole is %.1f %% of the %v\n", 100*share, other)
		}
	}
}

// drills prints what the drills there are do, and which to buy where none suits.
func drills(w io.Writer, name string, plan thread.DrillPlan) {
	if len(plan.Choices) > 0 {
		fmt.Fprintf(w, "\n%s, the best first, depth as a share of the %v\n", name, plan.Choices[0].Basis)
	}
	for i, c := range plan.Choices {
		fmt.Fprintf(w, "  %d. %-10s %-22s %5.1f %%  %s\n", i+1, c.Drill, both(c.Drill.Diameter), 100*c.Depth, c.Verdict())
		for _, f := range c.Findings {
			fmt.Fprintf(w, "     %s\n", f.Text)
		}
		if i == 0 && c.Suits() {
			fmt.Fprintf(w, "     %.1f %% of the full depth, from %.0f to %.0f %%\n", 100*c.Full, 100*c.Min, 100*c.Max)
		}
	}
	if len(plan.Choices) > 0 {
		fmt.Fprintln(w, "  (a drill cuts over its size, and the depth is then less)")
	}
	for _, f := range plan.Findings {
		fmt.Fprintln(w, strings.Join(append([]string{"None of them suits."}, f.Remedies...), " "))
	}
}

// charts prints what the charts of the trade recommend, and judges it.
func charts(w io.Writer, t thread.Thread) error {
	list := t.ChartDrills()
	if len(list) == 0 {
		return nil
	}
	fmt.Fprintln(w, "\nWhat charts say")
	for _, c := range list {
		for _, d := range c.Tapping {
			if _, taper := t.Taper(); taper {
				fmt.Fprintf(w, "  %-10s %s\n", d, both(d.Diameter))
				continue
			}
			choice, err := t.CheckTappingDrill(d, thread.FullDepth)
			if err != nil {
				return err
			}
			fmt.Fprintf(w, "  %-10s %-22s %5.1f %% of the full depth, %s\n", d, both(d.Diameter), 100*choice.Depth,
				choice.Verdict())
		}
		fmt.Fprintf(w, "    %v\n", c.Refs)
	}
	return nil
}

func percent(low, high float64) string {
	if low == high {
		return fmt.Sprintf("%.0f %%", 100*high)
	}
	return fmt.Sprintf("%.0f to %.0f %%", 100*low, 100*high)
}

func millimetres(l units.Length) string { return l.Text(units.Millimetres, 3) }

// both prints a length in millimetres and in thousandths of an inch.
func both(l units.Length) string {
	return fmt.Sprintf("%s (%s)", millimetres(l), l.Text(units.Thousandths, 1))
}
