package pages

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// measured answers with what the parts came out at: both of them, or one to which
// the other is made.
func (ask FittingQuestion) measured() (book.Book, error) {
	if ask.HoleIs != nil && ask.ShaftIs != nil {
		return ask.bothMade(*ask.HoleIs, *ask.ShaftIs)
	}
	band, name, refs, err := ask.wantedBand()
	if err != nil {
		return book.Book{}, err
	}
	part, came, flag := fits.Hole, ask.HoleIs, "-hole"
	switch {
	case ask.ShaftIs != nil:
		part, came, flag = fits.Shaft, ask.ShaftIs, "-shaft"
	case came == nil: // a piston whose bore is not made yet
		came, flag = ask.Nominal, "-d"
	}
	r, err := fits.Exact(*came).MakeMate(part, band)
	if err != nil {
		return book.Book{}, cli.Named(flag, err)
	}
	clearance := clearanceValue(r)
	clearance.Refs = refs.Refs
	mate, limits := fits.Shaft, r.Shaft
	if part == fits.Shaft {
		mate, limits = fits.Hole, r.Hole
	}
	micrometers := book.Section{Key: "micrometers", Title: "ON THE MICROMETER, rounded inward", List: true}
	steps := []units.Length{units.MM(0.01), units.Thou(0.1)}
	if ask.Step != nil {
		steps = []units.Length{*ask.Step}
	}
	for _, step := range steps {
		values, err := onMicrometer(mate.String(), limits, scaleOf(step))
		if err != nil {
			return book.Book{}, cli.Named("-step", err)
		}
		micrometers.Items = append(micrometers.Items, book.Item{Title: "one that shows " + scaleOf(step).text(), Values: values})
	}
	b := book.Book{
		Title:    fmt.Sprintf("%v of %s as it came out, %v made to it for %s", part, cameText(*came), mate, name),
		Findings: r.Check(), Precautions: []finding.Precaution{measureAtRest},
		Sections: []book.Section{{Key: "limits", Items: []book.Item{{Values: []book.Value{
			{Key: mate.String(), Label: mate.String(), What: sizesThou(limits)},
			{Key: mate.String() + "_mean", Label: "  mean, to aim at", What: exactly(limits.Mean())},
			{Key: part.String(), Label: part.String() + ", measured", What: exactly(*came)},
			clearance,
			{Key: "kind", What: book.Word(r.Kind.String())},
		}}}}, micrometers},
	}
	where := fmt.Sprintf("%v as it came out, and its mate", part)
	if b.Sections[0].Items[0].Figures, err = pictures(fitPicture("fit", strings.ToUpper(where[:1])+where[1:],
		asked{name: name, limits: r}, fitTold{thou: 2})); err != nil {
		return book.Book{}, err
	}
	if ask.Own != nil {
		item, err := reamed("shaft_as_it_is", "on the shaft as it is", *ask.Own, r.Shaft, band)
		if err != nil {
			return book.Book{}, err
		}
		b.Sections = append(b.Sections, book.Section{Key: "reaming", Title: "BY REAMER", Items: []book.Item{item}})
	}
	return b, nil
}

// cameText is a measured size in a sentence: in inches too where it is no whole
// number of microns.
func cameText(l units.Length) string {
	if l.Picometres()%units.Micron(1).Picometres() == 0 {
		return l.String()
	}
	return l.Text(units.Inches, 4) + " (" + exactMM(l) + " mm)"
}

// wantedBand is the clearance that the part is made to: of a fit, of a piston's
// packing, or as it was given.
func (ask FittingQuestion) wantedBand() (fits.Band, string, fits.Rule, error) {
	var none fits.Rule
	nominal := ask.Nominal
	if nominal == nil {
		nominal = ask.HoleIs
	}
	if nominal == nil {
		nominal = ask.ShaftIs
	}
	switch {
	case ask.Packing != nil && (ask.Fit != "" || ask.Least != nil || ask.Most != nil ||
		ask.ShaftIs != nil && ask.HoleIs == nil):
		return fits.Band{}, "", none, cli.Named("-packing", errors.New("beside a fit, -least, -most or -shaft; accepted: -d or -hole, and -packing"))
	case ask.Packing != nil && nominal == nil:
		return fits.Band{}, "", none, cli.Named("-d", errors.New(`no bore; accepted: "20 mm", or -hole with what it measures`))
	case ask.Packing != nil:
		metal := material.Iron
		if ask.Piston != nil {
			metal = ask.Piston.Family
		}
		rule, err := assembly.PistonRule(*nominal, *ask.Packing, metal)
		if err != nil {
			return fits.Band{}, "", none, cli.Named("-packing", err)
		}
		band, err := rule.Allowance(*nominal)
		return band, "the rule " + rule.Name, rule, err
	case ask.Fit != "":
		a, _, err := ask.read()
		return a.limits.Clearance, a.name, fits.Rule{Refs: a.limits.Refs}, err
	case ask.Least == nil || ask.Most == nil:
		return fits.Band{}, "", none, cli.ErrUsage("a part that is made, and no clearance; accepted: a fit, -least and -most, or -packing")
	}
	band := fits.Band{Min: *ask.Least, Max: *ask.Most}
	if err := band.Validate(); err != nil {
		return band, "", none, cli.Named("-least", err)
	}
	return band, "a clearance of " + bandText(band), none, nil
}

// bothMade says what two parts that are made do to each other, and whether that is
// what was wanted.
func (ask FittingQuestion) bothMade(hole, shaft units.Length) (book.Book, error) {
	r, err := fits.Measured(hole, shaft)
	if err != nil {
		name := "-hole"
		if hole.Sign() > 0 {
			name = "-shaft"
		}
		return book.Book{}, cli.Named(name, err)
	}
	what, size := "clearance", r.Clearance
	if r.Kind == fits.Interference {
		what, size = "interference", size.Neg()
	}
	var wanted book.Value
	if ask.Fit != "" || ask.Least != nil || ask.Most != nil || ask.Packing != nil {
		band, name, rule, err := ask.wantedBand()
		if err != nil {
			return book.Book{}, err
		}
		r.Findings = append(r.CheckWanted(band), r.Findings...)
		wanted = book.Value{Key: "clearance_wanted", Label: "clearance wanted", What: clearanceThou(band), Remark: name, Refs: rule.Refs}
		if ask.Fit == "" && ask.Packing == nil {
			wanted.Remark = ""
		}
	}
	share := r.Share
	if share < 0 {
		share = -share
	}
	values := []book.Value{
		{Key: "go_together", Label: "they go together", What: book.Answer(!slices.ContainsFunc(r.Findings, tooBig))},
		{Key: "kind", What: book.Word(r.Kind.String())},
		{Key: "measured_clearance", What: book.LengthThou(r.Clearance, 3, 2)},
		{Key: "difference", Label: what, What: exactly(size), Remark: fmt.Sprintf("%.4f of the diameter, %.1f thou per inch", share, 1000*share)},
		{Key: "hole", Label: "hole, measured", What: exactly(hole)},
		{Key: "shaft", Label: "shaft, measured", What: exactly(shaft)},
	}
	if wanted.Key != "" {
		values = append(values, wanted)
	}
	return book.Book{
		Title:    fmt.Sprintf("A shaft of %s in a hole of %s", cameText(shaft), cameText(hole)),
		Findings: r.Findings, Precautions: []finding.Precaution{measureAtRest},
		Sections: []book.Section{{Key: "limits", Items: []book.Item{{Values: values}}}},
	}, nil
}

// tooBig reports whether a shaft is too big for its hole.
func tooBig(f finding.Finding) bool { return f.Code == fits.BeyondPress }

// onBarSection is the same fit on shaft basis, for bar that is bought and left as
// it is; none where there is no such fit.
func (ask FittingQuestion) onBarSection(nominal units.Length, a asked) (book.Section, bool) {
	if ask.Bar == nil {
		return book.Section{}, false
	}
	fit, err := fits.ParseFit(a.hole + "/" + a.shaft)
	if err != nil {
		return book.Section{}, false
	}
	onBar, err := fit.OnBar(*ask.Bar)
	if err != nil || onBar == fit {
		return book.Section{}, false
	}
	r, err := onBar.LimitsFor(nominal)
	if err != nil {
		return book.Section{}, false
	}
	return book.Section{
		Key: "shaft_basis", Title: fmt.Sprintf("SHAFT BASIS, where the shaft is bar of %v as it is bought", *ask.Bar),
		Items: []book.Item{{Values: []book.Value{
			{Key: "fit", Label: "fit", What: book.Word(onBar.String())},
			{Key: "hole", Label: "hole " + onBar.Hole.String(), What: sizesThou(r.Hole), Refs: r.Hole.Refs},
			{Key: "shaft", Label: "shaft " + onBar.Shaft.String(), What: sizesThou(r.Shaft), Refs: r.Shaft.Refs},
			clearanceValue(r),
			{Key: "kind", What: book.Word(r.Kind.String())},
		}}},
	}, true
}
