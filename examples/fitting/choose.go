package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// shown is how many fits of each standard are worth a look.
const shown = 3

// writeChoice ranks the fits of both standards by how well they keep a wanted
// clearance, and puts the rules of thumb beside them.
func (o order) writeChoice(w io.Writer, wanted fits.Band) error {
	if o.nominal.IsZero() {
		return errors.New(`fitting: no size; accepted: -d "10 mm" beside the wanted clearance`)
	}
	metric, err := fits.Choose(o.nominal, wanted, fits.HoleBasis)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%s, clearance wanted %s\n", o.nominal, span(wanted))

	var refs source.Refs
	fmt.Fprintln(w, "\nPreferred fits of ISO 286 on hole basis, best first")
	for _, c := range metric[:min(shown, len(metric))] {
		writeChosen(w, c.Fit.String(), c.Result, c.Outside, c.Name+": "+c.Use)
		refs = refs.With(c.Refs, c.Result.Refs)
	}
	if inch, err := fits.ChooseInch(o.nominal, wanted); err == nil {
		fmt.Fprintln(w, "\nFits of ANSI B4.1, best first")
		for _, c := range inch[:min(shown, len(inch))] {
			use := c.Fit.Use()
			if c.Result.Refs.Recalled() {
				use += "; limits FROM MEMORY"
			}
			writeChosen(w, c.Fit.String(), c.Result.FitLimits, c.Outside, use)
			refs = refs.With(c.Result.Refs)
		}
	} else {
		fmt.Fprintf(w, "\nNo fit of ANSI B4.1: %v\n", err)
	}

	topic, what := "bearing", "clearance of a bearing"
	if wanted.Max.Sign() <= 0 {
		topic, what = "press", "interference of a press fit"
	}
	rules, err := fits.RulesFor(topic)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\nRules of thumb for the %s, which are no standard\n", what)
	for _, r := range rules {
		allowance, err := r.Allowance(o.nominal)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "  %s: %s\n", r.Name, span(allowance))
		refs = refs.With(r.Refs)
	}
	fmt.Fprintln(w, "\nSource")
	for r := range refs.All() {
		fmt.Fprintf(w, "  %s\n", r)
	}
	return nil
}

func writeChosen(w io.Writer, name string, r fits.FitLimits, outside units.Length, use string) {
	verdict := "as wanted"
	if !outside.IsZero() {
		verdict = micron(outside) + " (" + thou(outside) + ") outside"
	}
	fmt.Fprintf(w, "  %-8s %s, %s fit, %s\n           %s\n", name, span(r.Clearance), r.Kind, verdict, use)
}

// span prints a range of clearance, to the nearest of the last place.
func span(b fits.Band) string {
	if b.Min == b.Max {
		return b.Min.Text(units.Millimetres, 3) + " (" + thou(b.Min) + ")"
	}
	return b.Min.Decimal(units.Millimetres, 3) + " to " + b.Max.Text(units.Millimetres, 3) +
		" (" + b.Min.Decimal(units.Thousandths, 2) + " to " + thou(b.Max) + ")"
}
