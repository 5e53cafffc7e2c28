package pages

import (
	"errors"
	"fmt"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A BondQuestion asks what a shaft or bush holds that is fixed with a retaining
// compound, and whether the compound fills the gap.
type BondQuestion struct {
	Fit             string        // "H7/f7"; blank where both parts are measured
	Diameter        *units.Length // nil: that of the shaft as measured
	HoleIs, ShaftIs *units.Length // what the parts measure
	Seat            units.Length  // length of the joint

	Shear             *units.Pressure // of the data sheet; nil: the generic figures
	GapLeast, GapMost *units.Length   // that it fills, of the data sheet; nil: the generic ones
	Service, Release  *units.Temperature
	Share             float64            // of the sheet's strength that is left
	Hottest           *units.Temperature // at work; nil: 20 degrees C
}

// Bond answers the question.
func Bond(ask BondQuestion) (book.Book, error) {
	bond := assembly.Bond{Length: ask.Seat, Derating: ask.Share, Hottest: units.Celsius(20), Adhesive: ask.adhesive()}
	if ask.Hottest != nil {
		bond.Hottest = *ask.Hottest
	}
	var title string
	var tight finding.List // what the fit says, glue or no glue
	switch {
	case ask.Fit != "" && (ask.HoleIs != nil || ask.ShaftIs != nil):
		return book.Book{}, cli.ErrUsage("a fit beside -hole or -shaft; accepted: a fit and -d, or both -hole and -shaft")
	case ask.Fit != "" && ask.Diameter == nil:
		return book.Book{}, cli.Named("-d", errors.New(`no size; accepted: "10 mm" or "3/8 in" beside the fit`))
	case ask.Fit != "":
		a, err := askedFit(ask.Fit, *ask.Diameter)
		if err != nil {
			var bad *units.ParseError
			if errors.As(err, &bad) {
				return book.Book{}, cli.Named("fit", err)
			}
			return book.Book{}, cli.Named("-d", err)
		}
		bond.Diameter, bond.Gap, tight = *ask.Diameter, a.limits.Clearance, a.findings
		title = fmt.Sprintf("%s %s", cameText(*ask.Diameter), a.name)
	case ask.HoleIs == nil || ask.ShaftIs == nil:
		return book.Book{}, cli.ErrUsage("no gap; accepted: a fit and -d, or both -hole and -shaft as they came out")
	case ask.Diameter != nil:
		return book.Book{}, cli.Named("-d", errors.New("beside -hole and -shaft; accepted: it with a fit"))
	default:
		r, err := fits.Measured(*ask.HoleIs, *ask.ShaftIs)
		if err != nil {
			return book.Book{}, flagged(err, bondFlags)
		}
		bond.Diameter, bond.Gap = *ask.ShaftIs, fits.Band{Min: r.Clearance, Max: r.Clearance}
		for _, f := range r.Findings {
			if f.Severity > finding.Note { // as much as is pressed and glued is no trouble
				tight = append(tight, f)
			}
		}
		title = fmt.Sprintf("shaft of %s in a hole of %s", cameText(*ask.ShaftIs), cameText(*ask.HoleIs))
	}
	r, err := bond.Solve()
	if err != nil {
		return book.Book{}, flagged(err, bondFlags)
	}
	a := bond.Adhesive
	unless := func(given bool) source.Refs {
		if given {
			return source.Refs{}
		}
		return a.Refs
	}
	values := []book.Value{
		{Key: "turns_at", Label: "turns at", What: book.Range(torqueOf(r.Torque.Min), torqueOf(r.Torque.Max))},
		{Key: "slides_at", Label: "slides at", What: book.Range(forceOf(r.Axial.Min), forceOf(r.Axial.Max))},
		{Key: "gap", Label: "gap, on the diameter", What: clearanceThou(bond.Gap)},
		{Key: "fills", Label: "the compound fills", What: clearanceThou(a.Gap), Refs: unless(ask.GapLeast != nil && ask.GapMost != nil)},
		{Key: "shear", Label: "strength of the sheet", Refs: unless(ask.Shear != nil),
			What: book.Range(inMegapascals(a.Shear.Min), inMegapascals(a.Shear.Max))},
		{Key: "share", Label: "of which is left", What: book.Share(bond.Derating, 0)},
		{Key: "seat", What: book.Length(bond.Length, 3)},
		{Key: "diameter", What: book.Length(bond.Diameter, 3)},
		{Key: "hottest", What: inDegrees(bond.Hottest)},
		{Key: "service", Label: "highest at work", What: inDegrees(a.Service), Refs: unless(ask.Service != nil)},
	}
	rules, err := rulesOfThumb("bond gap", "gap", bond.Diameter)
	if err != nil {
		return book.Book{}, err
	}
	return book.Book{
		Title:    fmt.Sprintf("%s with retaining compound, joint %s long", title, bond.Length),
		Findings: append(tight, r.Findings...), Precautions: append(r.Precautions, measureAtRest),
		Sections: []book.Section{{Key: "bond", Items: []book.Item{{Values: values}}}, rules,
			{Key: "working", Title: "WORKING", Items: []book.Item{{Formulas: []book.Formula{
				{Text: fmt.Sprintf("slides at = tau k pi d L = %.4g MPa x %.3g x pi x %v x %v = %.0f N at the least",
					a.Shear.Min.In(units.Megapascal), bond.Derating, bond.Diameter, bond.Length, r.Axial.Min.In(units.Newton))},
				{Text: fmt.Sprintf("turns at = force x d/2 = %.1f N m at the least", r.Torque.Min.In(units.NewtonMetre))},
			}}}}},
	}, nil
}

// adhesive is the compound of the question, with generic figures where the sheet's
// are not given.
func (ask BondQuestion) adhesive() assembly.Adhesive {
	a, given := assembly.GenericRetainer(), 0
	if ask.Shear != nil {
		a.Shear = assembly.Range[units.Pressure]{Min: *ask.Shear, Max: *ask.Shear}
		given++
	}
	for _, f := range []struct {
		to *units.Length
		is *units.Length
	}{{&a.Gap.Min, ask.GapLeast}, {&a.Gap.Max, ask.GapMost}} {
		if f.is != nil {
			*f.to = *f.is
			given++
		}
	}
	if ask.Service != nil {
		a.Service, a.Release = *ask.Service, 0
		given++
	}
	if ask.Release != nil {
		a.Release = *ask.Release
	}
	if given > 0 {
		a.Name = "retaining compound, where none were given,"
	}
	if given == 4 { // nothing is recalled
		a.Name, a.Refs = "retaining compound", source.Refs{}
	}
	return a
}

func torqueOf(t units.Torque) book.Quantity {
	return book.Number(t.In(units.NewtonMetre), 1, "N m", "n_m").And(book.Number(t.In(units.PoundForceFoot), 1, "lbf ft", ""))
}

// bondFlags are the flags of what the packages refuse.
var bondFlags = map[string]string{
	"hole": "-hole", "shaft": "-shaft", "length of the joint": "-seat", "diameter of the joint": "-d",
	"shear strength of the adhesive": "-shear", "gap of the adhesive": "-gap-least", "derating": "-share",
	"hottest temperature at work": "-hottest", "service temperature of the adhesive": "-service",
	"release temperature of the adhesive": "-release",
}
