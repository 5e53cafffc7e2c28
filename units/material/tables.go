package material

import (
	"embed"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/source"
)

//go:embed tables/*.csv
var tables embed.FS

var (
	nameRows     = table.Table[nameRow]{FS: &tables, Name: "tables/names.csv", Row: readName}
	elasticities = table.Table[figureRow]{FS: &tables, Name: "tables/elasticity.csv", Row: readFigure}
	poissons     = table.Table[figureRow]{FS: &tables, Name: "tables/poisson.csv", Row: readFigure}
	expansions   = table.Table[figureRow]{FS: &tables, Name: "tables/expansion.csv", Row: readFigure}
	densities    = table.Table[figureRow]{FS: &tables, Name: "tables/density.csv", Row: readFigure}
	tensiles     = table.Table[figureRow]{FS: &tables, Name: "tables/tensile.csv", Row: readFigure}
	meltings     = table.Table[figureRow]{FS: &tables, Name: "tables/melting.csv", Row: readFigure}
	yields       = table.Table[figureRow]{FS: &tables, Name: "tables/yield.csv", Row: readFigure}
)

type nameRow struct {
	material Material
	others   []string
}

func readName(r *table.Row) nameRow {
	var others []string
	for name := range strings.SplitSeq(r.Optional("other_names"), ";") {
		if name = strings.TrimSpace(name); name != "" {
			others = append(others, name)
		}
	}
	r.Ref()
	return nameRow{Material{Name: r.Text("name"), Family: table.As(r, "family", ParseFamily), Grade: r.Optional("grade")}, others}
}

// A figureRow is one source's figure, in the unit of its table. A row with a
// range and no value has value zero.
type figureRow struct {
	material         string
	value, low, high float64
	ref              source.Ref
}

func readFigure(r *table.Row) figureRow {
	row := figureRow{material: r.Text("material"), ref: r.Ref()}
	if condition := r.Optional("condition"); condition != "" {
		row.ref.Note = strings.TrimPrefix(row.ref.Note+"; "+condition, "; ")
	}
	if r.Has("value") {
		row.value = r.Float("value")
		row.low, row.high = row.value, row.value
	}
	if r.Has("low") || r.Has("high") {
		row.low, row.high = r.Float("low"), r.Float("high")
	}
	if !(0 < row.low && row.low <= row.high) || row.value != 0 && (row.value < row.low || row.value > row.high) {
		r.Complain("want a value, or low and high, or all three in order")
	}
	return row
}
