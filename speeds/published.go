package speeds

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Published is one source's range for a pairing, in its own words.
type Published struct {
	Min, Max units.Speed
	Material string // as the source calls it
	Tool     string // as the source calls it
	Period   string // "modern", or when it was practice: "1914"
	Bound    string // "upper limit" or "lower bound" where the source gives no more
	Note     string
	Refs     source.Refs
}

// PublishedFor returns every range that was read for the pairing, in the
// order of the table; there may be none, where [Recommend] follows another
// material or operation. They disagree, and are not averaged. Errors as for
// Recommend. See the Example.
func PublishedFor(op Operation, m material.Material, tool Tool) ([]Published, error) {
	if err := checkPairing(op, m, tool); err != nil {
		return nil, err
	}
	var all []Published
	for _, row := range speedTable.Rows() {
		if contains(row.operations, op) && contains(row.materials, m.Name) && row.tool == tool {
			all = append(all, row.published)
		}
	}
	return all, nil
}

// A speedRow is one published range with the pairings it is filed under, and
// the materials for which it is the default.
type speedRow struct {
	published  Published
	operations []Operation
	materials  []string
	tool       Tool
	defaults   []string
}

func readSpeed(r *table.Row) speedRow {
	unit := table.As(r, "unit", func(s string) (units.Speed, error) { return units.ParseSpeed("1 " + s) })
	low, high := r.Float("low"), r.Float("high")
	if !(0 < low && low <= high) {
		r.Complain("want low and high above zero and in order")
	}
	row := speedRow{
		published: Published{
			Min: units.Speed(low) * unit, Max: units.Speed(high) * unit,
			Material: r.Text("material_as_published"), Tool: r.Text("tool_as_published"),
			Period: r.Text("period"), Bound: r.Optional("bound"), Note: r.Optional("note"), Refs: source.Of(r.Ref()),
		},
		operations: list(r, "operation", ParseOperation),
		materials:  list(r, "materials", readMaterial),
		tool:       table.As(r, "tool", ParseTool),
	}
	if r.Has("default") {
		row.defaults = list(r, "default", readMaterial)
	}
	return row
}
