package assembly

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Friction is the coefficient of adhesion of a joint: the share of the
// pressing force that holds it against slipping, at both ends of what the
// source gives. The zero value is none.
type Friction struct {
	Min, Max   float64
	Hub, Shaft material.Family
	// Assembly is "transverse", shrunk or by oil pressure, "longitudinal", pressed,
	// or "static", at rest, where the source names no kind of joint.
	Assembly  string
	Condition string
	Refs      source.Refs `json:",omitzero"`
}

// Frictions returns the coefficients of adhesion that are at hand, in the order of
// their tables; none is from a reviewed print. Take the least to be sure that a joint holds, the most to be
// sure that the press is big enough.
func Frictions() []Friction { return slices.Clone(frictions.Rows()) }

// Mu returns a coefficient of friction that the caller knows, the same at both
// ends. One that is no number, or endless, is none: the zero value, which every
// calculation refuses.
func Mu(mu float64) Friction {
	if math.IsNaN(mu) || math.IsInf(mu, 0) {
		return Friction{}
	}
	return Friction{Min: mu, Max: mu}
}

// Validate returns an error for a coefficient that no joint has.
func (f Friction) Validate() error {
	switch {
	case f.Min == 0 && f.Max == 0:
		return fail.Missing("friction",
			"a coefficient from Frictions, or Mu with one of your own; 0.10 to 0.15 is usual for oiled steel")
	case !(f.Min > 0 && f.Min <= f.Max && f.Max <= 1):
		return fail.OutOfRange("friction", fmt.Sprintf("%.6g to %.6g", f.Min, f.Max), "above 0 up to 1, the least first")
	}
	return nil
}

var frictions = table.Table[Friction]{FS: &tables, Name: "tables/friction.csv", Row: readFriction}

func readFriction(r *table.Row) Friction {
	return Friction{
		Min: r.Float("low"), Max: r.Float("high"),
		Hub: table.As(r, "hub", material.ParseFamily), Shaft: table.As(r, "shaft", material.ParseFamily),
		Assembly: r.Text("assembly"), Condition: r.Text("condition"), Refs: source.Of(r.Ref()),
	}
}
