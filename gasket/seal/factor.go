package seal

import (
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Factor is the pair of gasket factors of one material.
type Factor struct {
	Material string
	M        float64        // maintenance factor
	Y        units.Pressure // seating stress
	Note     string
	Ref      source.Ref
}

var factors = table.Table[Factor]{FS: &files, Name: "tables/m_y.csv", Row: func(r *table.Row) Factor {
	f := Factor{Material: r.Text("material"), M: r.Float("m"), Y: units.Pressure(r.Float("y")) * units.PSI, Note: r.Optional("note"), Ref: r.Ref()}
	if f.M < 0 || f.M > 20 || f.Y < 0 {
		r.Complain("m %g, y %v", f.M, f.Y)
	}
	return f
}}

// Factors returns the factors of all materials. They are suggestions of a code
// for the design of flanges with the gasket inside the bolts.
func Factors() []Factor { return slices.Clone(factors.Rows()) }

// FactorFor returns the factors of a material; an unknown one is an error that
// lists the known ones.
func FactorFor(material string) (Factor, error) {
	var names []string
	for _, f := range factors.Rows() {
		if f.Material == material {
			return f, nil
		}
		names = append(names, f.Material)
	}
	return Factor{}, &units.ArgumentError{Package: "seal", Field: "material", Value: strconv.Quote(material), Accepted: strings.Join(names, "; "), Err: units.ErrUnknown}
}
