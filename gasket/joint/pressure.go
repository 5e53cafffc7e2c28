package joint

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

const fail = fault.Package("joint")

// EndForce returns the force with which a pressure lifts a cover.
//
//	F = p * A
//
//	p  the pressure above that outside, zero or more
//	A  the area that it can reach: to the studs, if the gasket may leak
//
// Source: mechanics; every textbook. See the example of [Studs.Load].
func EndForce(pressure units.Pressure, area units.Area) (units.Force, error) {
	if err := zeroOrMore("pressure", pressure); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "area under pressure", area); err != nil {
		return 0, err
	}
	return units.Force(float64(pressure) * float64(area)), nil
}

const most = 1e15 // in SI units: products of what is below it stay finite

// zeroOrMore returns an error for a quantity that is not finite, is below zero,
// or is so large that nobody means it.
func zeroOrMore[Q fault.Quantity](field string, v Q) error {
	if err := fault.Finite(fail, field, v); err != nil {
		return err
	}
	switch {
	case v < 0:
		return fail.OutOfRange(field, v, "zero or more")
	case v > most:
		return fail.OutOfRange(field, fmt.Sprintf("%g in SI units", float64(v)), "up to 1e15")
	}
	return nil
}
