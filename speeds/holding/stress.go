package holding

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// CastIronDensity is what the rim stress of [CheckRim] goes by: 7200 kg/m3, or
// 0.26 lb/in3, as the pulley text's coefficient needs (its print has 0.20).
const CastIronDensity = 7200 * units.KilogramPerCubicMetre

// RingStress returns the hoop stress of a thin ring that runs at a rim speed:
//
//	stress = density * v^2
//
// whatever its section and radius (Carvill, p. 15; for cast iron 0.097 v^2 psi
// with v in ft/s). A reference table that prints density w^2 r has lost a square:
// it is density w^2 r^2. See the Example.
func RingStress(density units.Density, v units.Speed) (units.Pressure, error) {
	if err := fault.Positive(fail, "density", density); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "rim speed", v); err != nil {
		return 0, err
	}
	return units.Pressure(float64(density) * float64(v) * float64(v)), nil // Carvill, p. 15
}

// DiscStress returns the stress at the centre of a plain solid disc, the highest
// in it, by Carvill (p. 15, 1.2.7):
//
//	stress = density * v^2 * (3 + m) / 8
//
//	v  rim speed
//	m  Poisson's ratio, 0 to 0.5 (0.27 for grey iron)
//
// The smallest hole at the centre doubles it. See the Example of [RingStress].
func DiscStress(density units.Density, v units.Speed, poisson float64) (units.Pressure, error) {
	ring, err := RingStress(density, v)
	if err != nil {
		return 0, err
	}
	if !(poisson >= 0 && poisson <= 0.5) {
		return 0, fail.OutOfRange("Poisson's ratio", poisson, "0 to 0.5")
	}
	return ring * units.Pressure((3+poisson)/8), nil // Carvill, p. 15, 1.2.7
}
