package joint

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// StudSpacing is the code of the finding that studs stand too far apart or too
// close for every rule of thumb.
const StudSpacing finding.Code = "stud-spacing"

// A SpacingRule is a rule of thumb for the distance between neighbouring studs.
type SpacingRule struct {
	Name     string
	Min, Max units.Length
	Refs     source.Refs
}

// Contains reports whether a distance lies within the rule.
func (r SpacingRule) Contains(spacing units.Length) bool {
	return spacing.Cmp(r.Min) >= 0 && spacing.Cmp(r.Max) <= 0
}

var (
	threeToSix = source.Ref{Kind: source.Unreviewed, Title: "Machine design project sheet"}
	fiveToTen  = source.Ref{
		Kind: source.Published, Title: "University notes on threaded fasteners", Locator: "problems",
		Note: "5 for the spanner, 10 for the flange",
	}
	byTheRoot = source.Ref{
		Kind: source.Published, Title: "Machine design text on the heads of engine cylinders", Locator: "cylinder heads",
		Note: "the root sign was lost in the text seen and is from memory",
	}
)

// SpacingRules returns the rules for studs of a diameter, up to 1 m. They
// disagree, most of all for small studs, for which the rule with the root was not
// made: for 3 mm they are 9 to 18, 15 to 30 and 33 to 49 mm. The lower limit of
// the first two is room for a spanner. Source: as each rule's Refs say.
func SpacingRules(diameter units.Length) ([]SpacingRule, error) {
	if err := fail.Above(fault.Named("diameter of the studs", diameter)); err != nil {
		return nil, err
	}
	if diameter.Cmp(units.MM(1000)) > 0 {
		return nil, fail.OutOfRange("diameter of the studs", diameter, "up to 1 m")
	}
	root := units.MM(math.Sqrt(diameter.MM()))
	return []SpacingRule{
		{"3 to 6 diameters", diameter.Scale(3), diameter.Scale(6), source.Shared(&threeToSix)},
		{"5 to 10 diameters", diameter.Scale(5), diameter.Scale(10), source.Shared(&fiveToTen)},
		{
			"19 to 28.5 times sqrt(d in mm)",
			root.Scale(19), root.Scale(28.5), source.Shared(&byTheRoot), // cylinder heads
		},
	}, nil
}

// A Spacing is how far apart the studs of a joint stand.
type Spacing struct {
	Widest   units.Length // from one stud to the next round the pattern
	Rules    []SpacingRule
	Findings finding.List
}

// Kept returns the rules that the widest gap keeps.
func (s Spacing) Kept() []SpacingRule {
	return slices.DeleteFunc(slices.Clone(s.Rules), func(r SpacingRule) bool { return !r.Contains(s.Widest) })
}

// SpacingOf returns the widest gap between neighbouring studs of a diameter and
// what the rules of thumb say to it; the finding says when it keeps none of them.
// A pattern has 2 to 500 studs. Source: as [SpacingRules]. See the example.
func SpacingOf(p gasket.Pattern, diameter units.Length) (Spacing, error) {
	if err := checkPattern(p); err != nil {
		return Spacing{}, err
	}
	rules, err := SpacingRules(diameter)
	if err != nil {
		return Spacing{}, err
	}
	s := Spacing{Widest: widestGap(p), Rules: rules}
	if len(s.Kept()) > 0 {
		return s, nil
	}
	remedy := "Take more studs, or a stiffer cover."
	if s.Widest.Cmp(rules[0].Min) < 0 {
		remedy = "Take fewer studs: a spanner needs the room."
	}
	s.Findings = finding.List{{
		Code: StudSpacing, Severity: finding.Note,
		Text: fmt.Sprintf("The studs of %v stand up to %s apart, which keeps none of the rules of thumb.",
			diameter, s.Widest.Text(units.Millimetres, 3)),
		Remedies: []string{remedy},
		Refs:     rules[0].Refs.With(rules[1].Refs, rules[2].Refs),
	}}
	return s, nil
}

// widestGap goes round the pattern, or along it where the studs stand in a row.
func widestGap(p gasket.Pattern) units.Length {
	places, how := around(p)
	var widest units.Length
	measure := func(i, j int) {
		if d := p[i].At.Distance(p[j].At); d.Cmp(widest) > 0 {
			widest = d
		}
	}
	ring := inOrder(places, how)
	for k := range len(ring) - 1 {
		measure(ring[k], ring[k+1])
	}
	if how != inRow {
		measure(ring[len(ring)-1], ring[0])
	}
	return widest
}
