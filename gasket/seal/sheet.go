package seal

import (
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Sheet is the thickness of a material that gaskets are cut from.
type Sheet struct {
	Material string // a name of package material
	Printed  string // what the source calls it
	Min, Max units.Length
	Refs     source.Refs
}

var sheets = keyed[Sheet]{
	table: table.Table[printed[Sheet]]{FS: &files, Name: "tables/sheet.csv", Row: readSheet},
	name:  func(s *Sheet) *string { return &s.Material },
}

func readSheet(r *table.Row) printed[Sheet] {
	s := Sheet{
		Printed: r.Text("printed"), Refs: source.Of(r.Ref()),
		Min: table.As(r, "min", units.Millimetres.Parse), Max: table.As(r, "max", units.Millimetres.Parse),
	}
	if s.Min.Sign() <= 0 || s.Max.Cmp(s.Min) < 0 {
		r.Complain("thickness from %v to %v", s.Min, s.Max)
	}
	return printed[Sheet]{readKeys(r), s}
}

// Sheets returns the thicknesses that were found in print, and one that was
// not. Measure your own.
func Sheets() []Sheet { return slices.Clone(sheets.all()) }

// SheetsFor returns the thicknesses that a material is sold in; none is an error
// that lists the materials with some. See the example.
func SheetsFor(m material.Material) ([]Sheet, error) { return sheets.of(m) }
