package thread

import (
	"math"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Hexagon is the hexagon that a standard puts on the nut or bolt of a thread.
type Hexagon struct {
	Standard string // "ISO 4032"
	Flats    Range  // width across flats: the largest is the spanner's; the least is open where the source does not say
	Refs     source.Refs
}

// Corners returns the width across the corners of the largest hexagon, sharp.
//
//	corners = flats / cos 30
func (h Hexagon) Corners() units.Length { return h.Flats.Max.Scale(2 / math.Sqrt(3)) }

type hexagonRow struct {
	diameter, flats, least units.Length
	ref                    source.Ref
}

func readHexagon(r *table.Row, diameter string, unit units.LengthUnit) hexagonRow {
	length := func(column string) units.Length { return table.As(r, column, unit.Parse) }
	return hexagonRow{length(diameter), length("flats_max"), length("flats_min"), r.Ref()}
}

var (
	hexagonsISO = table.Table[hexagonRow]{
		FS: &tables, Name: "tables/hexagons_iso.csv",
		Row: func(r *table.Row) hexagonRow { return readHexagon(r, "nominal", units.Millimetres) },
	}
	hexagonsBS = table.Table[hexagonRow]{
		FS: &tables, Name: "tables/hexagons_bs.csv",
		Row: func(r *table.Row) hexagonRow { return readHexagon(r, "nominal", units.Inches) },
	}
	hexagonsASME = table.Table[hexagonRow]{
		FS: &tables, Name: "tables/hexagons_asme.csv",
		Row: func(r *table.Row) hexagonRow {
			r.Text("size") // for people who read the table
			return readHexagon(r, "diameter", units.Inches)
		},
	}
)

// baFlats is the width across flats of BA hexagons over their diameter.
const baFlats = 1.75

var baFlatsRef = source.Ref{
	Kind: source.Unreviewed, Title: "British Association threads, page of a supplier of British fasteners", Edition: "2021",
	Note: "1.75 times the diameter",
}

// Hexagon returns the hexagon of a thread's ordinary nuts, and of its bolts
// where they share it.
//
//	metric      ISO 4032 nuts, with which ISO 4014 and 4017 bolts agree; M1.6 to M64
//	BSW, BSF    BS 1083 bolts and nuts, 1/4 to 2 in
//	Unified     ASME B18.2.2 machine screw nuts, No. 0 to 12, and hex nuts, 1/4 to 1 1/2 in
//	BA          1.75 times the diameter, all sizes
//
// Fine pitches take the hexagon of their diameter. Older metric hexagons (17 for
// M10, 19 for M12, 22 for M14, 32 for M22), machine screw nuts of 1/4 to 3/8 in
// (7/16, 9/16 and 5/8 in), smaller heads of machine screws, and hexagons one
// size down for scale looks are in use too: measure what there is. Model engineer,
// brass, cycle, pipe and traversing threads have no table here and are an error, as
// are sizes outside the tables. Source: each result's Refs; the BA rule is that of a page of a supplier of
// British fasteners, and agrees with the inch sizes of BS 57 as remembered.
func (t Thread) Hexagon() (Hexagon, error) {
	if err := t.Validate(); err != nil {
		return Hexagon{}, err
	}
	var rows []hexagonRow
	standard := ""
	switch t.Series() {
	case MetricCoarse, MetricFine, MetricOld:
		rows, standard = hexagonsISO.Rows(), "ISO 4032"
	case BSW, BSF:
		rows, standard = hexagonsBS.Rows(), "BS 1083"
	case UNC, UNF, UNEF:
		rows, standard = hexagonsASME.Rows(), "ASME B18.2.2"
	case BA:
		return Hexagon{Standard: "BS 57", Flats: Range{Max: t.Major().Scale(baFlats)}, Refs: source.Shared(&baFlatsRef)}, nil
	default:
		return Hexagon{}, fail.Argument("hexagon of "+t.Designation(), "", "no table for this series",
			"metric, BSW, BSF, BA, UNC, UNF, UNEF", units.ErrUnknown)
	}
	for i := range rows {
		if row := &rows[i]; row.diameter == t.Major() {
			return Hexagon{Standard: standard, Flats: Range{Min: row.least, Max: row.flats}, Refs: source.Shared(&row.ref)}, nil
		}
	}
	return Hexagon{}, fail.OutOfRange("hexagon of "+t.Designation(), "",
		"diameters that "+standard+" lists: "+rows[0].diameter.String()+" to "+rows[len(rows)-1].diameter.String())
}
