package speeds

import (
	"embed"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

//go:embed tables/*.csv
var tables embed.FS

var (
	speedTable      = table.Table[speedRow]{FS: &tables, Name: "tables/cutting_speeds.csv", Row: readSpeed}
	operationTable  = table.Table[ratio[Operation]]{FS: &tables, Name: "tables/operation_ratios.csv", Row: readOperationRatio}
	toolTable       = table.Table[ratio[Tool]]{FS: &tables, Name: "tables/tool_ratios.csv", Row: readToolRatio}
	standInTable    = table.Table[standIn]{FS: &tables, Name: "tables/stand_ins.csv", Row: readStandIn}
	feedTable       = table.Table[feedRow]{FS: &tables, Name: "tables/feeds.csv", Row: readFeed}
	adviceTable     = table.Table[adviceRow]{FS: &tables, Name: "tables/advice.csv", Row: readAdvice}
	precautionTable = table.Table[precautionRow]{FS: &tables, Name: "tables/precautions.csv", Row: readPrecaution}
	deepTable       = table.Table[deepRow]{FS: &tables, Name: "tables/deep_holes.csv", Row: readDeep}
	preferredTable  = table.Table[preferredRow]{FS: &tables, Name: "tables/preferred_numbers.csv", Row: readPreferred}
)

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

// contains reports whether v is in the list; a nil list is "any".
func contains[T comparable](all []T, v T) bool {
	if all == nil {
		return true
	}
	for _, a := range all {
		if a == v {
			return true
		}
	}
	return false
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

// A pairing is what a row is filed under.
type pairing struct {
	operations []Operation
	materials  []string // names in package material; nil: any
	tools      []Tool   // nil: any
}

func readPairing(r *table.Row) pairing {
	return pairing{list(r, "operations", ParseOperation), list(r, "materials", readMaterial), list(r, "tool", ParseTool)}
}

func (p pairing) has(op Operation, material string, tool Tool) bool {
	return contains(p.operations, op) && contains(p.materials, material) && contains(p.tools, tool)
}

// A ratio says that the speed of one thing lies between two shares of another's.
type ratio[T any] struct {
	item, of  T
	low, high float64
	chosen    bool
	basis     string // "0.5 to 0.6 of turning", with the note
	refs      source.Refs
}

func readOperationRatio(r *table.Row) ratio[Operation] {
	return readRatio(r, "operation", ParseOperation)
}

func readToolRatio(r *table.Row) ratio[Tool] { return readRatio(r, "tool", ParseTool) }

func readRatio[T fmt.Stringer](r *table.Row, column string, parse func(string) (T, error)) ratio[T] {
	row := ratio[T]{
		item: table.As(r, column, parse), of: table.As(r, "of", parse),
		low: r.Float("low"), high: r.Float("high"), chosen: yes(r, "default"), refs: source.Of(r.Ref()),
	}
	switch {
	case !(0 < row.low && row.low <= row.high):
		r.Complain("want low and high above zero and in order")
	case row.low == 1 && row.high == 1:
		row.basis = "as " + row.of.String()
	case row.low == row.high:
		row.basis = fmt.Sprintf("%g of %v", row.low, row.of)
	default:
		row.basis = fmt.Sprintf("%g to %g of %v", row.low, row.high, row.of)
	}
	if note := r.Optional("note"); note != "" {
		row.basis += " (" + note + ")"
	}
	return row
}
