package holding

import (
	"embed"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("holding")

//go:embed tables/*.csv
var tables embed.FS

var rimTable = table.Table[rimRow]{FS: &tables, Name: "tables/rim_limits.csv", Row: readRim}

type rimRow struct {
	limit  RimLimit
	chosen bool
}

func readRim(r *table.Row) rimRow {
	row := rimRow{
		limit: RimLimit{r.Text("name"), units.Speed(r.Float("limit")) * units.FootPerMinute, source.Of(r.Ref())},
	}
	switch chosen := r.Optional("default"); chosen {
	case "yes":
		row.chosen = true
	case "":
	default:
		r.Complain("column %q: %q is neither yes nor blank", "default", chosen)
	}
	if row.limit.Speed <= 0 {
		r.Complain("want a speed above zero")
	}
	return row
}
