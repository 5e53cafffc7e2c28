package hole

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Drilled is the size that a drilled hole comes out at.
type Drilled struct {
	Min, Max units.Length
	Refs     source.Refs
}

// DrilledFor returns the limits that a drilled hole of general machine work keeps
// to, with a jig, by design standard AND10387: from 0.001 in below the drill to
// 0.004 in above it at 1/8 in, 0.006 in above at 1/2 in. A drill ground unevenly
// or that runs out does worse. Drills from 0.0135 in to 2 in. See the Example.
func DrilledFor(drill units.Length) (Drilled, error) {
	rows := drilledTable.Rows()
	for i, row := range rows {
		if (drill.Cmp(row.sizeLow) > 0 || i == 0 && drill == row.sizeLow) && drill.Cmp(row.sizeHigh) <= 0 {
			return Drilled{drill.Sub(row.minus), drill.Add(row.plus), row.refs}, nil
		}
	}
	return Drilled{}, fail.OutOfRange("drill", drill, "0.0135 in (0.3429 mm) to 2 in (50.8 mm)")
}

type drilledRow struct {
	sizeLow, sizeHigh, plus, minus units.Length
	refs                           source.Refs
}

func readDrilled(r *table.Row) drilledRow {
	inches := func(column string) units.Length { return table.As(r, column, units.Inches.Parse) }
	return drilledRow{inches("size_low"), inches("size_high"), inches("plus"), inches("minus"), source.Of(r.Ref())}
}
