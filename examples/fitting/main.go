// Fitting prints what size to make both parts of a fit, in millimetres and
// thou, on the steps that a micrometer shows, and how to make it with a reamer
// and a ground bar.
//
//	go run ./examples/fitting -d "10 mm" H7/g6
//	go run ./examples/fitting -d "3/4 in" RC4
//	go run ./examples/fitting -reamers "9.5-10.5x0.01 mm" -bar h8 10H7/f7
//	go run ./examples/fitting -d "9.5 mm" -least "0.5 thou" -most "2 thou"
//
// With a wanted clearance in place of a fit it prints the fits that keep it.
// It exits with 2, and nothing but the reason, when it is used wrongly.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
)

func main() { os.Exit(cli.Run(run)) }

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
	var wanted fits.Band
	flags := flag.NewFlagSet("fitting", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.TextVar(&o.nominal, "d", units.Length{}, `nominal size, such as "10 mm" or "3/8 in"`)
	flags.TextVar(&step, "step", step, "what the micrometer shows; without it 0.01 mm and 0.1 thou")
	flags.TextVar(&o.reamers, "reamers", gauge.Set{}, `reamers that you own, such as "6 mm, 8 mm, 3/8 in"; without it one of the nominal size`)
	flags.TextVar(&o.bar, "bar", o.bar, "tolerance class of the ground or bright bar that you own")
	flags.TextVar(&wanted.Min, "least", units.Length{}, "in place of a fit: least clearance wanted, below zero for interference")
	flags.TextVar(&wanted.Max, "most", units.Length{}, "with -least: most clearance wanted")
	flags.Usage = func() {
		fmt.Fprintln(stderr, `usage: fitting [-d size] [-step step] [-reamers set] [-bar class] fit
       fitting -d size -least clearance -most clearance
The fit is one of ISO 286, such as H7/g6 or, with the size, 10H7/g6, or of ANSI B4.1, such as RC4.`)
		flags.PrintDefaults()
	}
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return 2
	}
	given := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	if given["step"] {
		o.steps = []units.Length{step}
	}
	var b strings.Builder
	var err error
	switch choose := given["least"] || given["most"]; {
	case choose && (!given["least"] || !given["most"] || flags.NArg() > 0):
		err = errors.New(`fitting: accepted: a fit, or a wanted clearance by both -least and -most`)
	case choose:
		err = o.writeChoice(&b, wanted)
	case flags.NArg() == 0:
		flags.Usage()
		return 2
	default:
		err = o.write(&b, strings.Join(flags.Args(), " "))
	}
	if err != nil {
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
		if errSized != nil && !errors.Is(errSized, units.ErrSyntax) {
			return errSized // there is a size, so the trouble is behind it
		}
		if errSized != nil {
			return fmt.Errorf("%w; or an inch fit, RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5", err)
		}
		if !o.nominal.IsZero() && o.nominal != nominal {
			return fmt.Errorf("fitting: -d says %v and the fit says %v; accepted: one size", o.nominal, nominal)
		}
		o.nominal, fit = nominal, sized
	}
	if o.nominal.IsZero() {
		return errors.New(`fitting: no size; accepted: -d "10 mm", or the size in front of the fit, 10H7/g6`)
	}
	r, err := fit.LimitsFor(o.nominal)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%s %s, %s fit\n", o.nominal, fit, r.Kind)
	writeFindings(w, r.Check())
	if p, ok := fit.Preferred(); ok {
		fmt.Fprintf(w, "a preferred fit, %s: %s\n", p.Name, p.Use)
	}
	writeParts(w, "hole "+fit.Hole.String(), "shaft "+fit.Shaft.String(), r, units.Millimetres)
	if err := o.writeMaking(w, r); err != nil {
		return err
	}
	fmt.Fprintln(w, "\nSource")
	for _, part := range []struct {
		class fits.Class
		of    fits.Limits
	}{{fit.Hole, r.Hole}, {fit.Shaft, r.Shaft}} {
		what := "tolerance" // comes first
		for ref := range part.of.Refs.All() {
			fmt.Fprintf(w, "  %s, %s: %s\n", part.class, what, ref)
			what = "deviation"
		}
	}
	return nil
}

func writeFindings(w io.Writer, list finding.List) {
	for _, f := range list {
		fmt.Fprintf(w, "%s: %s %s\n", f.Severity, f.Text, strings.Join(f.Remedies, " "))
	}
}

func (o order) writeInch(w io.Writer, fit fits.InchFit) error {
	if o.nominal.IsZero() {
		return errors.New(`fitting: no size; accepted: -d "3/4 in" in front of an inch fit`)
	}
	r, err := fit.LimitsFor(o.nominal)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%s (%s) %s, %s fit\n", o.nominal.Text(units.Inches, 4), o.nominal, fit, r.Kind)
	writeFindings(w, r.Check())
	fmt.Fprintln(w, fit.Use())
	hole, shaft := strings.TrimSpace("hole "+r.HoleSymbol), strings.TrimSpace("shaft "+r.ShaftSymbol)
	writeParts(w, hole, shaft, r.FitLimits, units.Thousandths)
	if err := o.writeMaking(w, r.FitLimits); err != nil {
		return err
	}
	fmt.Fprintln(w, "\nSource")
	for ref := range r.Refs.All() {
		fmt.Fprintf(w, "  %s\n", ref)
	}
	return nil
}

// writeParts prints the limits, rounded inward to the last place so that they
// can be worked to in either column, and the clearance in the unit of the
// standard, in which it is exact.
func writeParts(w io.Writer, hole, shaft string, r fits.FitLimits, unit units.LengthUnit) {
	fmt.Fprintln(w, "\nLimits, rounded inward to the last place")
	for _, part := range []struct {
		name   string
		limits fits.Limits
	}{{hole, r.Hole}, {shaft, r.Shaft}} {
		metric, inch := inward(part.limits, units.Millimetres), inward(part.limits, units.Thousandths)
		fmt.Fprintf(w, "  %-10s %24s %28s\n", part.name, metric, inch)
		mean := part.limits.Mean()
		fmt.Fprintf(w, "  %-10s %24s %28s\n", "  mean", mm(mean)+" mm", thou(mean))
	}
	fmt.Fprintln(w, "\n  clearance = hole - shaft; below zero it is interference")
	for _, end := range []struct {
		name                   string
		hole, shaft, clearance units.Length
	}{{"least", r.Hole.Min, r.Shaft.Max, r.Clearance.Min}, {"most", r.Hole.Max, r.Shaft.Min, r.Clearance.Max}} {
		both := mm(end.clearance) + " mm (" + thou(end.clearance) + ")"
		if unit == units.Thousandths {
			both = thou(end.clearance) + " (" + mm(end.clearance) + " mm)"
		}
		fmt.Fprintf(w, "  %-6s %s - %s = %s\n", end.name, plain(end.hole, unit), plain(end.shaft, unit), both)
	}
}

// inward prints limits to a micron, or to a tenth where a limit has one, or to
// a hundredth of a thou.
func inward(l fits.Limits, unit units.LengthUnit) string {
	places := 2
	if unit == units.Millimetres {
		places = 3
		if !wholeMicrons(l.Min) || !wholeMicrons(l.Max) {
			places = 4
		}
	}
	return l.Text(unit, places)
}

func plain(l units.Length, unit units.LengthUnit) string {
	if unit == units.Thousandths {
		return l.Decimal(unit, 2)
	}
	return mm(l)
}

// writeMaking says how to get there: limits on the steps of the micrometer, the
// reamer, and what a ground bar would do.
func (o order) writeMaking(w io.Writer, r fits.FitLimits) error {
	parts := []struct {
		name    string
		limits  fits.Limits
		feature fits.Feature
	}{{"hole", r.Hole, fits.Hole}, {"shaft", r.Shaft, fits.Shaft}}
	for _, step := range o.steps {
		unit := units.Millimetres
		if !wholeMicrons(step) {
			unit = units.Thousandths
		}
		places := placesOf(step, unit)
		fmt.Fprintf(w, "\nOn a micrometer that shows %s, rounded inward\n", step.Text(unit, places))
		for _, part := range parts {
			m, err := part.limits.RoundInward(step)
			switch {
			case errors.Is(err, units.ErrOutOfRange) && step.Sign() > 0:
				fmt.Fprintf(w, "  %-6s too coarse: no step lies within the tolerance of %s\n",
					part.name, micron(part.limits.Tolerance()))
			case err != nil:
				return err
			case m.Min == m.Max:
				fmt.Fprintf(w, "  %-6s %s and no other, all of %s lost\n", part.name, m.Min.Text(unit, places), micron(m.Lost))
			default:
				fmt.Fprintf(w, "  %-6s %s to %s, %s of %s lost\n", part.name,
					m.Min.Decimal(unit, places), m.Max.Text(unit, places), micron(m.Lost), micron(part.limits.Tolerance()))
			}
		}
	}
	fmt.Fprintln(w, "\nLimit gauges, before the gauge maker's own tolerance")
	for _, part := range parts {
		g, err := part.limits.Gauges(part.feature)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "  %-6s go %s mm (%s), not-go %s mm (%s)\n",
			part.name, mm(g.Go), thou(g.Go), mm(g.NotGo), thou(g.NotGo))
	}

	reamers := o.reamers
	if reamers.Len() == 0 {
		if o.nominal.Cmp(units.MM(100)) > 0 {
			fmt.Fprintln(w, "\nToo large for a reamer: bore the hole, and turn the shaft to suit")
			return nil
		}
		name := o.nominal.String()
		if f, err := o.nominal.NearestFraction(64); err == nil && f.Rest.IsZero() {
			name = f.String()
		}
		var err error
		if reamers, err = gauge.NewSet(gauge.Size{Name: name, Diameter: o.nominal}); err != nil {
			return err
		}
	}
	fmt.Fprintln(w, "\nBy reamer, the shaft turned to its limits")
	if err := writeReamer(w, reamers, r.Shaft, r.Clearance); err != nil {
		return err
	}
	bar, err := o.bar.LimitsFor(o.nominal)
	if err != nil {
		return err
	}
	if o.bar.Feature() != fits.Shaft {
		return fmt.Errorf("fitting: -bar %s is a class for holes; accepted: a class for shafts, such as h8", o.bar)
	}
	fmt.Fprintf(w, "By reamer, on a bar of class %s, %s, as it is\n", o.bar, inward(bar, units.Millimetres))
	return writeReamer(w, reamers, bar, r.Clearance)
}

func writeReamer(w io.Writer, reamers gauge.Set, shaft fits.Limits, wanted fits.Band) error {
	list, err := fits.Reaming{Reamers: reamers, Shaft: shaft, Clearance: wanted}.Choose()
	if err != nil {
		return err
	}
	best := list[0]
	verdict := "as wanted"
	if !best.Outside.IsZero() {
		verdict = micron(best.Outside) + " (" + thou(best.Outside) + ") outside what is wanted"
	}
	c := best.Result.Clearance
	fmt.Fprintf(w, "  %s reamer, hole H7, %s: clearance %s to %s mm (%s to %s), %s fit, %s\n",
		best.Reamer.Name, inward(best.Result.Hole, units.Millimetres),
		mm(c.Min), mm(c.Max), c.Min.Decimal(units.Thousandths, 2), thou(c.Max), best.Result.Kind, verdict)
	return nil
}

func wholeMicrons(l units.Length) bool { return l.Picometres()%units.Micron(1).Picometres() == 0 }

// placesOf returns how many decimal places show a step, four at most.
func placesOf(step units.Length, unit units.LengthUnit) int {
	places := 0
	for places < 4 && step.Picometres()*int64(math.Pow10(places))%unit.Length().Picometres() != 0 {
		places++
	}
	return places
}

// mm prints a length to a micron, or with the digits below it, down to a
// hundredth: limits in millimetres and in tenths of a thou are exact so.
func mm(l units.Length) string {
	places := 3
	for places < 5 && l.Picometres()%int64(math.Pow10(9-places)) != 0 {
		places++
	}
	return l.Decimal(units.Millimetres, places)
}

func thou(l units.Length) string { return l.Text(units.Thousandths, 2) }

func micron(l units.Length) string { return l.Text(units.Micrometres, 1) }
