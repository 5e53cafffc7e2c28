package speeds

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

// An Advice is something to mind with an operation, in one or two sentences.
type Advice struct {
	Kind string // rake, lubricant, chips, skin, holding, break-through, long drill, speed, safety
	Text string
	Ref  source.Ref
}

// String returns the advice with its kind and source.
func (a Advice) String() string { return fmt.Sprintf("%s: %s (%v)", a.Kind, a.Text, a.Ref) }

type adviceRow struct {
	operations []Operation
	materials  []Material // nil: any
	tools      []Tool     // nil: any
	advice     Advice
}

func readAdvice(r *table.Row) adviceRow {
	kind := r.Text("kind")
	switch kind {
	case "rake", "lubricant", "chips", "skin", "holding", "break-through", "long drill", "speed", "safety":
	default:
		r.Complain("kind %q", kind)
	}
	return adviceRow{
		operations: list(r, "operations", ParseOperation),
		materials:  list(r, "materials", ParseMaterial),
		tools:      list(r, "tool", ParseTool),
		advice:     Advice{Kind: kind, Text: r.Text("text"), Ref: r.Ref()},
	}
}

// adviceFor returns what can hurt somebody first, then the rest, both in the
// order of the table.
func adviceFor(op Operation, m Material, tool Tool) []Advice {
	var safety, all []Advice
	for _, row := range adviceTable.Rows() {
		if !contains(row.operations, op) || !contains(row.materials, m) || !contains(row.tools, tool) {
			continue
		}
		if row.advice.Kind == "safety" {
			safety = append(safety, row.advice)
		} else {
			all = append(all, row.advice)
		}
	}
	return append(safety, all...)
}
