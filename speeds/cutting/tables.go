package cutting

import (
	"embed"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

const fail = fault.Package("cutting")

//go:embed tables/*.csv
var tables embed.FS

var (
	kienzleTable = table.Table[row[Kienzle]]{FS: &tables, Name: "tables/kienzle.csv", Row: readKienzle}
	feedTable    = table.Table[row[Force]]{FS: &tables, Name: "tables/force_at_feed.csv", Row: readForce}
	powerTable   = table.Table[row[UnitPower]]{FS: &tables, Name: "tables/unit_power.csv", Row: readPower}
)

// A row is a figure with the materials, by their names in package material, that
// it serves for.
type row[T any] struct {
	materials []string
	value     T
}

func readRow[T any](r *table.Row, value T) row[T] {
	var all []string
	for name := range strings.SplitSeq(r.Optional("materials"), ";") {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		if m, err := material.Lookup(name); err != nil || m.Name != name {
			r.Complain("column %q: %q is not the name of a material", "materials", name)
		}
		all = append(all, name)
	}
	return row[T]{all, value}
}

// printed returns the material and its condition in the words of the source.
func printed(r *table.Row) string {
	return strings.TrimSuffix(r.Text("material_as_published")+", "+r.Optional("condition"), ", ")
}

// valuesFor returns the figures of a table for a material, in its order, or the
// error that there is none.
func valuesFor[T any](rows []row[T], what string, m material.Material) ([]T, error) {
	var all []T
	for _, row := range rows {
		if slices.Contains(row.materials, m.Name) {
			all = append(all, row.value)
		}
	}
	if all != nil {
		return all, nil
	}
	var names []string
	for _, m := range material.All() {
		if slices.ContainsFunc(rows, func(row row[T]) bool { return slices.Contains(row.materials, m.Name) }) {
			names = append(names, m.Name)
		}
	}
	accepted := strings.Join(names, "; ")
	if m.Name == "" {
		return nil, fail.Missing("material", accepted)
	}
	return nil, fail.Argument("material", m, "we have no figure of its "+what, accepted, units.ErrUnknown)
}

// valueFor returns the first figure for a material.
func valueFor[T any](rows []row[T], what string, m material.Material) (T, error) {
	for _, row := range rows {
		if slices.Contains(row.materials, m.Name) {
			return row.value, nil
		}
	}
	_, err := valuesFor(rows, what, m)
	var none T
	return none, err
}
