package seal

import (
	"slices"
	"strconv"
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
	if g.InsideTolerance.Sign() <= 0 || g.SectionTolerance.Sign() <= 0 ||
		g.Inside.Cmp(g.InsideTolerance) <= 0 || g.Section.Cmp(g.SectionTolerance) <= 0 {
		r.Complain("ring of %v by %v, to %v and %v", g.Inside, g.Section, g.InsideTolerance, g.SectionTolerance)
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
	return Ring{}, fail.UnknownName("O-ring size", size, sizes(), near...)
}

// sizes lists the sizes of the table, those that follow each other as one run.
func sizes() string {
	var list []string
	var last, start Ring
	follows := func(r Ring) bool {
		before, err1 := strconv.Atoi(last.Size)
		size, err2 := strconv.Atoi(r.Size)
		return err1 == nil && err2 == nil && size == before+1
	}
	end := func() {
		switch {
		case last.Size == "":
		case last.Size == start.Size:
			list = append(list, last.Size)
		default:
			list = append(list, start.Size+" to "+last.Size)
		}
	}
	for _, r := range rings.Rows() {
		if !follows(r) {
			end()
			start = r
		}
		last = r
	}
	end()
	return strings.Join(list, ", ")
}

// bare returns a size without the dash and the noughts that some write before it.
func bare(size string) string { return strings.TrimLeft(size, "- 0") }
