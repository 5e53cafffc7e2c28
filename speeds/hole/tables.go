package hole

import (
	"embed"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/material"
)

const fail = fault.Package("hole")

//go:embed tables/*.csv
var tables embed.FS

var (
	pointTable   = table.Table[pointRow]{FS: &tables, Name: "tables/drill_points.csv", Row: readPoint}
	reamingTable = table.Table[reamingRow]{FS: &tables, Name: "tables/reaming.csv", Row: readReaming}
	drilledTable = table.Table[drilledRow]{FS: &tables, Name: "tables/drilled_holes.csv", Row: readDrilled}
)

// materialNames reads the names of materials in a cell, which semicolons part.
func materialNames(r *table.Row, column string) []string {
	var all []string
	for name := range strings.SplitSeq(r.Optional(column), ";") {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		if m, err := material.Lookup(name); err != nil || m.Name != name {
			r.Complain("column %q: %q is not the name of a material", column, name)
		}
		all = append(all, name)
	}
	return all
}
