package hole

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// A ReamingDrill is the one drill to take before a reamer.
type ReamingDrill struct {
	Drill    gauge.Size   // zero where none of the set will do
	By       Reaming      // the rule that it is inside
	Findings finding.List // NoDrill where it is not inside the rule that is followed, or none will do
}

// String returns the drill and the rule in one line.
func (d ReamingDrill) String() string {
	if d.Drill.Diameter.IsZero() {
		return "no drill of the set"
	}
	return fmt.Sprintf("%v, by the rule %s", d.Drill, d.By.Rule)
}

// ReamingDrillFor returns the one drill of a set to take before a reamer: of those
// inside the first rule of [ReamingFor] the nearest to its middle, and of two as near
// the larger, which leaves the reamer less to cut. Where the set has none inside that
// rule, the drill is one of the next rule that it has one for, and a finding says so;
// rules for carbide-tipped reamers are passed over. Errors are those of [ReamingFor]
// and a set without any drill. See the Example.
func ReamingDrillFor(reamer units.Length, m material.Material, set gauge.Set) (ReamingDrill, error) {
	rules, err := ReamingFor(reamer, m)
	if err != nil {
		return ReamingDrill{}, err
	}
	first, err := rules[0].Drills(set)
	if err != nil {
		return ReamingDrill{}, err
	}
	if len(first.Sizes) > 0 {
		return ReamingDrill{Drill: rules[0].middle(first.Sizes), By: rules[0]}, nil
	}
	none := ReamingDrill{Findings: first.Findings}
	for _, rule := range rules[1:] {
		if strings.HasPrefix(rule.Rule, "carbide") {
			continue
		}
		mine, err := rule.Drills(set)
		if err != nil {
			return ReamingDrill{}, err
		}
		if len(mine.Sizes) == 0 {
			continue
		}
		d := ReamingDrill{Drill: rule.middle(mine.Sizes), By: rule, Findings: first.Findings}
		d.Findings[0].Remedies = append([]string{fmt.Sprintf("Take %v, which is inside another rule (%s), and try it in scrap.",
			d.Drill, rule.Rule)}, first.Findings[0].Remedies...)
		d.Findings[0].Refs = d.Findings[0].Refs.With(rule.Refs)
		return d, nil
	}
	return none, nil
}

// middle returns the drill nearest to the middle of the rule, of two as near the
// larger; there is at least one, and they ascend.
func (h Reaming) middle(drills []gauge.Size) gauge.Size {
	best, middle := drills[0], h.Min.Add(h.Max)
	off := func(d gauge.Size) units.Length { return d.Diameter.Scale(2).Sub(middle).Abs() }
	for _, d := range drills[1:] {
		if off(d).Cmp(off(best)) <= 0 {
			best = d
		}
	}
	return best
}
