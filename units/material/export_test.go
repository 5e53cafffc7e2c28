package material

import (
	"errors"
	"io/fs"

	"github.com/valvechest/valvechest/internal/table"
)

// Tables holds the shipped tables, for the tests of the package.
var Tables = tables

// Files are the tables of figures, without names.csv.
var Files = []string{"density", "elasticity", "expansion", "poisson", "yield", "tensile", "melting"}

// A Shipped is one row of a table of figures as it stands in the file; what is blank
// is zero.
type Shipped struct {
	Material, Source string // the source by its key
	Value, Low, High float64
}

// ShippedRows returns the rows of a table of figures in order.
func ShippedRows(name string) ([]Shipped, error) {
	rows, _, err := table.Read(tables, "tables/"+name+".csv", func(r *table.Row) Shipped {
		r.Optional("condition")
		s := Shipped{Material: r.Text("material"), Source: r.Text("source")}
		for column, to := range map[string]*float64{"value": &s.Value, "low": &s.Low, "high": &s.High} {
			if r.Has(column) {
				*to = r.Float(column)
			}
		}
		return s
	})
	return rows, err
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
