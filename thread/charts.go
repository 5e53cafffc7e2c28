package thread

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// ChartDrills are the drills that one chart of the trade recommends for a
// thread. A chart may give two sizes side by side, one metric and one not.
type ChartDrills struct {
	Tapping   []gauge.Size
	Clearance []gauge.Size // none if the chart has no such column
	Refs      source.Refs
}

type chartRow struct {
	thread string
	drills ChartDrills
}

var charts = table.Table[chartRow]{FS: &tables, Name: "tables/tap_drills.csv", Row: readChart}

func readChart(r *table.Row) chartRow {
	sizes := func(columns ...string) []gauge.Size {
		var list []gauge.Size
		for _, column := range columns {
			if !r.Has(column) {
				continue
			}
			size, err := gauge.Parse(r.Text(column))
			if err != nil {
				r.Complain("column %q: %v", column, err)
			}
			list = append(list, size)
		}
		return list
	}
	return chartRow{r.Text("thread"), ChartDrills{
		Tapping: sizes("tapping", "tapping_named"), Clearance: sizes("clearance",
			"clearance_named"), Refs: source.Of(r.Ref()),
	}}
}

// ChartDrills returns what charts of the trade recommend for the thread; there
// may be none, and they differ. They are copied as they stand, good or bad, but for
// a misprint that the table names; those for taper pipes are in [Thread.PipeHoles].
// [Thread.CheckTappingDrill] and [Thread.ClearanceOf] say what comes of them.
func (t Thread) ChartDrills() []ChartDrills {
	var found []ChartDrills
	for _, row := range charts.Rows() {
		if row.thread == t.name {
			d := row.drills
			d.Tapping = append([]gauge.Size(nil), d.Tapping...)
			d.Clearance = append([]gauge.Size(nil), d.Clearance...)
			found = append(found, d)
		}
	}
	return found
}
