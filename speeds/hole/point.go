package hole

import (
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Point is how to grind a drill for a material.
type Point struct {
	Material                   string      // as the source calls it
	Angle                      units.Angle // of the point, included
	ClearanceMin, ClearanceMax units.Angle // behind the lip
	Helix                      string      // slow, standard or quick
	Refs                       source.Refs
}

// PointFor returns the point angle, lip clearance and helix that a handbook
// gives for the material, for plastics those of phenolic plastic. Most materials
// are drilled with the usual 118 degree point and are in no table, which is an
// error. See the Example.
func PointFor(m material.Material) (Point, error) {
	for _, row := range pointTable.Rows() {
		if slices.Contains(row.materials, m.Name) {
			return row.point, nil
		}
	}
	const accepted = "aluminium, brass, copper, plastic"
	if m.Name == "" {
		return Point{}, fail.Missing("material", accepted)
	}
	return Point{}, fail.Argument("drill point", m, "we have no special point: grind the usual 118 degrees", accepted, units.ErrUnknown)
}

type pointRow struct {
	materials []string // names in package material
	point     Point
}

func readPoint(r *table.Row) pointRow {
	degrees := func(column string) units.Angle { return units.Angle(r.Float(column)) * units.Degree }
	return pointRow{materialNames(r, "materials"), Point{
		Material: r.Text("material_as_published"), Angle: degrees("point"),
		ClearanceMin: degrees("clearance_low"), ClearanceMax: degrees("clearance_high"),
		Helix: r.Text("helix"), Refs: source.Of(r.Ref()),
	}}
}
