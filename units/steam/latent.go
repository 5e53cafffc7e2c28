package steam

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// hottestWater is where regions 1 and 2 of the formulation end on the line of
// saturation: IAPWS R7-97(2012), section 4.
const hottestWater = units.Temperature(623.15)

// LatentHeat returns the heat that a mass of the steam gives off as it turns to
// water of its own temperature:
//
//	Q = m * (h2 - h1)
//
//	m       mass, above zero
//	h1, h2  enthalpy of the water and of the steam
//
// From 0 to 350 degrees C. Source: IAPWS R7-97(2012), equations 7 and 15. See the
// Example of [Saturated.Condensed].
func (s Saturated) LatentHeat(m units.Mass) (units.Energy, error) {
	if err := fault.Positive(fail, "mass of the steam", m); err != nil {
		return 0, err
	}
	if !(s.Temperature >= coldest && s.Temperature <= hottestWater) {
		return 0, fail.OutOfRange("temperature of the steam", s.Temperature, "0 to 350 °C")
	}
	t, p := s.Temperature.Kelvin(), s.Pressure.In(units.Megapascal)
	return units.Energy(float64(m)*(steamAt(p, t).h-waterAt(p, t).h)) * units.Kilojoule, nil
}
