package seal

import (
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Factor is the pair of factors that seat a gasket and keep it tight, as one
// printed row gives them for a material.
type Factor struct {
	Material string         // a name of package material
	Printed  string         // what the source calls it, where that differs
	M        float64        // maintenance factor
	Y        units.Pressure // seating stress
	Note     string
	Refs     source.Refs
}

var factors = keyed[Factor]{
	table: table.Table[printed[Factor]]{FS: &files, Name: "tables/m_y.csv", Row: readFactor},
	name:  func(f *Factor) *string { return &f.Material },
}

func readFactor(r *table.Row) printed[Factor] {
	f := Factor{
		Printed: r.Optional("printed"), M: r.Float("m"), Y: units.Pressure(r.Float("y")) * units.PSI,
		Note: r.Optional("note"), Refs: source.Of(r.Ref()),
	}
	if f.M < 0 || f.M > 20 || f.Y < 0 {
		r.Complain("m %g, y %v", f.M, f.Y)
	}
	return printed[Factor]{readKeys(r), f}
}

// Factors returns the factors of all materials. They are suggestions of a code
// for the design of flanges with the gasket inside the bolts.
func Factors() []Factor { return slices.Clone(factors.all()) }

// FactorsFor returns the factors of a material, which are several where it was
// printed soft and hard, flat and corrugated. Oiled paper seats by the entry for
// vegetable fibre. A material without factors, as cork is, is an error that lists
// those that have some. See the example.
func FactorsFor(m material.Material) ([]Factor, error) { return factors.of(m) }
