package speeds

import (
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// States of iron that rules of this package single out, by their names in
// package material.
const (
	ironSkin    = "cast iron, skin on"
	chilledIron = "chilled iron"
)

// Materials returns the materials that there are cutting speeds for, their own
// or those of another that stands in, in the order of package material.
func Materials() []material.Material {
	figures := materialsWithFigures.Get(indexMaterials)
	var all []material.Material
	for _, m := range material.All() {
		if figures[m.Name] {
			all = append(all, m)
		}
	}
	return all
}

var materialsWithFigures table.Once[map[string]bool]

func indexMaterials() map[string]bool {
	figures := map[string]bool{}
	for _, row := range speedTable.Rows() {
		for _, name := range row.defaults {
			figures[name] = true
		}
	}
	for _, row := range standInTable.Rows() {
		figures[row.material] = true
	}
	return figures
}

// checkMaterial returns an error for a material without a cutting speed.
func checkMaterial(m material.Material) error {
	if materialsWithFigures.Get(indexMaterials)[m.Name] {
		return nil
	}
	var names []string
	for _, m := range Materials() {
		names = append(names, m.Name)
	}
	accepted := strings.Join(names, "; ")
	if m.Name == "" {
		return fail.Missing("material", accepted)
	}
	return fail.Argument("material", m, "we have no cutting figure for it", accepted, units.ErrUnknown)
}

// readMaterial reads the name of a material as the tables write it.
func readMaterial(name string) (string, error) {
	m, err := material.Lookup(name)
	if err == nil && m.Name != name {
		return "", fail.Unreadable("material", name, "another name of it", m.Name)
	}
	return name, err
}

// A standIn is a material whose figure serves for another.
type standIn struct {
	material, standIn string
	why               string
	refs              source.Refs
}

func readStandIn(r *table.Row) standIn {
	return standIn{table.As(r, "material", readMaterial), table.As(r, "stand_in", readMaterial), r.Text("why"), source.Of(r.Ref())}
}

var standInsByName table.Once[map[string]*standIn]

func standIns() map[string]*standIn {
	return standInsByName.Get(func() map[string]*standIn {
		all := map[string]*standIn{}
		rows := standInTable.Rows()
		for i := range rows {
			all[rows[i].material] = &rows[i]
		}
		return all
	})
}
