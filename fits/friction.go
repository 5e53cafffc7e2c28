package fits

import (
	"slices"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Friction is the coefficient of adhesion of a joint: the share of the
// pressing force that holds it against slipping, at both ends of what the
// source gives.
type Friction struct {
	Low, High float64
	Hub       string // "steel", "cast iron", "bronze", "brass", "light alloy"
	Shaft     string
	Assembly  string // "transverse": shrunk or by oil pressure; "longitudinal": pressed; "static": at rest, no kind of joint named
	Condition string
	Ref       source.Ref
}

// Frictions returns the published coefficients of adhesion, in the order of
// their tables. Take the low end to be sure that a joint holds, the high end to
// be sure that the press is big enough.
func Frictions() []Friction { return slices.Clone(frictions.Rows()) }

// Mu returns a coefficient of friction that the caller knows, the same at both
// ends.
func Mu(mu float64) Friction { return Friction{Low: mu, High: mu} }

func (f Friction) check() error {
	switch {
	case f.Low == 0 && f.High == 0:
		return &units.ArgumentError{Package: "fits", Field: "friction", Accepted: "a coefficient from Frictions, or Mu with one of your own; 0.10 to 0.15 is usual for oiled steel", Err: units.ErrMissing}
	case !(f.Low > 0 && f.Low <= f.High && f.High <= 1):
		return &units.ArgumentError{Package: "fits", Field: "friction", Value: plain(f.Low) + " to " + plain(f.High), Accepted: "above 0 up to 1, low end first", Err: units.ErrOutOfRange}
	}
	return nil
}

var frictions = table.Table[Friction]{FS: &tables, Name: "tables/friction.csv", Row: readFriction}

func readFriction(r *table.Row) Friction {
	return Friction{Low: r.Float("low"), High: r.Float("high"), Hub: r.Text("hub"), Shaft: r.Text("shaft"), Assembly: r.Text("assembly"), Condition: r.Text("condition"), Ref: r.Ref()}
}
