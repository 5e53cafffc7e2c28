package pages

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// A FittingQuestion asks what size to make both parts of a fit, or which fit
// keeps a clearance.
type FittingQuestion struct {
	Fit     string        // "H7/g6", "10H7/g6", "RC4"; blank for one that keeps the clearance
	Nominal *units.Length // nil: in front of the fit
	Least   *units.Length // clearance wanted, in place of a fit; below zero interference
	Most    *units.Length
	Step    *units.Length // that the micrometer shows; nil: 0.01 mm and 0.1 thou
	Own     *gauge.Set    // reamers; nil: the one of the nominal size
	Bar     *fits.Class   // of the ground or bright bar; nil: h8

	HoleIs, ShaftIs *units.Length      // what a part that is made measures; the other is made to it
	Packing         *assembly.Packing  // of a piston, in place of a fit
	Piston          *material.Material // what it is made of; nil: cast iron
}

// Fitting answers the question.
func Fitting(ask FittingQuestion) (book.Book, error) {
	const both = "accepted: a fit, or a wanted clearance by both -least and -most"
	choose := ask.Least != nil || ask.Most != nil
	if err := ask.surplus(choose); err != nil {
		return book.Book{}, err
	}
	if ask.HoleIs != nil || ask.ShaftIs != nil || ask.Packing != nil {
		return ask.measured()
	}
	switch {
	case choose && ask.Fit != "":
		return book.Book{}, cli.ErrUsage("a fit beside -least or -most; " + both)
	case choose && (ask.Least == nil || ask.Most == nil):
		return book.Book{}, cli.ErrUsage("one of -least and -most; " + both)
	case choose && ask.Nominal == nil:
		return book.Book{}, cli.Named("-d", errors.New(`no size; accepted: "10 mm" beside the wanted clearance`))
	case choose:
		return ask.chosenFits(*ask.Nominal, fits.Band{Min: *ask.Least, Max: *ask.Most})
	case ask.Fit == "":
		return book.Book{}, cli.ErrUsage("fit: missing; accepted: H7/g6, 10H7/g6 or RC4, or -least and -most")
	}
	a, nominal, err := ask.read()
	if err != nil {
		return book.Book{}, err
	}
	b := book.Book{
		Title:    fmt.Sprintf("%s %s, %s fit", nominal, a.name, a.limits.Kind),
		Findings: a.findings, Precautions: []finding.Precaution{measureAtRest},
	}
	if a.inch {
		b.Title = fmt.Sprintf("%s (%s) %s, %s fit", nominal.Text(units.Inches, 4), nominal, a.name, a.limits.Kind)
	}
	micrometers, err := ask.micrometers(a.limits)
	if err != nil {
		return book.Book{}, cli.Named("-step", err)
	}
	gauges, err := gaugesOf(a.limits)
	if err != nil {
		return book.Book{}, err
	}
	reaming, err := ask.reaming(nominal, a.limits)
	if err != nil {
		return book.Book{}, err
	}
	limits := fitSection(nominal, a)
	if limits.Items[0].Figures, err = pictures(fitPicture("fit", "", a, fitTold{inch: a.inch, thou: 2})); err != nil {
		return book.Book{}, err
	}
	b.Sections = []book.Section{limits, micrometers}
	if onBar, ok := ask.onBarSection(nominal, a); ok {
		b.Sections = append(b.Sections, onBar)
	}
	b.Sections = append(b.Sections, reaming, gauges, workingOfFit(a))
	return b, nil
}

// surplus refuses what was given and would not be used: nothing is passed over in
// silence.
func (ask FittingQuestion) surplus(choose bool) error {
	one, both := ask.HoleIs != nil || ask.ShaftIs != nil, ask.HoleIs != nil && ask.ShaftIs != nil
	for _, f := range []struct {
		flag     string
		unused   bool
		accepted string
	}{
		{"-piston", ask.Piston != nil && ask.Packing == nil, "it with -packing"},
		{"-step", ask.Step != nil && choose && !one, "it with a fit, or with -hole or -shaft"},
		{"-step", ask.Step != nil && both, "it with a fit, or with one of -hole and -shaft"},
		{"-own", ask.Own != nil && (ask.HoleIs != nil || ask.Packing != nil), "it with a fit, with -shaft, or with -least and -most"},
		{"-bar", ask.Bar != nil && (one || ask.Packing != nil), "it with a fit, or with -least and -most; a bar that is measured is -shaft"},
	} {
		if f.unused {
			return cli.Named(f.flag, fmt.Errorf("of no use here; accepted: %s", f.accepted))
		}
	}
	for _, part := range []struct {
		flag string
		is   *units.Length
	}{{"-hole", ask.HoleIs}, {"-shaft", ask.ShaftIs}} {
		if ask.Nominal == nil || part.is == nil || ask.Nominal.Sign() <= 0 {
			continue
		}
		if part.is.Sub(*ask.Nominal).Abs().Cmp(ask.Nominal.Scale(0.1)) > 0 {
			return cli.Named(part.flag,
				fmt.Errorf("%v, and -d says %v; accepted: a size within a tenth of the nominal one", *part.is, *ask.Nominal))
		}
	}
	return nil
}

// read reads the fit, with the size in front of it or beside it.
func (ask FittingQuestion) read() (asked, units.Length, error) {
	_, errInch := fits.ParseInchFit(ask.Fit)
	_, errISO := fits.ParseFit(ask.Fit)
	if errInch == nil || errISO == nil {
		if ask.Nominal == nil {
			return asked{}, units.Length{}, cli.Named("-d",
				errors.New(`no size; accepted: "10 mm" or "3/4 in", or the size in front of a fit of ISO 286, 10H7/g6`))
		}
		a, err := askedFit(ask.Fit, *ask.Nominal)
		return a, *ask.Nominal, cli.Named("-d", err)
	}
	sized, err := fits.ParseSizedFit(ask.Fit)
	nominal := sized.Nominal
	switch {
	case errors.Is(err, units.ErrSyntax):
		return asked{}, nominal, cli.Named("fit", eitherStandard(errISO))
	case err != nil: // there is a size, so the trouble is behind it
		return asked{}, nominal, cli.Named("fit", err)
	case ask.Nominal != nil && *ask.Nominal != nominal:
		err := fmt.Errorf("%v, and the fit says %v; accepted: one size", *ask.Nominal, nominal)
		return asked{}, nominal, cli.Named("-d", err)
	}
	r, err := sized.Limits()
	return askedISO(sized.Fit, r), nominal, cli.Named("fit", err)
}

// fitSection is the answer: the limits of both parts and the clearance.
func fitSection(nominal units.Length, a asked) book.Section {
	values := []book.Value{
		{Key: "nominal", What: book.Length(nominal, 3)},
		{Key: "fit", What: book.Word(a.name)},
		{Key: "kind", What: book.Word(a.limits.Kind.String())},
	}
	values = append(values, partValues("hole", a.hole, a.limits.Hole)...)
	values = append(values, partValues("shaft", a.shaft, a.limits.Shaft)...)
	values = append(values, clearanceValue(a.limits))
	if a.use != "" {
		values = append(values, book.Value{Key: "use", Label: "use", What: book.Word(a.use)})
	}
	return book.Section{Key: "limits", Items: []book.Item{{Values: values}}}
}

// partValues are the limits of a part and the size to aim at.
func partValues(part, class string, l fits.Limits) []book.Value {
	values := []book.Value{
		{Key: part, Label: strings.TrimSpace(part + " " + class), What: sizesThou(l), Refs: l.Refs},
		{Key: part + "_mean", Label: "  mean, to aim at", What: exactly(l.Mean())},
	}
	if class != "" {
		values = append(values, book.Value{Key: part + "_class", What: book.Word(class)})
	}
	return values
}

// clearanceValue is the clearance of a fit; of one that grips a person reads the
// interference.
func clearanceValue(r fits.FitLimits) book.Value {
	c := r.Clearance
	v := book.Value{Key: "clearance", Label: "clearance", What: clearanceThou(c)}
	switch r.Kind {
	case fits.Interference:
		v.Label = "interference"
		v.What = v.What.Shown(rangeText(c.Max.Neg(), c.Min.Neg(), units.Millimetres, 3)).
			And(book.Word(rangeText(c.Max.Neg(), c.Min.Neg(), units.Thousandths, 2)))
	case fits.Transition:
		v.Remark = "below zero it grips"
	}
	return v
}

func clearanceThou(b fits.Band) book.Quantity {
	return book.Range(book.LengthThou(b.Min, 3, 2), book.LengthThou(b.Max, 3, 2))
}

// workingOfFit has the clearance at both ends with the numbers put in, in the unit
// of the standard, in which it is exact.
func workingOfFit(a asked) book.Section {
	r, formulas := a.limits, []book.Formula{{Text: "clearance = hole - shaft; below zero it is interference"}}
	for _, end := range []struct {
		name                   string
		hole, shaft, clearance units.Length
	}{{"least", r.Hole.Min, r.Shaft.Max, r.Clearance.Min}, {"most", r.Hole.Max, r.Shaft.Min, r.Clearance.Max}} {
		metric, thou := exactMM(end.clearance)+" mm", end.clearance.Text(units.Thousandths, 2)
		text := fmt.Sprintf("%s = %s - %s = %s (%s)", end.name, exactMM(end.hole), exactMM(end.shaft), metric, thou)
		if a.inch {
			text = fmt.Sprintf("%s = %s - %s = %s (%s)", end.name, end.hole.Decimal(units.Thousandths, 2),
				end.shaft.Decimal(units.Thousandths, 2), thou, metric)
		}
		formulas = append(formulas, book.Formula{Text: text})
	}
	return book.Section{Key: "working", Title: "WORKING", Items: []book.Item{{Formulas: formulas}}, Notes: []string{
		"Limits are rounded inward to the last place, so that they can be worked to in either column.",
	}}
}

// micrometers say what both parts are made to on the steps of each micrometer.
func (ask FittingQuestion) micrometers(r fits.FitLimits) (book.Section, error) {
	steps := []units.Length{units.MM(0.01), units.Thou(0.1)}
	if ask.Step != nil {
		steps = []units.Length{*ask.Step}
	}
	s := book.Section{Key: "micrometers", Title: "ON THE MICROMETER, rounded inward", List: true}
	for _, step := range steps {
		hole, err := onMicrometer("hole", r.Hole, scaleOf(step))
		if err != nil {
			return book.Section{}, err
		}
		shaft, err := onMicrometer("shaft", r.Shaft, scaleOf(step))
		if err != nil {
			return book.Section{}, err
		}
		s.Items = append(s.Items, book.Item{Title: "one that shows " + scaleOf(step).text(), Values: append(hole, shaft...)})
	}
	return s, nil
}

func gaugesOf(r fits.FitLimits) (book.Section, error) {
	item := book.Item{}
	for _, part := range []struct {
		name    string
		limits  fits.Limits
		feature fits.Feature
	}{{"hole", r.Hole, fits.Hole}, {"shaft", r.Shaft, fits.Shaft}} {
		g, err := part.limits.Gauges(part.feature)
		if err != nil {
			return book.Section{}, err
		}
		item.Values = append(item.Values,
			book.Value{Key: part.name + ".go", Label: part.name, Column: "go", What: exactly(g.Go)},
			book.Value{Key: part.name + ".not_go", Label: part.name, Column: "not-go", What: exactly(g.NotGo)})
	}
	return book.Section{
		Key: "gauges", Title: "LIMIT GAUGES, before the gauge maker's own tolerance", Items: []book.Item{item},
	}, nil
}

// reaming says what fit a reamer makes, with the shaft turned to its limits and
// with a bar as it is.
func (ask FittingQuestion) reaming(nominal units.Length, r fits.FitLimits) (book.Section, error) {
	s := book.Section{Key: "reaming", Title: "BY REAMER"}
	var reamers gauge.Set
	if ask.Own != nil {
		reamers = *ask.Own
	} else {
		one, err := fits.ReamerFor(nominal)
		if err != nil {
			s.Notes = []string{"Without one: " + cli.Explain(err) + "."}
			return s, nil
		}
		if reamers, err = gauge.NewSet(one); err != nil {
			return s, err
		}
	}
	if reamers.Len() == 0 {
		return s, cli.Named("-own", errors.New(`no reamers; accepted: one or more, such as "6 mm, 8 mm, 3/8 in"`))
	}
	class, err := fits.ParseClass("h8")
	if err != nil {
		return s, err
	}
	if ask.Bar != nil {
		class = *ask.Bar
	}
	if class == (fits.Class{}) {
		return s, cli.Named("-bar", errors.New("no class; accepted: a class for shafts, such as h8"))
	}
	bar, err := class.LimitsFor(nominal)
	if err != nil {
		return s, cli.Named("-bar", err)
	}
	if class.Feature() != fits.Shaft {
		return s, cli.Named("-bar", fmt.Errorf("%v is a class for holes; accepted: a class for shafts, such as h8", class))
	}
	if !r.Shaft.Max.IsZero() { // zero where a clearance is wanted, and no fit
		item, err := reamed("shaft_turned", "the shaft turned to its limits", reamers, r.Shaft, r.Clearance)
		if err != nil {
			return s, err
		}
		s.Items = append(s.Items, item)
	}
	title := fmt.Sprintf("on a bar of class %s, %s, as it is", class, bar.Text(units.Millimetres, micronPlaces(bar)))
	item, err := reamed("bar_as_it_is", title, reamers, bar, r.Clearance)
	s.Items = append(s.Items, item)
	return s, err
}

// reamed is the reamer that suits best, and what fit it makes on a shaft.
func reamed(key, title string, reamers gauge.Set, shaft fits.Limits, clearance fits.Band) (book.Item, error) {
	list, err := fits.Reaming{Reamers: reamers, Shaft: shaft, Clearance: clearance}.Choose()
	if err != nil {
		return book.Item{}, cli.Named("-own", err)
	}
	best := list[0]
	return book.Item{Key: key, Title: title, Values: []book.Value{
		{Key: "shaft", What: sizesThou(shaft), Refs: shaft.Refs},
		{Key: "reamer", Label: "reamer", What: book.Word(best.Reamer.Name), Refs: best.Reamer.Refs},
		{Key: "hole", Label: "hole H7", What: sizesThou(best.Result.Hole), Refs: best.Result.Hole.Refs},
		clearanceValue(best.Result),
		{Key: "kind", What: book.Word(best.Result.Kind.String())},
		outsideValue(best.Outside),
	}, Findings: best.Findings.At(title)}, nil
}

// outsideValue says how far a clearance may lie outside what is wanted.
func outsideValue(by units.Length) book.Value {
	v := book.Value{Key: "outside_wanted", Label: "that is", What: book.Number(by.Micron(), 1, "um", "um")}
	if by.IsZero() {
		v.What = v.What.Shown("as wanted")
		return v
	}
	v.Label, v.What = "outside what is wanted", v.What.And(thouOf(by))
	return v
}

// shownFits is how many fits of each standard are worth a look.
const shownFits = 3

// chosenFits ranks the fits of both standards by how well they keep a wanted
// clearance, and puts the rules of thumb beside them. For a bar that is bought the
// holes come first, as the shaft is not turned.
func (ask FittingQuestion) chosenFits(nominal units.Length, wanted fits.Band) (book.Book, error) {
	metric, err := fits.Choose(nominal, wanted, fits.HoleBasis)
	if err != nil {
		name := "-d"
		if wanted.Validate() != nil {
			name = "-least"
		}
		return book.Book{}, cli.Named(name, err)
	}
	b := book.Book{
		Title:       fmt.Sprintf("%s, clearance wanted %s", nominal, bandText(wanted)),
		Precautions: []finding.Precaution{measureAtRest},
	}
	if ask.Bar != nil {
		section, findings, err := ask.holesForBar(nominal, wanted)
		if err != nil {
			return book.Book{}, err
		}
		b.Sections, b.Findings = append(b.Sections, section), append(b.Findings, findings...)
	}
	iso := book.Section{Key: "iso_286", Title: "PREFERRED FITS OF ISO 286 on hole basis, best first", List: true}
	for i, c := range metric[:min(shownFits, len(metric))] {
		a := askedISO(c.Fit, c.Result)
		if i == 0 && ask.Bar == nil {
			b.Findings = append(b.Findings, append(c.Findings, a.findings.At(a.name)...)...)
		}
		use := book.Value{Key: "use", Label: "use", What: book.Word(a.use), Refs: c.Refs}
		item := chosenItem(a, c.Outside, use)
		if i == 0 {
			if item.Figures, err = zones("fit-iso-286", a); err != nil {
				return book.Book{}, err
			}
		}
		iso.Items = append(iso.Items, item)
	}
	b41 := book.Section{Key: "ansi_b4_1", Title: "FITS OF ANSI B4.1, best first", List: true}
	inch, err := fits.ChooseInch(nominal, wanted)
	if err != nil {
		b41.Notes = []string{"None: " + cli.Explain(err) + "."}
	}
	for i, c := range inch[:min(shownFits, len(inch))] {
		a := asked{name: c.Fit.String(), limits: c.Result.FitLimits, inch: true}
		if i == 0 && ask.Bar == nil {
			b.Findings = append(b.Findings, append(c.Findings, c.Result.Check().At(a.name)...)...)
		}
		use := book.Value{Key: "use", Label: "use", What: book.Word(c.Fit.Use())}
		item := chosenItem(a, c.Outside, use)
		if i == 0 {
			if item.Figures, err = zones("fit-ansi-b4-1", a); err != nil {
				return book.Book{}, err
			}
		}
		b41.Items = append(b41.Items, item)
	}
	b.Sections = append(b.Sections, iso, b41)
	if ask.Own != nil {
		reaming, err := ask.reaming(nominal, fits.FitLimits{Clearance: wanted})
		if err != nil {
			return book.Book{}, err
		}
		b.Sections = append(b.Sections, reaming)
	}
	topic, what := "bearing", "clearance of a bearing"
	if wanted.Max.Sign() <= 0 {
		topic, what = "press", "interference of a press fit"
	}
	rules, err := rulesOfThumb(topic, what, nominal)
	b.Sections = append(b.Sections, rules)
	return b, err
}

// holesForBar ranks the holes for a bar that is bought and left as it is.
func (ask FittingQuestion) holesForBar(nominal units.Length, wanted fits.Band) (book.Section, finding.List, error) {
	list, err := ask.Bar.ChooseHole(nominal, wanted)
	if err != nil {
		return book.Section{}, nil, cli.Named("-bar", err)
	}
	s := book.Section{Key: "on_bar", Title: fmt.Sprintf("HOLES for a bar of %v as it is bought, best first", *ask.Bar), List: true}
	var findings finding.List
	for i, c := range list[:min(shownFits, len(list))] {
		a := askedISO(c.Fit, c.Result)
		if i == 0 {
			findings = append(c.Findings, a.findings.At(a.name)...)
		}
		item := chosenItem(a, c.Outside, book.Value{Key: "use", Label: "use", What: book.Word(c.Name + ": " + c.Use), Refs: c.Refs})
		item.Values = append([]book.Value{
			{Key: "hole", Label: "hole " + a.hole, What: sizesThou(c.Result.Hole), Refs: c.Result.Hole.Refs},
			{Key: "shaft", Label: "bar " + a.shaft, What: sizesThou(c.Result.Shaft), Refs: c.Result.Shaft.Refs},
		}, item.Values...)
		if i == 0 {
			if item.Figures, err = zones("fit-on-bar", a); err != nil {
				return s, nil, err
			}
		}
		s.Items = append(s.Items, item)
	}
	return s, findings, nil
}

// zones is the picture of a fit that is the first of its kind.
func zones(key string, a asked) ([]book.Figure, error) {
	return pictures(fitPicture(key, "", a, fitTold{inch: a.inch, thou: 2}))
}

func chosenItem(a asked, outside units.Length, use book.Value) book.Item {
	verdict := outsideValue(outside)
	title := fmt.Sprintf("%s, %s fit, as wanted", a.name, a.limits.Kind)
	if !outside.IsZero() {
		title = fmt.Sprintf("%s, %s fit, %s (%s) outside", a.name, a.limits.Kind, outside.Text(units.Micrometres, 1),
			outside.Text(units.Thousandths, 2))
	}
	verdict.Label = ""
	return book.Item{Title: title, Values: []book.Value{
		{Key: "fit", What: book.Word(a.name)},
		{Key: "kind", What: book.Word(a.limits.Kind.String())},
		verdict,
		{Key: "clearance", Label: "clearance", What: clearanceThou(a.limits.Clearance), Refs: a.limits.Refs},
		use,
	}}
}

// rulesOfThumb are those that a topic of the rules has for a nominal size.
func rulesOfThumb(topic, what string, nominal units.Length) (book.Section, error) {
	rules, err := fits.RulesFor(topic)
	if err != nil {
		return book.Section{}, err
	}
	item := book.Item{}
	for _, r := range rules {
		allowance, err := r.Allowance(nominal)
		if err != nil {
			return book.Section{}, err
		}
		item.Values = append(item.Values, book.Value{
			Key: snake(r.Name), Label: "rule", What: clearanceThou(allowance), Remark: r.Name, Refs: r.Refs,
		})
	}
	return book.Section{
		Key: "rules", Title: "RULES OF THUMB for the " + what + ", which are no standard", Items: []book.Item{item},
	}, nil
}

// snake returns words as a key of JSON.
func snake(words string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(words), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	}), "_")
}

// bandText is a range of clearance in a sentence.
func bandText(b fits.Band) string {
	return rangeText(b.Min, b.Max, units.Millimetres, 3) + " (" + rangeText(b.Min, b.Max, units.Thousandths, 2) + ")"
}

func rangeText(low, high units.Length, unit units.LengthUnit, places int) string {
	if low == high {
		return low.Text(unit, places)
	}
	return low.Decimal(unit, places) + " to " + high.Text(unit, places)
}

// micronPlaces are the decimal places of limits in millimetres: to a micron, or
// to a tenth where a limit has one.
func micronPlaces(l fits.Limits) int {
	for _, end := range []units.Length{l.Min, l.Max} {
		if end.Picometres()%units.Micron(1).Picometres() != 0 {
			return 4
		}
	}
	return 3
}

// exactMM is a length to a micron, or with the digits below it, down to a
// hundredth: limits in millimetres and in tenths of a thou are exact so.
func exactMM(l units.Length) string {
	places := 3
	for places < 5 && l.Picometres()%int64(math.Pow10(9-places)) != 0 {
		places++
	}
	return l.Decimal(units.Millimetres, places)
}

// exactly is a length as [exactMM] has it, and in thou.
func exactly(l units.Length) book.Quantity {
	return book.Length(l, 3).Shown(exactMM(l) + " mm").And(thouOf(l))
}

// sizesThou are limits in millimetres and in thou, see [sizes].
func sizesThou(l fits.Limits) book.Quantity { return sizes(l, micronPlaces(l), units.Thousandths, 2) }

func thouOf(l units.Length) book.Quantity { return book.Word(l.Text(units.Thousandths, 2)) }
