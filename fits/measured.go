package fits

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// An AsCut is two parts that have been made and measured.
type AsCut struct {
	Clearance units.Length // below zero it is interference
	Share     float64      // of the diameter of the hole: 0.001 is a thou per inch
	Kind      Kind
	Findings  finding.List
}

// CheckWanted says whether the clearance of two parts that are made lies outside a
// band that was wanted, by how much, and what mends it. Source: arithmetic.
func (r AsCut) CheckWanted(wanted Band) finding.List {
	f := finding.Finding{Code: OutsideWanted, Severity: finding.Fails}
	tight, loose := wanted.Min.Sub(r.Clearance), r.Clearance.Sub(wanted.Max)
	is := fmt.Sprintf("The clearance is %s, and %s is wanted: ", both(r.Clearance), bothEnds(wanted.Min, wanted.Max))
	switch {
	case tight.Sign() > 0:
		f.Text = is + "the shaft is too big by " + both(tight) + "."
		f.Remedies = []string{fmt.Sprintf("Take %s off the shaft: turning it is easier, and truer, than opening the hole.",
			bothEnds(tight, wanted.Max.Sub(r.Clearance)))}
	case loose.Sign() > 0:
		f.Text = is + "the shaft is too small by " + both(loose) + "."
		f.Remedies = []string{fmt.Sprintf("Make a shaft larger by %s, or bush the hole.",
			bothEnds(loose, r.Clearance.Sub(wanted.Min)))}
	default:
		return nil
	}
	return finding.List{f}
}

// Measured returns what two parts that are already made do to each other, and
// what can be done about it. Interference is held against the rules of thumb for
// press fits, which reach from half a thou to two thou per inch of diameter, and
// above them against the fits of the standards; see [RuleSpan] and
// [CheckInterference]. See the Example.
func Measured(hole, shaft units.Length) (AsCut, error) {
	if err := fail.Above(fault.Named("hole", hole), fault.Named("shaft", shaft)); err != nil {
		return AsCut{}, err
	}
	r := AsCut{Clearance: hole.Sub(shaft), Share: hole.Sub(shaft).Ratio(hole), Kind: Clearance}
	if r.Clearance.Sign() >= 0 {
		return r, nil
	}
	r.Kind = Interference
	press, refs, err := RuleSpan("press", hole)
	if err != nil {
		return AsCut{}, err
	}
	over := r.Clearance.Neg()
	if r.Findings, err = CheckInterference(hole, over); err != nil {
		return AsCut{}, err
	}
	f := finding.Finding{Refs: refs}
	is := fmt.Sprintf("The interference of %s, %.1f thou per inch, ", both(over), -1000*r.Share)
	switch {
	case len(r.Findings) > 0:
		f = r.Findings[0]
		if f.Code == BeyondPress {
			f.Severity = finding.Fails
		}
		f.Remedies = []string{
			fmt.Sprintf("Turn the shaft to between %s and %s for a press fit, below %s for a running fit.",
				both(hole.Add(press.Min)), both(hole.Add(press.Max)), both(hole)),
			"Turning the shaft is easier, and truer, than opening the hole.",
		}
	case over.Cmp(press.Min) < 0:
		f.Code, f.Text = LocatesOnly, is+"locates but carries little."
		f.Remedies = []string{"Retaining compound or a pin makes it safe."}
	default:
		f.Code = PressFit
		f.Text = is + "is a press fit by the rules of the trade; the bore of a thin bush closes by most of it."
		f.Remedies = []string{"Ream a bush after pressing it in."}
	}
	r.Findings = finding.List{f}
	return r, nil
}
