package thread

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A FormingHole is the hole for a forming tap by two rules of tap makers, which
// agree to a few hundredths of a millimetre. Neither is an average of the other.
type FormingHole struct {
	Allowed Range        // that leaves from 75 down to 55 % of a thread, for a drill there is
	ByDepth units.Length // D - 0.68 share p
	ByPitch units.Length // D - 0.42 p up to 0.8 mm pitch, D - 0.49 p above; for about 65 %
	Refs    source.Refs
}

// FormingShare is the share of the thread that a forming tap forms as a rule.
const FormingShare = 0.65

// Drill returns the drill of a set nearest to the middle of the two rules and
// within Allowed. With none it returns the zero size and a finding.
func (h FormingHole) Drill(own gauge.Set) (gauge.Size, finding.List) {
	size, err := own.Nearest(h.ByDepth.Add(h.ByPitch).Scale(0.5))
	if err == nil && h.Allowed.Contains(size.Diameter) {
		return size, nil
	}
	return gauge.Size{}, finding.List{{
		Code: NoFormingDrill, Severity: finding.Note, Text: "None of the drills makes the hole for a forming tap.",
		Remedies: []string{fmt.Sprintf("Take a drill from %s to %s; that for a cutting tap would jam it.",
			h.Allowed.Min.Text(units.Millimetres, 3), h.Allowed.Max.Text(units.Millimetres, 3))},
		Refs: h.Refs,
	}}
}

var formingRef = source.Ref{Kind: source.CommonPractice, Note: "two rules of makers of forming taps"}

// FormingHole returns the hole for a forming tap, which displaces metal and cuts
// none; the share is of the thread that it forms, [FormingShare] as a rule. It suits soft
// metal that flows: aluminium, brass with little lead, mild steel. The rules
// hold for the ISO metric and Unified forms.
//
//	ByDepth = D - 0.68 * share * p
//	ByPitch = D - 0.42 * p, or D - 0.49 * p over 0.8 mm of pitch
//
//	D  major diameter
//	p  pitch
//
// Both rules are tap makers' practice; for M10x1.5 they differ by 0.07 mm. The
// share is above 0 and up to 1.
func (t Thread) FormingHole(share float64) (FormingHole, error) {
	if err := t.checkForming(); err != nil {
		return FormingHole{}, err
	}
	if err := checkShare(share); err != nil {
		return FormingHole{}, err
	}
	rule := 0.42
	if t.pitch.Cmp(units.MM(0.8)) > 0 {
		rule = 0.49
	}
	return FormingHole{
		ByDepth: t.major.Sub(t.pitch.Scale(0.68 * share)),
		ByPitch: t.major.Sub(t.pitch.Scale(rule)),
		Refs:    source.Shared(&formingRef),
		Allowed: Range{t.major.Sub(t.pitch.Scale(0.68 * 0.75)), t.major.Sub(t.pitch.Scale(0.68 * 0.55))},
	}, nil
}

// FormingDepth returns the share of a thread that a forming tap makes in a hole.
//
//	share = (D - hole) / (0.68 * p)
//
// A hole that leaves more than a full thread, as the drill for a cutting tap does,
// is an error: the metal has nowhere to go and the tap breaks.
func (t Thread) FormingDepth(hole units.Length) (float64, error) {
	if err := t.checkForming(); err != nil {
		return 0, err
	}
	if hole.Sign() <= 0 || hole.Cmp(t.major) >= 0 {
		return 0, fail.Wrong("hole for "+t.name, hole, "leaves no thread",
			"above zero and below the major diameter "+t.major.String())
	}
	share := t.major.Sub(hole).Ratio(t.pitch) / 0.68
	if share > 1 {
		return 0, fail.Wrong("hole for a forming tap "+t.name, hole,
			fmt.Sprintf("leaves %.0f %% of a thread to form; it is a hole for a cutting tap, and a forming tap would jam",
				100*share),
			"from "+t.major.Sub(t.pitch.Scale(0.68)).Text(units.Millimetres, 2))
	}
	return share, nil
}

func (t Thread) checkForming() error {
	if err := t.Validate(); err != nil {
		return err
	}
	if t.Form() != FormISO && t.Form() != FormUnified {
		return fail.Argument("thread for a forming tap", t, "the rules are for 60-degree threads",
			"ISO metric and Unified threads", units.ErrUnknown)
	}
	return nil
}
