// Package seal holds what keeps steam in: the limits of gasket materials and
// their factors, what the thickness of a gasket changes, O-rings and their
// grooves, and packed glands.
//
// It is for choosing and checking. It does not know a maker's grade; where a
// maker says something else, the maker is right. Old gaskets, packing and lagging
// may hold asbestos: [AsbestosCaution] belongs on every page that tells people to
// take an old joint apart, and no table here has a row for it.
//
// # Sources
//
// An engineering reference table and suppliers' guides for the limits; trade
// reprints of ASME VIII-1, table 2-5.1, for m and y; AS568 for O-rings and a seal
// maker's design guide for their grooves, stretch and thinning. Figures that were
// recalled say so in their Ref.
//
// # What is left out
//
// Back-up rings (not needed below about 100 bar), gas permeation, metric O-rings
// outside the inch sections, lip seals, piston rings.
//
// # How it was checked
//
// O-rings against tables in millimetres; the squeeze that the groove table prints,
// in percent and in inches, against its own depths; grooves against a second
// table, whose disagreement the test names; m and y against Moss, a gasket maker's
// catalogue and the metric table of ASME VIII-2 (2010), one row as recalled.
package seal

import (
	"embed"
	"math"

	"github.com/valvechest/valvechest/units"
)

//go:embed tables/*.csv
var files embed.FS

func bad(field, value, accepted string) error {
	return &units.ArgumentError{Package: "seal", Field: field, Value: value, Accepted: accepted, Err: units.ErrOutOfRange}
}

const most = 10_000 // millimetres: no length here is longer

func positive(field string, l units.Length) error {
	if l.Sign() <= 0 {
		return bad(field, l.String(), "above zero")
	}
	return notLong(field, l)
}

func notLong(field string, l units.Length) error {
	if l.Cmp(units.MM(most)) > 0 {
		return bad(field, l.String(), "up to 10 m")
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
