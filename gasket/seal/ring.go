package seal

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Ring is an O-ring of the inch series.
type Ring struct {
	Size                              string // "012"
	Inside, Section                   units.Length
	InsideTolerance, SectionTolerance units.Length // either way
	Refs                              source.Refs
}

var rings = table.Table[Ring]{FS: &files, Name: "tables/oring.csv", Row: readRing}

func readRing(r *table.Row) Ring {
	in := func(column string) units.Length { return table.As(r, column, units.Inches.Parse) }
	g := Ring{
		Size: r.Text("size"), Refs: source.Of(r.Ref()),
		Inside: in("inside"), Section: in("section"),
		InsideTolerance: in("inside_tolerance"), SectionTolerance: in("section_tolerance"),
	}
	if g.Inside.Sign() <= 0 || g.Section.Sign() <= 0 {
		r.Complain("ring of %v by %v", g.Inside, g.Section)
	}
	return g
}

// Rings returns the rings of the table, which is not the whole series.
func Rings() []Ring { return slices.Clone(rings.Rows()) }

// LookupRing returns the ring of a size, such as "012"; one that the table does
// not have is a [*units.ParseError] with those that are written alike. See the
// example of [Ring.InGland].
func LookupRing(size string) (Ring, error) {
	var near []string
	digits := bare(size)
	for _, r := range rings.Rows() {
		switch {
		case r.Size == size:
			return r, nil
		case digits != "" && bare(r.Size) == digits:
			near = append(near, r.Size)
		}
	}
	return Ring{}, fail.UnknownName("O-ring size", size, "001 to 028, 102 to 116, 210 to 218, 220, 225, 230", near...)
}

// bare returns a size without the dash and the noughts that some write before it.
func bare(size string) string { return strings.TrimLeft(size, "- 0") }
