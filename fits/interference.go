package fits

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// CheckInterference says what is to be said of an interference on a diameter:
// nothing up to the most that the rules of thumb for press fits ask for; above
// them which fits of the standards allow as much at that size, or that none does.
// It is the one judgement of how tight is too tight, whether the interference is
// that of a fit, of two measured parts or of a joint to be pressed or shrunk.
// Rules: [RulesFor] "press"; fits: the preferred ones of ISO 286 on hole basis and
// those of ANSI B4.1. See the Example.
func CheckInterference(diameter, interference units.Length) (finding.List, error) {
	return tooTight("The interference is", diameter, interference)
}

// tooTight is [CheckInterference] with the beginning of its sentence.
func tooTight(begins string, diameter, over units.Length) (finding.List, error) {
	if err := fail.Above(fault.Named("diameter", diameter)); err != nil {
		return nil, err
	}
	if over.Sign() < 0 {
		return nil, fail.OutOfRange("interference", over, "zero or more")
	}
	press, refs, err := RuleSpan("press", diameter)
	if err != nil || over.Cmp(press.Max) <= 0 {
		return nil, err
	}
	share := func(l units.Length) float64 { return 1000 * l.Ratio(diameter) }
	is := fmt.Sprintf("%s %s, %.1f thou per inch, ", begins, both(over), share(over))
	f := finding.Finding{Severity: finding.Caution, Refs: refs, Remedies: []string{
		fmt.Sprintf("Measure the hole and make the shaft %s larger, a press fit by the rules of the trade.",
			bothEnds(press.Min, press.Max)),
	}}
	allow := allowing(diameter, over)
	if len(allow) == 0 {
		f.Code = BeyondPress
		f.Text = is + "far above any press fit: no preferred fit of ISO 286 and no fit of ANSI B4.1 goes so far at this size."
		return finding.List{f}, nil
	}
	gives, from, err := givesFrom(diameter)
	if err != nil {
		return nil, err
	}
	verb := " allow"
	if len(allow) == 1 {
		verb = " allows"
	}
	f.Code = BeyondPressRules
	f.Text = is + fmt.Sprintf("above the rules of the trade, %.1f to %.1f thou per inch. At this size %s as much, because "+
		"tolerances weigh more on a small part. A steel hub that bears it is pressed home cold, as the heat that frees it "+
		"softens or colours it; iron and soft metal bear less.", share(press.Min), share(press.Max), strings.Join(allow, " and ")+verb)
	f.Remedies = append(f.Remedies,
		fmt.Sprintf("In mild steel stay below %s, from where a bore on a solid shaft gives.", both(gives)))
	f.Refs = refs.With(from)
	return finding.List{f}, nil
}

// givesFrom returns the interference from which a hub of mild steel gives at its
// bore. On a solid shaft of steel the wall cancels out of Lame's formulas:
//
//	equivalent stress at the bore = E * interference / diameter
func givesFrom(diameter units.Length) (units.Length, source.Refs, error) {
	steel, err := material.Lookup("mild steel")
	if err != nil {
		return units.Length{}, source.Refs{}, err
	}
	share := float64(steel.Yield.Value / steel.Elasticity.Value) // greatest shear, both parts of one modulus
	return diameter.Scale(share), source.Of(steel.Yield.Refs.First(), steel.Elasticity.Refs.First()), nil
}

// allowing returns the loosest preferred fit of ISO 286 and the loosest fit of
// ANSI B4.1 that may be as tight.
func allowing(diameter, over units.Length) []string {
	var out []string
	for _, row := range preferred.Rows() { // from loose to tight
		if r, err := row[HoleBasis].Fit.LimitsFor(diameter); err == nil && r.Clearance.Min.Cmp(over.Neg()) <= 0 {
			out = append(out, row[HoleBasis].Fit.String()+" of ISO 286")
			break
		}
	}
	for _, f := range InchFits() {
		if r, err := f.LimitsFor(diameter); err == nil && r.Clearance.Min.Cmp(over.Neg()) <= 0 {
			return append(out, f.String()+" of ANSI B4.1")
		}
	}
	return out
}

// checkTightest says what is to be said of the interference that the tightest
// parts of a fit may have.
func (r FitLimits) checkTightest() finding.List {
	over, diameter := r.Clearance.Min.Neg(), r.Hole.Min
	if over.Sign() <= 0 || diameter.Sign() <= 0 {
		return nil
	}
	const begins = "The tightest parts have an interference of"
	list, err := tooTight(begins, diameter, over)
	if err != nil || len(list) > 0 {
		return list
	}
	gives, refs, err := givesFrom(diameter)
	if err != nil || over.Cmp(gives) <= 0 {
		return nil
	}
	return finding.List{{
		Code: GivesAtBore, Refs: refs,
		Text: fmt.Sprintf("%s %s, %.1f thou per inch: a hub of mild steel gives at its bore from %s and then grips less "+
			"than a stiff one.", begins, both(over), 1000*over.Ratio(diameter), both(gives)),
		Remedies: []string{"Hold its stress against the strength of the piece in hand, or match the parts for less."},
	}}
}
