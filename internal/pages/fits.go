package pages

import (
	"errors"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// Fits is the page of the engine book that says what size to make both parts of
// each joint, and what heat makes of it.
func Fits(e *engine.Engine) (*Page, error) {
	if len(e.File.Fits) == 0 {
		return nil, nil
	}
	section := book.Section{Key: "fits", Title: "FITS", List: true, Notes: []string{
		"Clearance is hole less shaft on the diameter; below zero it is interference. Sizes are those at room " +
			"temperature, 20 degrees C where the file names no other. Limits of size are rounded inward to the last place " +
			"printed, so that a part within the printed limits is within the true ones, whichever column it is measured by. " +
			"Clearances are those of the true limits, to the nearest of the last place.",
		"Of the formula for both parts hot, the product of a part that is still cold is left out.",
	}}
	var problems []error
	p := &Page{}
	for i, entry := range e.File.Fits {
		item, err := fitItem(e, i)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		section.Items = append(section.Items, item)
		p.Findings = append(p.Findings, item.Findings.At(entry.Where)...)
		section.Items[len(section.Items)-1].Findings = nil
	}
	p.Sections = []book.Section{section}
	return p, errors.Join(problems...)
}

// fitItem works one entry out.
func fitItem(e *engine.Engine, i int) (book.Item, error) {
	key := fmt.Sprintf("fits[%d]", i)
	if err := e.ValidateFit(i); err != nil {
		return book.Item{}, err
	}
	entry := e.File.Fits[i]
	j, err := jointOf(entry)
	if err != nil {
		at := ".fit"
		switch {
		case entry.Packing != nil:
			at = ".packing"
		case entry.ClearanceLeast != nil:
			at = ".clearance_least"
		}
		return book.Item{}, e.Errorf(key+at, "%v", err)
	}
	item := book.Item{
		Title: fmt.Sprintf("%s: %s (%s) %s, %s fit", entry.Where, entry.Nominal, entry.Nominal.Text(units.Inches, 4),
			j.name, j.limits.Kind),
		Values: []book.Value{
			{Key: "where", What: book.Word(entry.Where)},
			{Key: "nominal", What: book.Length(*entry.Nominal, 3)},
			{Key: "fit", What: book.Word(j.name)},
			{Key: "kind", What: book.Word(j.limits.Kind.String())},
			{Key: "hole", Label: "hole", What: sizes(j.limits.Hole, 3, units.Inches, 4), Refs: j.limits.Hole.Refs},
			{Key: "shaft", Label: "shaft", What: sizes(j.limits.Shaft, 3, units.Inches, 4), Refs: j.limits.Shaft.Refs},
		},
		Findings: j.findings,
	}
	micrometer, shows := scaleOf(units.MM(0.01)), "0.01 mm"
	if j.inch || e.Inches() { // in the unit of the standard or of the drawing
		micrometer, shows = scale{units.Thou(1), units.Inches, 3, units.Thousandths, 2}, "1 thou"
	}
	for _, part := range []struct {
		name   string
		limits fits.Limits
	}{{"hole", j.limits.Hole}, {"shaft", j.limits.Shaft}} {
		onSteps, err := onMicrometer(part.name, part.limits, micrometer)
		if err != nil {
			return book.Item{}, err
		}
		if onSteps[0].Label = ""; part.name == j.makes { // the other is on the bench card alone
			onSteps[0].Label = j.makes + ", to " + shows
		}
		item.Values = append(item.Values, onSteps...)
	}
	item.Notes = j.notes
	if entry.Bar != nil {
		item.Values = append(item.Values, book.Value{Key: "bar", Label: "bar, as bought", What: book.Word(entry.Bar.String())})
	}
	if j.rule != nil {
		item.Values = append(item.Values, book.Value{Key: "rule", Label: "rule", What: book.Word(j.rule.Name), Refs: j.rule.Refs})
	}
	if j.wanted != nil {
		item.Values = append(item.Values, book.Value{Key: "clearance_wanted", Label: "clearance wanted", What: clearanceRange(*j.wanted)})
	}
	item.Values = append(item.Values, book.Value{Key: "clearance", Label: "clearance, cold", What: clearanceRange(j.limits.Clearance)})
	if entry.HoleAt != nil {
		if err := heatItem(&item, entry, j); err != nil {
			return book.Item{}, e.Errorf(key+".hole_at", "%v", err)
		}
	}
	told := fitTold{inch: e.Inches(), mm: 3, thou: 1}
	item.Figures, err = pictures(fitPicture(fmt.Sprintf("fit-%d", i+1), entry.Where, j.asked, told))
	if err != nil {
		return book.Item{}, e.Errorf(key, "%v", err)
	}
	if j.use != "" {
		item.Values = append(item.Values, book.Value{Key: "use", Label: "use", What: book.Word(j.use)})
	}
	return item, nil
}

// A joint is a fit worked out.
type joint struct {
	asked
	room   units.Temperature // at which the parts are measured
	wanted *fits.Band        // clearance that was asked for, or that the rule of a piston asks for
	rule   *fits.Rule        // that decides a piston
	makes  string            // the part that is made to the other: "shaft", or "hole" where the shaft is bought or made
	notes  []book.Note
}

// jointOf works an entry out: its fit, or the one that is chosen for a clearance, or
// the rule of a piston; and the part that is made to its mate as that came out.
func jointOf(entry engine.Fit) (joint, error) {
	j := joint{room: units.Celsius(20), makes: "shaft"}
	if entry.Room != nil {
		j.room = *entry.Room
	}
	if entry.Bar != nil || entry.ShaftCameOut != nil {
		j.makes = "hole"
	}
	var err error
	switch {
	case entry.Packing != nil:
		err = j.piston(entry)
	case entry.ClearanceLeast != nil:
		err = j.choose(entry)
	default:
		if j.asked, err = askedFit(entry.Fit, *entry.Nominal); err == nil && entry.Bar != nil {
			err = j.onBar(entry)
		}
	}
	if err != nil || entry.Packing != nil {
		return j, err
	}
	if err := j.toMade(entry); err != nil {
		return j, err
	}
	if entry.IsPiston() {
		said, err := assembly.CheckPiston(*entry.Nominal, j.limits.Clearance)
		if err != nil {
			return j, err
		}
		j.findings = append(j.findings, said...)
	}
	return j, nil
}

// choose chooses a fit for a wanted clearance, on the bar where there is one.
func (j *joint) choose(entry engine.Fit) error {
	wanted := fits.Band{Min: *entry.ClearanceLeast, Max: *entry.ClearanceMost}
	j.wanted = &wanted
	if entry.HoleCameOut != nil || entry.ShaftCameOut != nil {
		j.limits.Clearance = wanted
		return wanted.Validate()
	}
	var choices []fits.Choice
	var err error
	if entry.Bar != nil {
		choices, err = entry.Bar.ChooseHole(*entry.Nominal, wanted)
	} else {
		choices, err = fits.Choose(*entry.Nominal, wanted, fits.HoleBasis)
	}
	if err != nil {
		return err
	}
	j.asked = askedISO(choices[0].Fit, choices[0].Result)
	j.findings = append(j.findings, choices[0].Findings...)
	return nil
}

// onBar refuses a fit whose shaft is not the bar, and names the one that is.
func (j *joint) onBar(entry engine.Fit) error {
	fit, err := fits.ParseFit(entry.Fit)
	if err != nil {
		return fmt.Errorf("%s is no fit of ISO 286, and the shaft is bar of %v; accepted: a fit such as F8/h6", entry.Fit, *entry.Bar)
	}
	want, err := fit.OnBar(*entry.Bar)
	if err == nil && want != fit {
		err = fmt.Errorf("%v turns the shaft, and it is bar of %v as it is bought; accepted: %v, on shaft basis", fit, *entry.Bar, want)
	}
	if err == nil && fit.Hole.String()[0] != 'H' {
		j.notes = append(j.notes, book.Note{Text: fmt.Sprintf("The shaft is bar of %v as it is bought, so the hole is made to suit: "+
			"no reamer of the nominal size makes %v. Bore it, or lap a reamed hole out.", *entry.Bar, fit.Hole)})
	}
	return err
}

// toMade makes the one part to the other as that came out.
func (j *joint) toMade(entry engine.Fit) error {
	part, came := fits.Hole, entry.HoleCameOut
	if entry.ShaftCameOut != nil {
		part, came = fits.Shaft, entry.ShaftCameOut
	}
	if came == nil {
		return nil
	}
	r, err := fits.Exact(*came).MakeMate(part, j.limits.Clearance)
	if err != nil {
		return err
	}
	r.Refs = j.limits.Refs
	j.limits, j.name = r, strings.TrimSpace(fmt.Sprintf("%s made to the %v of %v", j.name, part, *came))
	return nil
}

// boreClass is what boring and honing on a lathe holds, from which limits of a
// piston follow before the bore is measured.
const boreClass = "H8"

// piston lets the rule of practice for its packing decide the clearance.
func (j *joint) piston(entry engine.Fit) error {
	metal := material.Iron
	if entry.ShaftMaterial != nil {
		metal = entry.ShaftMaterial.Family
	}
	rule, err := assembly.PistonRule(*entry.Nominal, *entry.Packing, metal)
	if err != nil {
		return err
	}
	band, err := rule.Allowance(*entry.Nominal)
	if err != nil {
		return err
	}
	class, err := fits.ParseClass(boreClass)
	if err != nil {
		return err
	}
	bore, err := class.LimitsFor(*entry.Nominal)
	if err != nil {
		return err
	}
	j.name = "for " + entry.Packing.String()
	switch {
	case entry.HoleCameOut != nil:
		bore = fits.Exact(*entry.HoleCameOut)
	case bore.Tolerance().Cmp(band.Max.Sub(band.Min)) >= 0:
		bore = fits.Exact(*entry.Nominal)
	default:
		j.name = boreClass + " " + j.name
	}
	if j.limits, err = bore.MakeMate(fits.Hole, band); err != nil {
		return err
	}
	j.wanted, j.rule = &band, &rule
	j.notes = append(j.notes, book.Note{Text: fmt.Sprintf("Bore first and measure: the piston is the bore as it came out less %s to %s (%s to %s).",
		band.Min.Decimal(units.Millimetres, 3), band.Max.Text(units.Millimetres, 3),
		band.Min.Decimal(units.Thousandths, 1), band.Max.Text(units.Thousandths, 1))})
	return nil
}

// heatItem adds what the working temperatures make of the clearance.
func heatItem(item *book.Item, entry engine.Fit, j joint) error {
	running := assembly.Running{
		Diameter: *entry.Nominal, Fit: j.limits, Inner: *entry.ShaftMaterial, Outer: *entry.HoleMaterial,
		Room: j.room, InnerHot: *entry.ShaftAt, OuterHot: *entry.HoleAt,
	}
	if entry.HotLeast != nil {
		running.Least = *entry.HotLeast
	}
	r, err := running.Solve()
	if err != nil {
		return err
	}
	item.Findings = append(item.Findings, r.Findings...)
	item.Values = append(item.Values,
		book.Value{Key: "clearance_both_hot", Label: "both hot", What: clearanceRange(r.BothHot)},
		book.Value{Key: "clearance_shaft_hot", Label: "shaft hot, hole cold", What: clearanceRange(r.InnerOnly)},
		book.Value{Key: "clearance_hole_hot", Label: "hole hot, shaft cold", What: clearanceRange(r.OuterOnly)},
	)
	shaft, hole := entry.ShaftMaterial.Expansion, entry.HoleMaterial.Expansion
	shaftRise, holeRise := entry.ShaftAt.Sub(j.room), entry.HoleAt.Sub(j.room)
	item.Values = append(item.Values, heatedValues("shaft_heated", *entry.ShaftMaterial, shaftRise)...)
	item.Values = append(item.Values, heatedValues("hole_heated", *entry.HoleMaterial, holeRise)...)
	item.Formulas = append(item.Formulas,
		worked(source.Of(shaft.Refs.First(), hole.Refs.First()), func(in ruler) string {
			grows := func(a units.Expansivity, rise units.TemperatureDifference) string {
				if in.inch {
					perF := float64(a) * units.FahrenheitDifference.In(units.KelvinDifference) * 1e6
					return fmt.Sprintf("%.2f millionths per degF x %.0f degF", perF, rise.In(units.FahrenheitDifference))
				}
				return fmt.Sprintf("%v x %.0f K", a, rise.In(units.KelvinDifference))
			}
			return fmt.Sprintf("least, both hot = c - d (alpha_shaft dT_shaft - alpha_hole dT_hole) = %s - %s x (%s - %s) = %s",
				in.text(j.limits.Clearance.Min, 3), in.exact(*entry.Nominal),
				grows(shaft.Value, shaftRise), grows(hole.Value, holeRise), in.text(r.BothHot.Min, 3))
		}))
	return nil
}

// heatedValues say what a part is made of and how much it warms up.
func heatedValues(key string, m material.Material, rise units.TemperatureDifference) []book.Value {
	return []book.Value{
		{Key: key + ".material", What: book.Word(m.Name)},
		{Key: key + ".rise", What: book.Number(rise.In(units.KelvinDifference), 0, "K", "k")},
		{Key: key + ".expansion", What: book.Number(float64(m.Expansion.Value), 0, "1/K", "per_k"), Refs: source.Of(m.Expansion.Refs.First())},
	}
}
