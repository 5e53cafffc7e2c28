package speeds

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// A Job is one operation on one part, on the machine that is there.
type Job struct {
	Operation Operation
	Material  material.Material
	Tool      Tool         // zero: HSS
	Diameter  units.Length // the one that governs: see [Operation.GoverningDiameter]
	Machine   Ladder       // its spindle speeds; the zero value asks for the exact speed only

	// Min and Max replace the published range, when the builder knows better.
	Min, Max units.Speed

	// What is zero is not looked at; Overhang and Section go together.
	Depth        units.Length // of a drilled or reamed hole, at its full diameter
	Pitch        units.Length // of the thread, or its lead: screwcutting asks it
	Overhang     units.Length // of a boring bar or tool from its support
	Section      units.Length // height of that bar or tool
	CentreHeight units.Length // of the lathe over its bed or slide
	Reach        units.Length // of a parting blade
	Limits       []Limit      // speeds that the work or its holding must not exceed
}

// Validate returns an error for a job that makes no sense; [Job.Plan] asks it.
func (j Job) Validate() error {
	if j.Diameter.Sign() <= 0 {
		return badDiameter(j.Diameter)
	}
	for _, l := range []struct {
		field string
		value units.Length
	}{
		{"depth", j.Depth}, {"overhang", j.Overhang}, {"section", j.Section},
		{"centre height", j.CentreHeight}, {"reach", j.Reach}, {"pitch", j.Pitch},
	} {
		if l.value.Sign() < 0 {
			return fail.OutOfRange(l.field, l.value, "above zero, or zero when it is not looked at")
		}
	}
	if j.Overhang.IsZero() != j.Section.IsZero() {
		return fail.Argument("overhang and section", j.Overhang.String()+", "+j.Section.String(),
			"one says nothing without the other", "both, or neither", units.ErrMissing)
	}
	for _, l := range j.Limits {
		if err := l.Validate(); err != nil {
			return err
		}
	}
	switch {
	case j.Operation == Screwcutting && j.Pitch.IsZero():
		return fail.Missing("pitch", "that of the thread, such as 1.5 mm: with the spindle speed it says how soon the tool is at the shoulder")
	case j.byHand():
		return j.checkHand()
	}
	_, err := j.speedRange()
	return err
}

// checkHand returns an error for a job for the hand that makes no sense.
func (j Job) checkHand() error {
	if j.Min != 0 || j.Max != 0 {
		return fail.Argument("cutting speed", fmt.Sprintf("%v to %v", j.Min, j.Max),
			j.threadTool()+" are turned by hand", "none", units.ErrOutOfRange)
	}
	if err := checkWords(j.Operation, j.tool()); err != nil {
		return err
	}
	if j.Material.Name == "" {
		return checkMaterial(j.Material)
	}
	return checkSense(j.Operation, j.Material, j.tool())
}

func (j Job) tool() Tool {
	if j.Tool == 0 {
		return HSS
	}
	return j.Tool
}

// speedRange returns the published range, or the one that the builder gave, for
// which the material may be one that we have no figure for.
func (j Job) speedRange() (Range, error) {
	if j.Min == 0 && j.Max == 0 {
		return Recommend(j.Operation, j.Material, j.tool())
	}
	if err := checkWords(j.Operation, j.tool()); err != nil {
		return Range{}, err
	}
	if j.Material.Name == "" {
		return Range{}, checkMaterial(j.Material)
	}
	if err := checkSense(j.Operation, j.Material, j.tool()); err != nil {
		return Range{}, err
	}
	for _, v := range []units.Speed{j.Min, j.Max} {
		if err := fault.Positive(fail, "cutting speed", v); err != nil {
			return Range{}, err
		}
	}
	if j.Max < j.Min {
		return Range{}, fail.OutOfRange("cutting speed", fmt.Sprintf("%v to %v", j.Min, j.Max), "the lower figure first")
	}
	return Range{Operation: j.Operation, Material: j.Material, Tool: j.tool(), Min: j.Min, Max: j.Max, Basis: "as given"}, nil
}

// LargestDiameter returns the largest diameter that a spindle speed suits
// for the job: where it reaches the top of the range.
//
//	d = v / (pi * n)
//
//	d  the diameter
//	v  the top of the range
//	n  the spindle speed
//
// Any speed above zero; errors are those of [Recommend]. See the Example.
func (j Job) LargestDiameter(n units.RotationalSpeed) (units.Length, error) {
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return units.Length{}, err
	}
	r, err := j.speedRange()
	if err != nil {
		return units.Length{}, err
	}
	return units.Millimetres.Of(2000 * float64(r.Max) / float64(n)) // d = v/(pi n), as 2 v/w
}

// Check judges a spindle speed that the job runs at now: whether it is above a
// limit ([AboveLimit]), drives what is for the hand ([ThreadUnderPower]), burns the
// edge ([EdgeTooFast]) or wastes time ([SlowStep]). One within the range has no
// finding. Errors as for [Job.Plan].
// See the Example.
func (j Job) Check(n units.RotationalSpeed) (finding.List, error) {
	if err := j.Validate(); err != nil {
		return nil, err
	}
	v, err := CuttingSpeed(n, j.Diameter)
	if err != nil {
		return nil, err
	}
	var all finding.List
	for _, l := range j.limits() {
		over, err := l.Check(n)
		if err != nil {
			return nil, err
		}
		all = append(all, over...)
	}
	if j.byHand() {
		return append(finding.List{j.underPower(n)}, all...), nil
	}
	r, err := j.speedRange()
	if err != nil {
		return nil, err
	}
	at := fmt.Sprintf("At %s the edge meets %s", rpm(n), surface(v))
	const hair = 1 + 1e-9 // a speed that was worked out from an end of the range is that end
	switch {
	case v > r.Max*hair:
		most, err := SpindleSpeed(r.Max, j.Diameter)
		if err != nil {
			return nil, err
		}
		does := "it burns the edge"
		if j.Operation == Reaming {
			does = "a reamer chatters there, cuts over size and goes dull"
		}
		all = append(all, finding.Finding{
			Code: EdgeTooFast, Severity: finding.Caution,
			Text:     fmt.Sprintf("%s, %.1f times the most for %v with %v: %s.", at, float64(v/r.Max), j.Material, j.tool(), does),
			Remedies: []string{fmt.Sprintf("Run it at %s or slower.", rpm(most))},
			Refs:     r.Refs,
		})
	case v*hair < r.Min && all == nil:
		all = append(all, finding.Finding{
			Code: SlowStep, Severity: finding.Note,
			Text: at + ", below the range: it does no harm and takes longer.", Refs: r.Refs,
		})
	}
	all.Sort()
	return all, nil
}
