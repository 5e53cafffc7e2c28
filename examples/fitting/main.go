// Fitting prints what size to make both parts of a fit, in millimetres and
// thou, on the steps that a micrometer shows, and how to make it with a reamer
// and a ground bar.
//
//	go run ./examples/fitting -d "10 mm" H7/g6
//	go run ./examples/fitting -d "3/4 in" RC4
//	go run ./examples/fitting -reamers "9.5-10.5x0.01 mm" -bar h8 10H7/f7
//
// It exits with 2, and nothing but the reason, when it is used wrongly.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// An order is what was asked for.
type order struct {
	nominal units.Length
	steps   []units.Length // of the micrometers
	reamers gauge.Set
	bar     fits.Class
}

func run(args []string, stdout, stderr io.Writer) int {
	o := order{steps: []units.Length{units.MM(0.01), units.Thou(0.1)}, bar: mustClass("h8")}
	var step units.Length
	flags := flag.NewFlagSet("fitting", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.TextVar(&o.nominal, "d", units.Length{}, `nominal size, such as "10 mm" or "3/8 in"`)
	flags.TextVar(&step, "step", step, "what the micrometer shows; without it 0.01 mm and 0.1 thou")
	flags.TextVar(&o.reamers, "reamers", gauge.Set{}, `reamers that you own, such as "6 mm, 8 mm, 3/8 in"; without it one of the nominal size`)
	flags.TextVar(&o.bar, "bar", o.bar, "tolerance class of the ground or bright bar that you own")
	flags.Usage = func() {
		fmt.Fprintln(stderr, `usage: fitting [-d size] [-step step] [-reamers set] [-bar class] fit
The fit is one of ISO 286, such as H7/g6 or, with the size, 10H7/g6, or of ANSI B4.1, such as RC4.`)
		flags.PrintDefaults()
	}
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return 2
	case flags.NArg() == 0:
		flags.Usage()
		return 2
	}
	if !step.IsZero() {
		o.steps = []units.Length{step}
	}
	var b strings.Builder
	if err := o.write(&b, strings.Join(flags.Args(), " ")); err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	if _, err := io.WriteString(stdout, b.String()); err != nil {
		fmt.Fprintln(stderr, "fitting:", err)
		return 2
	}
	return 0
}

func mustClass(s string) fits.Class {
	c, err := fits.ParseClass(s)
	if err != nil {
		panic(err)
	}
	return c
}

func (o order) write(w io.Writer, text string) error {
	if inch, err := fits.ParseInchFit(text); err == nil {
		return o.writeInch(w, inch)
	}
	fit, err := fits.ParseFit(text)
	if err != nil {
		nominal, sized, errSized := fits.ParseSizedFit(text)
		if errSized != nil {
			return err
		}
		if !o.nominal.IsZero() && o.nominal != nominal {
			return fmt.Errorf("fitting: -d says %v and the fit says %v; accepted: one size", o.nominal, nominal)
		}
		o.nominal, fit = nominal, sized
	}
	if o.nominal.IsZero() {
		return errors.New(`fitting: no size; accepted: -d "10 mm", or the size in front of the fit, 10H7/g6`)
	}
	r, err := fit.At(o.nominal)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%s %s, a %s fit\n", o.nominal, fit, r.Kind)
	use, err := preferred(fit)
	if err != nil {
		return err
	}
	if use != "" {
		fmt.Fprintf(w, "a preferred fit, %s\n", use)
	}
	o.writeParts(w, "hole "+fit.Hole.String(), "shaft "+fit.Shaft.String(), r)
	if err := o.writeMaking(w, r); err != nil {
		return err
	}
	fmt.Fprintln(w, "\nSource")
	for _, c := range []fits.Class{fit.Hole, fit.Shaft} {
		refs, err := c.Refs(o.nominal)
		if err != nil {
			return err
		}
		for i, ref := range refs {
			what := "tolerance"
			if i == 1 {
				what = "deviation"
			}
			fmt.Fprintf(w, "  %s, %s: %s\n", c, what, ref)
		}
	}
	return nil
}

// preferred returns the name and the use of a preferred fit; blank for others.
func preferred(fit fits.Fit) (string, error) {
	for _, basis := range []fits.Basis{fits.HoleBasis, fits.ShaftBasis} {
		list, err := fits.PreferredFits(basis)
		if err != nil {
			return "", err
		}
		for _, p := range list {
			if p.Fit == fit {
				return p.Name + ": " + p.Use, nil
			}
		}
	}
	return "", nil
}

func (o order) writeInch(w io.Writer, fit fits.InchFit) error {
	if o.nominal.IsZero() {
		return errors.New(`fitting: no size; accepted: -d "3/4 in" in front of an inch fit`)
	}
	r, err := fit.At(o.nominal)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%s %s, a %s fit\n%s\n", o.nominal.Text(units.Inches, 4), fit, r.Kind, fit.Use())
	o.writeParts(w, strings.TrimSpace("hole "+r.HoleSymbol), strings.TrimSpace("shaft "+r.ShaftSymbol), r.Result)
	if !r.Agrees() {
		fmt.Fprintf(w, "  the standard prints %s to %s beside these limits; trust the limits\n", thou(r.PrintedMin), thou(r.PrintedMax))
	}
	if err := o.writeMaking(w, r.Result); err != nil {
		return err
	}
	fmt.Fprintln(w, "\nSource")
	fmt.Fprintf(w, "  %s\n", r.Ref)
	if r.Note != "" {
		fmt.Fprintf(w, "  %s\n", r.Note)
	}
	return nil
}

func (o order) writeParts(w io.Writer, hole, shaft string, r fits.Result) {
	fmt.Fprintf(w, "\n  %-10s %14s %30s\n", "", "mm", "thou")
	for _, part := range []struct {
		name   string
		limits fits.Limits
	}{{hole, r.Hole}, {shaft, r.Shaft}} {
		fmt.Fprintf(w, "  %-10s %10s to %-10s %12s to %-12s\n", part.name, mm(part.limits.Min), mm(part.limits.Max), part.limits.Min.Decimal(units.Thousandths, 2), part.limits.Max.Decimal(units.Thousandths, 2))
	}
	fmt.Fprintln(w, "\n  clearance = hole - shaft; below zero it is interference")
	fmt.Fprintf(w, "  least  %s - %s = %s mm   %s\n", mm(r.Hole.Min), mm(r.Shaft.Max), mm(r.MinClearance), thou(r.MinClearance))
	fmt.Fprintf(w, "  most   %s - %s = %s mm   %s\n", mm(r.Hole.Max), mm(r.Shaft.Min), mm(r.MaxClearance), thou(r.MaxClearance))
}

// writeMaking says how to get there: limits on the steps of the micrometer, the
// reamer, and what a ground bar would do.
func (o order) writeMaking(w io.Writer, r fits.Result) error {
	parts := []struct {
		name    string
		limits  fits.Limits
		feature fits.Feature
	}{{"hole", r.Hole, fits.Hole}, {"shaft", r.Shaft, fits.Shaft}}
	for _, step := range o.steps {
		unit, places := units.Millimetres, 4
		if step.Picometres()%units.Micron(1).Picometres() != 0 {
			unit, places = units.Thousandths, 2
		}
		fmt.Fprintf(w, "\nOn a micrometer that shows %s, rounded inward\n", step.Text(unit, 2))
		for _, part := range parts {
			m, err := part.limits.RoundInward(step)
			switch {
			case errors.Is(err, units.ErrOutOfRange) && step.Sign() > 0:
				fmt.Fprintf(w, "  %-6s too coarse: no step lies within the tolerance of %s\n", part.name, micron(part.limits.Tolerance()))
			case err != nil:
				return err
			default:
				fmt.Fprintf(w, "  %-6s %s to %s, %s of %s lost\n", part.name, m.Min.Decimal(unit, places), m.Max.Text(unit, places), micron(m.Lost), micron(part.limits.Tolerance()))
			}
		}
	}
	fmt.Fprintln(w, "\nLimit gauges, before the gauge maker's own tolerance")
	for _, part := range parts {
		g, err := part.limits.Gauges(part.feature)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "  %-6s go %s mm, not-go %s mm\n", part.name, mm(g.Go), mm(g.NotGo))
	}

	reamers := o.reamers
	if reamers.Len() == 0 {
		var err error
		if reamers, err = gauge.NewSet(gauge.Size{Name: o.nominal.String(), Diameter: o.nominal}); err != nil {
			return err
		}
	}
	wanted := fits.Band{Low: r.MinClearance, High: r.MaxClearance}
	fmt.Fprintln(w, "\nBy reamer, the shaft turned to its limits")
	if err := writeReamer(w, reamers, r.Shaft, wanted); err != nil {
		return err
	}
	bar, err := o.bar.At(o.nominal)
	if err != nil {
		return err
	}
	if o.bar.Feature() != fits.Shaft {
		return fmt.Errorf("fitting: -bar %s is a class for holes; accepted: a class for shafts, such as h8", o.bar)
	}
	fmt.Fprintf(w, "By reamer, on a bar of class %s, %s to %s mm, as it is\n", o.bar, mm(bar.Min), mm(bar.Max))
	return writeReamer(w, reamers, bar, wanted)
}

func writeReamer(w io.Writer, reamers gauge.Set, shaft fits.Limits, wanted fits.Band) error {
	list, err := fits.Reaming{Reamers: reamers, Shaft: shaft, Clearance: wanted}.Choose()
	if err != nil {
		return err
	}
	best := list[0]
	verdict := "as wanted"
	if !best.Outside.IsZero() {
		verdict = micron(best.Outside) + " outside what is wanted"
	}
	fmt.Fprintf(w, "  %s reamer, hole %s to %s mm: %s to %s mm, a %s fit, %s\n", best.Reamer.Name, mm(best.Result.Hole.Min), mm(best.Result.Hole.Max), mm(best.Result.MinClearance), mm(best.Result.MaxClearance), best.Result.Kind, verdict)
	return nil
}

// mm prints a length to a micron or, where that would round it, to a tenth.
func mm(l units.Length) string {
	if l.Picometres()%units.Micron(1).Picometres() == 0 {
		return l.Decimal(units.Millimetres, 3)
	}
	return l.Decimal(units.Millimetres, 4)
}

func thou(l units.Length) string { return l.Text(units.Thousandths, 2) }

func micron(l units.Length) string { return l.Text(units.Micrometres, 1) }
