package speeds

import (
	"embed"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

//go:embed tables/*.csv
var tables embed.FS

var (
	speedTable     = table.Table[speedRow]{FS: &tables, Name: "tables/cutting_speeds.csv", Row: readSpeed}
	operationTable = table.Table[ratio[Operation]]{FS: &tables, Name: "tables/operation_ratios.csv", Row: readOperationRatio}
	toolTable      = table.Table[ratio[Tool]]{FS: &tables, Name: "tables/tool_ratios.csv", Row: readToolRatio}
	standInTable   = table.Table[standIn]{FS: &tables, Name: "tables/stand_ins.csv", Row: readStandIn}
	feedTable      = table.Table[feedRow]{FS: &tables, Name: "tables/feeds.csv", Row: readFeed}
	adviceTable    = table.Table[adviceRow]{FS: &tables, Name: "tables/advice.csv", Row: readAdvice}
	pointTable     = table.Table[DrillPoint]{FS: &tables, Name: "tables/drill_points.csv", Row: readPoint}
	deepTable      = table.Table[deepRow]{FS: &tables, Name: "tables/deep_holes.csv", Row: readDeep}
	reamingTable   = table.Table[reamingRow]{FS: &tables, Name: "tables/reaming.csv", Row: readReaming}
	holeTable      = table.Table[holeRow]{FS: &tables, Name: "tables/drilled_holes.csv", Row: readHole}
	preferredTable = table.Table[preferredRow]{FS: &tables, Name: "tables/preferred_numbers.csv", Row: readPreferred}
)

// A speedRow is one published range with the pairings it is filed under, and
// the materials for which it is the default.
type speedRow struct {
	published  Published
	operations []Operation
	materials  []Material
	tool       Tool
	defaults   []Material
}

func readSpeed(r *table.Row) speedRow {
	unit := speedUnit(r, "unit")
	low, high := r.Float("low"), r.Float("high")
	if !(0 < low && low <= high) {
		r.Complain("want low and high above zero and in order")
	}
	row := speedRow{
		published: Published{
			Low: units.Speed(low) * unit, High: units.Speed(high) * unit,
			Material: r.Text("material_as_published"), Tool: r.Text("tool_as_published"),
			Period: r.Text("period"), Bound: r.Optional("bound"), Note: r.Optional("note"), Ref: r.Ref(),
		},
		operations: list(r, "operation", ParseOperation),
		materials:  list(r, "materials", ParseMaterial),
		tool:       one(r, "tool", ParseTool),
	}
	if r.Has("default") {
		row.defaults = list(r, "default", ParseMaterial)
	}
	return row
}

func speedUnit(r *table.Row, column string) units.Speed {
	v, err := units.ParseSpeed("1 " + r.Text(column))
	if err != nil {
		r.Complain("column %q: %v", column, err)
	}
	return v
}

func one[T any](r *table.Row, column string, parse func(string) (T, error)) T {
	v, err := parse(r.Text(column))
	if err != nil {
		r.Complain("column %q: %v", column, err)
	}
	return v
}

// list reads the names in a cell, which semicolons part; "any" is none of them.
func list[T any](r *table.Row, column string, parse func(string) (T, error)) []T {
	text := r.Text(column)
	if text == "any" {
		return nil
	}
	var all []T
	for name := range strings.SplitSeq(text, ";") {
		v, err := parse(strings.TrimSpace(name))
		if err != nil {
			r.Complain("column %q: %v", column, err)
		}
		all = append(all, v)
	}
	return all
}

// A ratio says that the speed of one thing lies between two shares of another's.
type ratio[T any] struct {
	item, of  T
	low, high float64
	chosen    bool
	basis     string // "0.5 to 0.6 of turning", with the note
	ref       source.Ref
}

// share returns the range that follows from r by the ratio.
func (row *ratio[T]) share(r Range) Range {
	r.Low *= units.Speed(row.low)
	r.High *= units.Speed(row.high)
	r.Basis = join(r.Basis, row.basis)
	r.Rules = row.ref
	return r
}

func readOperationRatio(r *table.Row) ratio[Operation] {
	return readRatio(r, one(r, "operation", ParseOperation), one(r, "of", ParseOperation))
}

func readToolRatio(r *table.Row) ratio[Tool] {
	return readRatio(r, one(r, "tool", ParseTool), one(r, "of", ParseTool))
}

func readRatio[T fmt.Stringer](r *table.Row, item, of T) ratio[T] {
	row := ratio[T]{item: item, of: of, low: r.Float("low"), high: r.Float("high"), chosen: yes(r, "default"), ref: r.Ref()}
	switch {
	case !(0 < row.low && row.low <= row.high):
		r.Complain("want low and high above zero and in order")
	case row.low == 1 && row.high == 1:
		row.basis = "as " + of.String()
	case row.low == row.high:
		row.basis = fmt.Sprintf("%g of %v", row.low, of)
	default:
		row.basis = fmt.Sprintf("%g to %g of %v", row.low, row.high, of)
	}
	if note := r.Optional("note"); note != "" {
		row.basis += " (" + note + ")"
	}
	return row
}

func yes(r *table.Row, column string) bool {
	switch s := r.Optional(column); s {
	case "yes":
		return true
	case "":
	default:
		r.Complain("column %q: %q is neither yes nor blank", column, s)
	}
	return false
}

type standIn struct {
	material, standIn Material
	why               string
}

func readStandIn(r *table.Row) standIn {
	r.Ref()
	return standIn{one(r, "material", ParseMaterial), one(r, "stand_in", ParseMaterial), r.Text("why")}
}

// lengthUnit reads the unit that a column names.
func lengthUnit(r *table.Row, column string) units.LengthUnit {
	return one(r, column, units.ParseLengthUnit)
}
