package strength

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// An EngagementRule is a rule of thumb for studs, by what they are screwed
// into. The zero value is no rule.
type EngagementRule int

// The rules of a trade handbook's note on studs.
const (
	BrassIronSteel  EngagementRule = iota + 1 // 1.25 diameters in brass, and in iron and steel below 160 Brinell
	OtherNonFerrous                           // 2.5 diameters in bronze, gunmetal, aluminium and the rest
)

var engagementRules = names.Set{
	Package: "strength", Type: "EngagementRule", Field: "rule of engagement",
	Texts: []string{BrassIronSteel: "brass, iron and steel", OtherNonFerrous: "other non-ferrous metal"},
}

// ruledDiameters are the lengths of the rules in major diameters.
var ruledDiameters = [...]struct{ engaged, threaded float64 }{BrassIronSteel: {1.25, 1.5}, OtherNonFerrous: {2.5, 2.75}}

// RuleFor returns the rule for what a stud is screwed into.
func RuleFor(m material.Material) EngagementRule {
	switch m.Family {
	case material.Steel, material.Stainless, material.Iron, material.Brass:
		return BrassIronSteel
	}
	return OtherNonFerrous
}

// String returns what the rule is for: "brass, iron and steel" or "other
// non-ferrous metal".
func (r EngagementRule) String() string { return engagementRules.Text(int(r)) }

// ParseEngagementRule returns the rule for what is named, in capitals or not;
// see [EngagementRule.String].
func ParseEngagementRule(name string) (EngagementRule, error) {
	v, err := engagementRules.Value(name)
	return EngagementRule(v), err
}

// EngagementRules returns all of them, in order.
func EngagementRules() []EngagementRule { return []EngagementRule{BrassIronSteel, OtherNonFerrous} }

// MarshalText implements [encoding.TextMarshaler].
func (r EngagementRule) MarshalText() ([]byte, error) { return engagementRules.Marshal(int(r)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (r *EngagementRule) UnmarshalText(text []byte) error {
	return names.Unmarshal(&engagementRules, r, text)
}

// A StudLength is what a rule of thumb asks for.
type StudLength struct {
	Thread   thread.Thread
	Rule     EngagementRule
	Engaged  units.Length // stud in the hole
	Threaded units.Length // thread on the stud's end, and in the hole
	Turns    int          // whole turns that reach Engaged
	Refs     source.Refs
}

var ruleRef = source.Ref{Kind: source.CommonPractice, Note: "a trade handbook's note on studs"}

// StudLengthFor returns how deep a stud goes by rule of thumb.
//
//	engaged 1.25 * d, threaded 1.5 * d     brass, iron and steel
//	engaged 2.5 * d, threaded 2.75 * d     other non-ferrous metal
//
//	d  major diameter
//
// Source: a trade handbook's note on studs, common practice; other rules from 1
// to 2 diameters go round. The rule knows nothing of the stud's strength: set
// it beside [Joint.Solve].
func StudLengthFor(t thread.Thread, rule EngagementRule) (StudLength, error) {
	if err := t.Validate(); err != nil {
		return StudLength{}, err
	}
	if !engagementRules.Known(int(rule)) {
		return StudLength{}, engagementRules.Unknown(int(rule))
	}
	r := ruledDiameters[rule]
	engaged := t.Major().Scale(r.engaged)
	return StudLength{
		Thread: t, Rule: rule, Engaged: engaged, Threaded: t.Major().Scale(r.threaded),
		Turns: wholeTurns(engaged, t.Pitch()), Refs: source.Shared(&ruleRef),
	}, nil
}

// ShortThread is the finding of [StudLength.Check]: less full thread than the
// rule asks for.
const ShortThread finding.Code = "short-thread"

// Check says whether a length of full thread is enough by the rule, which is a
// rule of thumb: what it lacks is noted, and less than half of it fails. A model
// engineer thread, which belongs to a fitting that carries its pipe and no more,
// holds by less, and is never more than noted.
func (s StudLength) Check(full units.Length) finding.List {
	if full.Cmp(s.Engaged) >= 0 {
		return nil
	}
	severity, then := finding.Note, "Below it the thread may strip before the screw breaks."
	switch {
	case s.Thread.Series() == thread.ME:
		then = "A fitting that carries its pipe and no more holds by less."
	case full.Scale(2).Cmp(s.Engaged) < 0:
		severity, then = finding.Fails, "With less than half of it the thread strips before the screw breaks."
	}
	return finding.List{{
		Code: ShortThread, Severity: severity,
		Text: fmt.Sprintf("There is %s of full thread for %v; the rule for studs in %v asks for %s. %s",
			full.Text(units.Millimetres, 3), s.Thread, s.Rule, s.Engaged.Text(units.Millimetres, 3), then),
		Remedies: []string{"Make it longer, or put a nut behind the hole."},
		Refs:     s.Refs,
	}}
}
