// Package joint works out what a bolted joint carries: the force of the
// pressure, the load that seats and holds a gasket, the load, stress, preload and
// torque of each stud, the order of tightening and the rules for the distance
// between studs.
//
// It is for the covers of a small engine. It is not a design code: a boiler, and
// anything else that the law calls a pressure vessel, goes by the code of the
// place and its licensed inspector. The gasket method is that of ASME VIII-1,
// appendix 2, which holds for a gasket that lies wholly inside the studs and not
// for the full-face gaskets of most models; [Gasket.Loads] says more.
//
// The stress area of a stud comes from package thread, the factors m and y of a
// gasket from package seal.
//
// # Sources
//
// ASME Boiler and Pressure Vessel Code VIII-1, appendix 2, by way of Moss,
// Pressure Vessel Design Manual, and of worked sheets; Shigley's Mechanical
// Engineering Design, chapter 8, for preload and torque; the spacing rules name
// their own. Where sources disagree the rules stand side by side.
//
// # What is left out
//
// Flange rotation and the bending of flanges; the stiffness of joint and stud
// (a gasket's stiffness is seldom known); fatigue. No published torque table for
// BA or small brass studs was found.
//
// # How it was checked
//
// Every worked example of testdata/gasket/bolt_load.csv and torque.csv whose
// inputs the source prints is worked again; the notes there say which of them are
// worked sheets of unknown checking. The order of tightening is held against one
// in print for 12 bolts.
package joint

import (
	"math"

	"github.com/valvechest/valvechest/units"
)

func bad(field, value, accepted string) error {
	return &units.ArgumentError{Package: "joint", Field: field, Value: value, Accepted: accepted, Err: units.ErrOutOfRange}
}

// A number is an argument with the limits that it must keep.
type number struct {
	field  string
	value  float64
	text   string
	strict bool // above zero; otherwise zero will do
}

// most is beyond anything that a joint holds, in SI units, and its inverse below
// it: products and quotients of numbers in between stay finite.
const most = 1e12

// accept returns an error for the first number that is not finite, or not above
// zero, or absurd.
func accept(numbers ...number) error {
	for _, n := range numbers {
		switch {
		case math.IsNaN(n.value) || math.IsInf(n.value, 0):
			return &units.ArgumentError{Package: "joint", Field: n.field, Accepted: "finite numbers", Err: units.ErrNotFinite}
		case n.strict && n.value <= 0:
			return bad(n.field, n.text, "above zero")
		case n.value < 0:
			return bad(n.field, n.text, "zero or more")
		case n.value > most || n.strict && n.value < 1/most:
			return bad(n.field, n.text, "1e-12 to 1e12 in SI units")
		}
	}
	return nil
}
