package thread

import (
	"errors"
	"fmt"

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

// A DrillPlan is what somebody's drills can do for a tapped hole.
type DrillPlan struct {
	Choices  []Choice     // of the drills there are, the best first; see [Thread.TappingDrills]
	Buy      Choice       `json:",omitzero"` // of the standard sets, where none of the drills there are suits
	Findings finding.List // that none suits, and what to buy
	Refs     source.Refs  // of the depth
}

var noPractice = source.Ref{
	Kind: source.CommonPractice, Note: "75 % of the full depth, as we have no practice for the metal",
}

// PlanDrill chooses the tapping drill from the drills that somebody owns and,
// where none of them suits, the one to buy from the metric, number, letter and
// fraction drills. In a material for which there is no practice the depth is
// 75 % of the full depth, and Refs says so.
func (t Thread) PlanDrill(own gauge.Set, depth TapDepth) (DrillPlan, error) {
	var plan DrillPlan
	choose := func(set gauge.Set) ([]Choice, error) {
		if depth.Material.Name == "" {
			plan.Refs = source.Refs{}
			return t.TappingDrills(set, depth.Share, depth.Basis)
		}
		advice, err := AdvisedDepthFor(depth.Material)
		if err != nil {
			plan.Refs = source.Shared(&noPractice)
			return t.TappingDrills(set, 0.75, FullDepth)
		}
		plan.Refs = advice.Refs
		return t.TappingDrillsIn(depth.Material, set)
	}
	choices, err := choose(own)
	if err == nil && choices[0].Suits() {
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
