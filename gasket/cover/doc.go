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
	"fmt"
	"math"

	"github.com/valvechest/valvechest/units"
)

func bad(field, value, accepted string) error {
	return &units.ArgumentError{Package: "cover", Field: field, Value: value, Accepted: accepted, Err: units.ErrOutOfRange}
}

// positive returns an error unless a pressure or stress is finite, above zero and
// not absurd: then its products and quotients with others stay finite.
func positive(field string, p units.Pressure) error {
	v := float64(p)
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return &units.ArgumentError{Package: "cover", Field: field, Accepted: "finite numbers", Err: units.ErrNotFinite}
	case v <= 0:
		return bad(field, p.String(), "above zero")
	case v > mostPressure || v < 1/mostPressure:
		return bad(field, p.String(), "1e-12 to 1e12 Pa")
	}
	return nil
}

const mostPressure = 1e12 // Pa; five times the modulus of steel

// length returns an error unless a length is above zero and up to 10 m.
func length(field string, l units.Length) error {
	if l.Sign() <= 0 {
		return bad(field, l.String(), "above zero")
	}
	if l.Cmp(units.MM(10_000)) > 0 {
		return bad(field, l.String(), "up to 10 m")
	}
	return nil
}

// thicknessMM returns a thickness that was worked out.
func thicknessMM(v float64) (units.Length, error) {
	l, err := units.LengthMM(v)
	if err != nil {
		return l, bad("thickness that the stress asks for", fmt.Sprintf("%.3g mm", v), "a higher stress or a lower pressure")
	}
	return l, nil
}

func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
