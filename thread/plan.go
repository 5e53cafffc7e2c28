package thread

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A TapDepth says how deep a thread is wanted: as a material calls for or, with
// none, by a share of a full thread on a basis.
type TapDepth struct {
	Material material.Material `json:",omitzero"`
	Share    float64           `json:",omitempty"`
	Basis    Basis             `json:",omitempty"`
}

// A DrillPlan is what somebody's drills can do for a tapped hole. That of a taper
// pipe, which has several holes and no one depth in any, has Pipe and no more.
type DrillPlan struct {
	Hole     units.Length `json:",omitzero"` // that leaves the depth wanted: D - Share * PerPitch * p
	Share    float64      `json:",omitzero"` // of a full thread that is wanted
	Basis    Basis        `json:",omitzero"` // what a full thread is
	PerPitch float64      `json:",omitzero"` // depth of a full thread on the diameter, in pitches
	Choices  []Choice     // of the drills there are, the best first; see [Thread.TappingDrills]
	Buy      Choice       `json:",omitzero"` // of the standard sets, where none of the drills there are suits
	Nearer   Choice       `json:",omitzero"` // of the standard sets, where the best of those there are is 10 % of the depth or more off
	Pipe     []PipeChoice // the holes for a taper pipe, each with the drill for it
	Internal string       `json:",omitempty"` // of a taper pipe, the thread in the hole that was asked for; see [DrillPlan.Named]
	Findings finding.List // that none suits, and what to buy
	Refs     source.Refs  // of the depth and of what a full thread is, or of Pipe
}

// Suits reports whether one of the drills there are suits; for a taper pipe, one
// of its holes, or of those of Internal where that was asked for.
func (p DrillPlan) Suits() bool {
	return slices.ContainsFunc(p.Pipe, func(c PipeChoice) bool { return p.asked(c) && c.Choice.Suits() }) ||
		len(p.Choices) > 0 && p.Choices[0].Suits()
}

func (p DrillPlan) asked(c PipeChoice) bool { return p.Internal == "" || c.Internal == p.Internal }

// Named returns the plan for the thread in the hole as it was asked for, "Rp 1/8" or
// "Rc 1/8", which both parse to R 1/8: its holes in front, and a drill for the other
// one does not suit. Any other text leaves the plan as it is.
func (p DrillPlan) Named(thread string) DrillPlan {
	thread = strings.ToLower(strings.TrimSpace(thread))
	for _, c := range p.Pipe {
		if letters := strings.ToLower(c.Internal[:2]); letters[0] == 'r' && strings.HasPrefix(thread, letters) {
			p.Internal = c.Internal
			break
		}
	}
	if p.Internal == "" {
		return p
	}
	p.Pipe = slices.Clone(p.Pipe)
	slices.SortStableFunc(p.Pipe, func(a, b PipeChoice) int {
		switch {
		case p.asked(a) == p.asked(b):
			return 0
		case p.asked(a):
			return -1
		}
		return 1
	})
	p.Findings = p.noPipeHole(p.Internal)
	return p
}

// Check says whether the hole can be drilled with what there is: that none of the
// drills suits fails then. In the plan of a whole engine, Findings, it is a note:
// a drill can be bought.
func (p DrillPlan) Check() finding.List {
	findings := slices.Clone(p.Findings)
	for i := range findings {
		findings[i].Severity = finding.Fails
	}
	return findings
}

var (
	noPractice = source.Ref{
		Kind: source.CommonPractice, Note: "75 % of the full depth, as we have no practice for the metal",
	}
	basisRefs = [...]source.Ref{
		FullDepth: {Kind: source.Derived, Note: "depth of the screw's thread in the standard of the form"},
		InternalHeight: {
			Kind: source.Published, Title: "Machinery's Handbook", Edition: "31st edition",
			Note: "the formula; the basic height of the nut's thread is in the standard of the form",
		},
		ThreeQuarterHeight: {
			Kind: source.Published, Title: "Machinery's Handbook", Edition: "31st edition", Locator: "p. 2155, table",
		},
	}
)

// PlanDrill chooses the tapping drill from the drills that somebody owns and,
// where none of them suits, the one to buy from the metric, number, letter and
// fraction drills. In a material for which there is no practice the depth is
// 75 % of the full depth, and Refs says so. A taper pipe takes the drills of
// [Thread.PipeHoles], whatever the depth.
func (t Thread) PlanDrill(own gauge.Set, depth TapDepth) (DrillPlan, error) {
	if _, taper := t.Taper(); taper {
		return t.planPipe(own), nil
	}
	plan := DrillPlan{Share: depth.Share, Basis: depth.Basis}
	share, basis := depth.Share, depth.Basis
	choose := func(set gauge.Set) ([]Choice, error) { return t.TappingDrills(set, share, basis) }
	if depth.Material.Name != "" {
		if advice, err := AdvisedDepthFor(depth.Material); err == nil {
			plan.Refs = advice.Refs
			plan.Share, plan.Basis, plan.PerPitch = t.advised(advice), ThreeQuarterHeight, threeQuarters
			share, basis, err = t.advisedShare(advice)
			if err != nil {
				return DrillPlan{}, err
			}
			choose = func(set gauge.Set) ([]Choice, error) { return t.TappingDrillsIn(depth.Material, set) }
		} else {
			plan.Refs = source.Shared(&noPractice)
			share, basis = 0.75, FullDepth
			plan.Share, plan.Basis = share, basis
		}
	}
	var err error
	if plan.PerPitch == 0 {
		if plan.PerPitch, err = t.fullOn(basis); err != nil {
			return DrillPlan{}, err
		}
	}
	if plan.Hole, err = t.TappingHole(share, basis); err != nil {
		return DrillPlan{}, err
	}
	if plan.Refs.IsZero() {
		plan.Refs = source.Shared(&basisRefs[basis])
	}
	choices, err := choose(own)
	if err == nil && choices[0].Suits() && math.Abs(choices[0].Depth-share) < 0.1 {
		plan.Choices = choices
		return plan, nil
	}
	if err != nil && (own.Len() == 0 || !errors.Is(err, units.ErrOutOfRange)) { // out of range: the set has nothing near
		return DrillPlan{}, err
	}
	plan.Choices = choices
	all, err := gauge.Metric().With(gauge.Number(), gauge.Letter(), gauge.Fraction())
	if err != nil {
		return DrillPlan{}, err
	}
	better, err := choose(all)
	if err != nil {
		return DrillPlan{}, err
	}
	if len(choices) > 0 && choices[0].Suits() {
		if better[0].Suits() && better[0].Over.Abs().Cmp(choices[0].Over.Abs()) < 0 {
			plan.Nearer = better[0]
		}
		return plan, nil
	}
	none := finding.Finding{
		Code: NoTappingDrill, Severity: finding.Note, Text: fmt.Sprintf("None of the drills suits %v.", t), Refs: plan.Refs,
	}
	if len(choices) > 0 {
		none.Text += " " + choices[0].Findings[0].Text
	}
	if better[0].Suits() {
		plan.Buy = better[0]
		none.Remedies = []string{fmt.Sprintf("Buy drill %s (%s), which leaves %.0f %% of the %v.", plan.Buy.Drill.Name,
			plan.Buy.Drill.Diameter.Text(units.Millimetres, 3), 100*plan.Buy.Depth, plan.Buy.Basis)}
	}
	plan.Findings = finding.List{none}
	return plan, nil
}

// planPipe is the plan for a taper pipe.
func (t Thread) planPipe(own gauge.Set) DrillPlan {
	plan := DrillPlan{Pipe: t.choosePipe(own)}
	for _, c := range plan.Pipe {
		plan.Refs = plan.Refs.With(c.Refs)
	}
	plan.Findings = plan.noPipeHole(t.String())
	return plan
}

// noPipeHole says that none of the drills makes a hole that was asked for, if none
// does.
func (p DrillPlan) noPipeHole(thread string) finding.List {
	if p.Suits() {
		return nil
	}
	none := finding.Finding{
		Code: NoTappingDrill, Severity: finding.Note, Text: fmt.Sprintf("None of the drills makes a hole for %s.", thread),
	}
	for _, c := range p.Pipe {
		if p.asked(c) {
			none.Remedies = append(none.Remedies, c.Findings[0].Remedies...)
			none.Refs = none.Refs.With(c.Refs)
		}
	}
	return finding.List{none}
}
