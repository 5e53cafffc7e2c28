package material

import (
	"errors"
	"io/fs"

	"github.com/valvechest/valvechest/internal/table"
)

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// Rows returns the material column of every figure table, in order, by file,
// and whether each row has a value.
func Rows() map[string][]struct {
	Material string
	HasValue bool
} {
	rows := map[string][]struct {
		Material string
		HasValue bool
	}{}
	for file, shipped := range map[string]*table.Table[figureRow]{
		"elasticity": &elasticities, "poisson": &poissons, "expansion": &expansions, "density": &densities, "yield": &yields, "tensile": &tensiles, "melting": &meltings,
	} {
		for _, r := range shipped.Rows() {
			rows[file] = append(rows[file], struct {
				Material string
				HasValue bool
			}{r.material, r.value != 0})
		}
	}
	return rows
}

// ReadTables reads the shipped tables as their first use does.
func ReadTables() error {
	files, err := fs.Glob(tables, "tables/*.csv")
	for _, name := range files {
		var bad error
		if name == "tables/names.csv" {
			_, _, bad = table.Read(tables, name, readName)
		} else {
			_, _, bad = table.Read(tables, name, readFigure)
		}
		err = errors.Join(err, bad)
	}
	return err
}
