package speeds

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// An Advice is something to mind with an operation, in one or two sentences.
type Advice struct {
	Kind string // rake, lubricant, chips, skin, holding, break-through, long drill, speed
	Text string
	Refs source.Refs
}

// String returns the advice with its kind and source.
func (a Advice) String() string { return fmt.Sprintf("%s: %s (%v)", a.Kind, a.Text, a.Refs) }

// Advice returns what to mind in this operation beside the precautions: rake,
// lubricant, chips, holding. See the Example.
func (r Range) Advice() []Advice {
	var all []Advice
	for _, row := range adviceTable.Rows() {
		if row.has(r.Operation, r.Material.Name, r.Tool) {
			all = append(all, row.advice)
		}
	}
	return all
}

// Precautions returns what keeps whole fingers in this operation: chuck key and
// guard, hair and sleeves, chips, snatching drills, taps under power. See the
// Example of Advice.
func (r Range) Precautions() []finding.Precaution {
	var all []finding.Precaution
	for _, row := range precautionTable.Rows() {
		if row.has(r.Operation, r.Material.Name, r.Tool) {
			all = append(all, row.precaution)
		}
	}
	return all
}

// Precautions returns what keeps whole fingers in the operation, in whatever material
// and with whatever tool, and in no other: for tapping, up to which size it is done by
// hand. [Range.Precautions] has them among all others.
func (op Operation) Precautions() []finding.Precaution {
	var all []finding.Precaution
	for _, row := range precautionTable.Rows() {
		if row.operations != nil && contains(row.operations, op) && row.materials == nil && row.tools == nil {
			all = append(all, row.precaution)
		}
	}
	return all
}

// MaterialPrecautions returns what to mind with a material, whatever is done to it:
// lead in chips and dust. [Range.Precautions] has them among all others.
func MaterialPrecautions(m material.Material) []finding.Precaution {
	var all []finding.Precaution
	for _, row := range precautionTable.Rows() {
		if row.operations == nil && row.tools == nil && row.materials != nil && contains(row.materials, m.Name) {
			all = append(all, row.precaution)
		}
	}
	return all
}

type adviceRow struct {
	pairing
	advice Advice
}

func readAdvice(r *table.Row) adviceRow {
	kind := r.Text("kind")
	switch kind {
	case "rake", "lubricant", "chips", "skin", "holding", "break-through", "long drill", "speed":
	default:
		r.Complain("kind %q", kind)
	}
	return adviceRow{readPairing(r), Advice{Kind: kind, Text: r.Text("text"), Refs: source.Of(r.Ref())}}
}

type precautionRow struct {
	pairing
	precaution finding.Precaution
}

func readPrecaution(r *table.Row) precautionRow {
	return precautionRow{readPairing(r), finding.Precaution{
		Code: finding.Code(r.Text("code")), Text: r.Text("text"), Ref: r.Ref(),
	}}
}
