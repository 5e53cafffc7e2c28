// Package cover works out how thin a cover or a cylinder wall may be: stress and
// deflection of flat round and rectangular covers, hoop stress of cylinders, what
// a cover that was cut too thin still does, and the practice of test pressures.
//
// It is for the covers and cylinders of a small engine. Boilers, receivers and
// anything else that the law calls a pressure vessel go by the code of the place
// and its licensed inspector. Castings are made thicker than these formulas ask,
// for porosity, for the core that shifted and for the chuck.
//
// # Sources
//
// Carvill, Mechanical Engineer's Data Handbook, 1.10, and Machinery's Handbook,
// 31st edition, pp. 289-290, for plates; the textbooks of the strength of
// materials for cylinders. A bolted cover is neither quite supported nor quite
// clamped at its rim: both are given, and the safe one is the supported.
//
// # What is left out
//
// Ribs, bosses and a stuffing box in the middle of the cover, which stiffen it or
// raise stress; the bending of the flange outside the studs; fatigue; creep;
// cast iron's brittleness.
//
// # How it was checked
//
// Against Lineham's worked profile of a thick cylinder, solved problems in print,
// and the coefficients of Roark's table 11.4 for supported rectangular plates,
// from which the formula departs by up to 5 percent; for clamped ones against an
// energy method, from which it departs by up to 8 percent, on the safe side.
// Worked round plates of Timoshenko and of a handbook of calculations, and the
// factors that Carvill and Machinery's Handbook print, are met to within their
// rounding; two more are recalled, and six made up, and are marked so.
package cover

import (
	"math"

	"github.com/valvechest/valvechest/units"
)

func bad(field, value, accepted string) error {
	return &units.ArgumentError{Package: "cover", Field: field, Value: value, Accepted: accepted, Err: units.ErrOutOfRange}
}

// positive returns an error unless the value is finite, above zero and not absurd:
// then its products and quotients with others stay finite.
func positive(field string, value float64, text string) error {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return &units.ArgumentError{Package: "cover", Field: field, Accepted: "finite numbers", Err: units.ErrNotFinite}
	}
	if value <= 0 {
		return bad(field, text, "above zero")
	}
	if value > 1e12 || value < 1e-12 {
		return bad(field, text, "1e-12 to 1e12")
	}
	return nil
}

func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
