package fits

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A Choice is a preferred fit held against the clearance that was wanted.
type Choice struct {
	PreferredFit
	Result   FitLimits
	Outside  units.Length // how far its clearance may lie outside the wanted band, at the worse end; zero suits
	Findings finding.List
}

// Choose ranks the preferred fits on one basis at a nominal size by how well
// their clearance lies within a wanted band, best first; interference is
// clearance below zero. Fits that stay inside come first, the one nearest the
// middle of the band in front. Fits that the standard does not define at the
// size are left out. See the Example.
func Choose(nominal units.Length, wanted Band, b Basis) ([]Choice, error) {
	if err := wanted.validate("wanted clearance"); err != nil {
		return nil, err
	}
	if _, err := rangeOf(nominal); err != nil {
		return nil, err
	}
	list, err := PreferredFits(b)
	if err != nil {
		return nil, err
	}
	var out []Choice
	for _, p := range list {
		if r, err := p.Fit.LimitsFor(nominal); err == nil {
			by, said := outside(p.Fit.String(), r, wanted)
			out = append(out, Choice{p, r, by, said})
		}
	}
	slices.SortStableFunc(out, func(a, b Choice) int { return better(a.Outside, a.Result, b.Outside, b.Result, wanted) })
	return out, nil
}

// An InchChoice is an inch fit held against the clearance that was wanted.
type InchChoice struct {
	Fit      InchFit
	Result   InchLimits
	Outside  units.Length // as in [Choice]
	Findings finding.List
}

// ChooseInch ranks the inch fits at a nominal size by how well their clearance
// lies within a wanted band, as [Choose] ranks the preferred ones of ISO 286.
// Classes whose table does not reach the size are left out; that none does is an
// error. See the Example.
func ChooseInch(nominal units.Length, wanted Band) ([]InchChoice, error) {
	if err := wanted.validate("wanted clearance"); err != nil {
		return nil, err
	}
	var out []InchChoice
	for _, f := range InchFits() {
		if r, err := f.LimitsFor(nominal); err == nil {
			by, said := outside(f.String(), r.FitLimits, wanted)
			out = append(out, InchChoice{f, r, by, said})
		}
	}
	if out == nil {
		var largest units.Length
		for _, r := range inchRows.Rows() {
			largest = longest(largest, r.upto)
		}
		return nil, fail.Wrong("nominal size", nominal.Text(units.Inches, 4), "no class of ANSI B4.1 is tabled there",
			"over 0 up to "+largest.Text(units.Inches, 2))
	}
	slices.SortStableFunc(out, func(a, b InchChoice) int {
		return better(a.Outside, a.Result.FitLimits, b.Outside, b.Result.FitLimits, wanted)
	})
	return out, nil
}

// outside returns how far the clearance of a fit may lie outside a band, at the
// worse end, and what is to be said of it.
func outside(name string, r FitLimits, wanted Band) (units.Length, finding.List) {
	by := longest(units.Length{}, longest(wanted.Min.Sub(r.Clearance.Min), r.Clearance.Max.Sub(wanted.Max)))
	if by.IsZero() {
		return by, nil
	}
	return by, finding.List{{
		Code: OutsideWanted,
		Text: fmt.Sprintf("%s does not stay within the wanted %s: it may lie %s outside.",
			name, bothEnds(wanted.Min, wanted.Max), smallBoth(by)),
		Remedies: []string{"Make the shaft to the hole as it came out, or widen what is wanted."},
	}}
}

// smallBoth is [both] with another place for less than a micron.
func smallBoth(l units.Length) string {
	if l.Cmp(units.Micron(1)) >= 0 {
		return both(l)
	}
	return l.Decimal(units.Millimetres, 4) + " mm (" + l.Decimal(units.Thousandths, 2) + " thou)"
}

// better orders two fits by how far they lie outside a band, and then by how far
// off its middle.
func better(outA units.Length, a FitLimits, outB units.Length, b FitLimits, wanted Band) int {
	return cmp.Or(outA.Cmp(outB), offCentre(a, wanted).Cmp(offCentre(b, wanted)))
}

// offCentre returns twice the distance of the middle of a fit from that of a
// band.
func offCentre(r FitLimits, wanted Band) units.Length {
	return r.Clearance.Min.Add(r.Clearance.Max).Sub(wanted.Min).Sub(wanted.Max).Abs()
}
