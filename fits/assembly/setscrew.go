package assembly

import (
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A SetScrew is a size of socket set screw with its seating torque and, where a
// test was published, what a cup point then holds along the shaft.
type SetScrew struct {
	Name     string
	Diameter units.Length
	Seating  units.Torque
	Holding  units.Force // zero where the source gives none
	Refs     source.Refs `json:",omitzero"`
}

// SetScrews returns the published sizes, inch before metric. A size that makers'
// charts give different torques stands once for each, the lowest first.
func SetScrews() []SetScrew { return slices.Clone(setScrews.Rows()) }

var setScrews = table.Table[SetScrew]{FS: &tables, Name: "tables/setscrews.csv", Row: readSetScrew}

func readSetScrew(r *table.Row) SetScrew {
	unit := table.As(r, "unit", units.ParseLengthUnit)
	s := SetScrew{Name: r.Text("size"), Diameter: table.As(r, "diameter", unit.Parse), Refs: source.Of(r.Ref())}
	s.Seating = units.Torque(r.Float("torque")) * units.NewtonMetre
	if unit == units.Inches {
		s.Seating = units.Torque(r.Float("torque")) * units.PoundForceInch
	}
	if r.Has("holding") {
		s.Holding = units.Force(r.Float("holding")) * units.PoundForce
	}
	return s
}
