package thread

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A NutHeight is how high the ordinary hexagon nut of a thread is.
type NutHeight struct {
	Standard string // "ISO 4032"
	Height   Range
	Refs     source.Refs
}

type nutRow struct {
	standard string
	diameter units.Length
	height   Range
	ref      source.Ref
}

var nutHeights = table.Table[nutRow]{FS: &tables, Name: "tables/nut_heights.csv", Row: func(r *table.Row) nutRow {
	unit, kind := units.Inches, r.Text("kind")
	if kind == "mm" {
		unit = units.Millimetres
	}
	row := nutRow{standard: r.Text("standard"), ref: r.Ref(), height: Range{
		Min: table.As(r, "height_min", unit.Parse), Max: table.As(r, "height_max", unit.Parse),
	}}
	switch kind {
	case "mm", "inch":
		row.diameter = table.As(r, "size", unit.Parse)
	case "number":
		row.diameter = screwNumber(r.Int("size"))
	default:
		r.Complain("kind %q is none of mm, inch, number", kind)
	}
	return row
}}

// NutHeight returns the height of a thread's ordinary nut: ISO 4032 for metric, BS
// 1083 for BSW and BSF, ASME B18.2.2 for Unified threads, machine screw nuts up to
// No. 12. Other threads, BA among them, have no table here and are an error, as are
// sizes outside the tables.
func (t Thread) NutHeight() (NutHeight, error) {
	if err := t.Validate(); err != nil {
		return NutHeight{}, err
	}
	standard := ""
	switch t.series {
	case MetricCoarse, MetricFine:
		standard = "ISO 4032"
	case BSW, BSF:
		standard = "BS 1083"
	case UNC, UNF, UNEF:
		standard = "ASME B18.2.2"
	default:
		return NutHeight{}, fail.Argument("nut of "+t.name, "", "no table for this series",
			"metric, BSW, BSF, UNC, UNF, UNEF", units.ErrUnknown)
	}
	rows := nutHeights.Rows()
	for i := range rows {
		if row := &rows[i]; row.standard == standard && row.diameter == t.major {
			return NutHeight{Standard: standard, Height: row.height, Refs: source.Shared(&row.ref)}, nil
		}
	}
	return NutHeight{}, fail.OutOfRange("nut of "+t.name, "", "diameters that "+standard+" lists")
}
