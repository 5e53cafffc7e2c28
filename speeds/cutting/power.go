package cutting

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A UnitPower is the power that a material asks for each volume of metal
// removed in time, with sharp tools.
type UnitPower struct {
	PerFlow  float64 // W for each m3/s: 1 hp per in3/min is 2.730 GW per m3/s
	Material string  // as published, with its condition
	Refs     source.Refs
}

// UnitPowerFor returns the power constant of a material; feed, cutter and wear
// change it. See the Example of Power.
func UnitPowerFor(m material.Material) (UnitPower, error) {
	return valueFor(powerTable.Rows(), "power", m)
}

// Power returns the power at the cutter for a removal rate:
//
//	P = constant * removal rate
//
// Rates and constants above zero. See the Example.
func (u UnitPower) Power(q units.VolumeFlow) (units.Power, error) {
	if err := fault.Positive(fail, "removal rate", q); err != nil {
		return 0, err
	}
	if !(u.PerFlow > 0 && u.PerFlow < 1e15) {
		return 0, fail.OutOfRange("power constant", fmt.Sprintf("%g W for each m3/s", u.PerFlow), "above zero, below 1e15")
	}
	return units.Power(u.PerFlow * float64(q)), nil // P = constant * Q
}

func readPower(r *table.Row) row[UnitPower] {
	u := UnitPower{
		PerFlow:  r.Float("kp") * float64(units.Horsepower) / float64(units.CubicInchPerMinute),
		Material: printed(r), Refs: source.Of(r.Ref()),
	}
	if u.PerFlow <= 0 {
		r.Complain("want a constant above zero")
	}
	return readRow(r, u)
}
