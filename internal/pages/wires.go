package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/wires"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A WiresQuestion asks what a screw measures over three wires.
type WiresQuestion struct {
	Thread string
	Wire   *units.Length // the best one if nil
	Class  string        // of the screw; blank: none, basic size only
	Lead   wires.LeadCorrection
	Reads  *units.Length // the micrometer over the wires; nil: nothing yet
	Step   units.Length  // what the micrometer shows
}

// Wires answers the question.
func Wires(ask WiresQuestion) (book.Book, error) {
	t, err := thread.Parse(ask.Thread)
	if err != nil {
		return book.Book{}, cli.Named("thread", err)
	}
	usable, err := wires.RangeOf(t)
	if err != nil {
		return book.Book{}, cli.Named("thread", err)
	}
	if ask.Step.Sign() <= 0 { // without a class too, where nothing is rounded to it
		return book.Book{}, cli.Named("-step", fmt.Errorf("%v: out of range; accepted: above zero", ask.Step))
	}
	set := wires.Set{Thread: t, Wire: usable.Best, Lead: ask.Lead}
	if ask.Wire != nil {
		set.Wire = *ask.Wire
	}
	basic, err := set.Measure(t.PitchDiameter())
	if err != nil {
		return book.Book{}, cli.Named("-wire", err)
	}
	b := book.Book{
		Title:       fmt.Sprintf("%v over three wires of %s", t, set.Wire.Text(units.Millimetres, 4)),
		Precautions: []finding.Precaution{measureAtRest},
	}
	var window wires.Window
	var answer []book.Value
	if ask.Class != "" {
		if window, answer, err = windowOf(set, ask.Class, ask.Step); err != nil {
			return book.Book{}, err
		}
	}
	answer = append(answer, book.Value{Key: "basic", Label: "basic size over the wires", What: book.LengthThou(basic.Over, 4, 2)})
	b.Sections = []book.Section{{Key: "over_wires", Items: []book.Item{{Values: answer}}}, {Key: "thread", Items: []book.Item{
		{Values: []book.Value{
			{Key: "thread", What: book.Word(t.String())},
			{Key: "form", What: book.Word(t.Form().String())},
			{Key: "angle", Label: fmt.Sprintf("angle of the %v form", t.Form()), What: book.Number(t.Form().Angle().Degrees(), 1, "degrees", "deg")},
			{Key: "pitch", Label: "pitch P", What: book.LengthThou(t.Pitch(), 4, 2)},
			{Key: "pitch_diameter", Label: "basic pitch diameter E", What: book.LengthThou(t.PitchDiameter(), 4, 2), Refs: t.Refs()},
			{Key: "wire", Label: "these wires W", What: book.LengthThou(set.Wire, 4, 2)},
			{Key: "best_wire", Label: "best wires", What: book.LengthThou(usable.Best, 4, 2)},
			{Key: "usable_wire", Label: "usable wires", What: book.Range(book.LengthThou(usable.Min, 4, 2), book.LengthThou(usable.Max, 4, 2))},
		}},
	}}, workingOfWires(set, basic, usable)}
	if ask.Reads != nil {
		section, err := readingOf(set, *ask.Reads, window)
		if err != nil {
			return book.Book{}, cli.Named("-reads", err)
		}
		if ask.Class != "" {
			b.Findings = window.Check(*ask.Reads)
		}
		b.Sections = append([]book.Section{section}, b.Sections...)
	}
	return b, nil
}

func windowOf(set wires.Set, class string, step units.Length) (wires.Window, []book.Value, error) {
	limits, err := set.Thread.Limits(class)
	if err == nil && !limits.External {
		err = &units.ParseError{
			What: "class", Text: class, Problem: "a nut's, and wires measure a screw", Accepted: "a class of screws", Err: units.ErrUnknown,
		}
	}
	if err != nil {
		return wires.Window{}, nil, cli.Named("-class", err)
	}
	window, err := set.Window(limits.PitchDiameter)
	if err != nil {
		return wires.Window{}, nil, cli.Named("-class", err)
	}
	low, high, err := units.RoundInward(window.Min, window.Max, step)
	if err != nil {
		return wires.Window{}, nil, cli.Named("-step", err)
	}
	between := func(low, high units.Length) book.Quantity {
		return book.Range(book.LengthThou(low, 4, 2), book.LengthThou(high, 4, 2))
	}
	return window, []book.Value{
		{Key: "class", What: book.Word(limits.Class)},
		{Key: "step", What: book.LengthThou(step, 4, 2)},
		{
			Key: "on_micrometer", Label: "on the micrometer", What: between(low, high),
			Remark: fmt.Sprintf("for a screw of %s, rounded inwards to %v", limits.Name(), step),
		},
		{Key: "window", Label: "over the wires", What: between(window.Min, window.Max)},
		{Key: "pitch_diameter", Label: "pitch diameter", What: between(limits.PitchDiameter.Min, limits.PitchDiameter.Max), Refs: limits.Refs},
	}, nil
}

// readingOf says what a reading stands for; where in the window it lies if there
// is one.
func readingOf(set wires.Set, reads units.Length, window wires.Window) (book.Section, error) {
	e, err := set.PitchDiameter(reads)
	if err != nil {
		return book.Section{}, err
	}
	off := e.Sub(set.Thread.PitchDiameter())
	values := []book.Value{
		{Key: "over_wires", Label: "the micrometer reads", What: book.LengthThou(reads, 4, 2)},
		{Key: "pitch_diameter", Label: "pitch diameter", What: book.LengthThou(e, 4, 2)},
		{
			Key: "from_basic", Label: "from the basic size",
			What: book.Signed(off.Micron(), 1, "um", "um").And(book.Signed(off.Thou(), 2, "thou", "")),
		},
	}
	if !window.Max.IsZero() && window.Contains(reads) {
		values = append(values, book.Value{
			Key: "above_least", Label: "inside, above the small end by", What: book.LengthThou(reads.Sub(window.Min), 4, 2),
		})
	}
	return book.Section{Key: "reading", Items: []book.Item{{Values: values}}}, nil
}

func workingOfWires(set wires.Set, m wires.Measurement, usable wires.Range) book.Section {
	t := set.Thread
	symbols := "M = E + W (1 + 1/sin A) - P/2 cot A"
	numbers := fmt.Sprintf("M = %s + %.4f x %s - %.4f x %s", t.PitchDiameter().Decimal(units.Millimetres, 3), m.PerWire,
		set.Wire.Decimal(units.Millimetres, 4), m.PerPitch, t.Pitch().Decimal(units.Millimetres, 4))
	switch set.Lead {
	case wires.NoLeadCorrection:
		symbols += ", the lead angle ignored"
	case wires.H28LeadCorrection:
		symbols += " + W/2 tan^2 B cos A cot A"
	case wires.HelicoidLeadCorrection:
		symbols += ", solved on the helicoid"
	}
	if set.Lead != wires.NoLeadCorrection {
		numbers += fmt.Sprintf(" + %s for the lead angle of %.2f degrees", m.ForLead.Decimal(units.Millimetres, 4), t.LeadAngle().Degrees())
	}
	return book.Section{Key: "working", Items: []book.Item{{
		Values: []book.Value{{Key: "lead_correction", What: book.Word(set.Lead.String())}},
		Formulas: []book.Formula{
			{Text: symbols, Refs: m.Refs},
			{Text: numbers + " = " + m.Over.Text(units.Millimetres, 4)},
			{Text: fmt.Sprintf("best wires = P/2 / cos A = %s / cos %.5g = %s", t.Pitch().Scale(0.5).Decimal(units.Millimetres, 4),
				t.Form().Angle().Degrees()/2, usable.Best.Text(units.Millimetres, 4))},
		},
	}}}
}
