package steam

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Condensate is what steam leaves on cold iron.
type Condensate struct {
	Heat     units.Energy // that the iron takes up
	Water    units.Mass   // by the specific heat of iron
	Min, Max units.Mass   // by the least and the greatest that are printed for cast iron
	Refs     source.Refs
}

// Specific heats in J/(kg K). What is printed for cast iron runs from under to over
// that of pure iron, which [Saturated.Condensed] goes by.
const (
	ironHeat      = 447.0          // iron; Carvill, 3.4.4, p. 110: 0.447 kJ/(kg K)
	leastIronHeat = 420.0          // cast iron; the same table: 0.420
	mostIronHeat  = 0.130 * 4186.8 // cast iron; Applied Science for Metal Workers, section 107: 0.130 Btu/(lb F)
)

var (
	carvillHeat = source.Ref{
		Kind: source.Published, Title: "Carvill, Mechanical Engineer's Data Handbook", Edition: "1993",
		Locator: "3.4.4, p. 110", Note: "0.447 kJ/(kg K) for iron, 0.420 for cast iron",
	}
	scienceHeat = source.Ref{
		Kind: source.Published, Title: "Applied Science for Metal Workers", Edition: "1914",
		Locator: "section 107", Note: "0.130 for cast iron, water being 1",
	}
)

// Condensed returns the water that steam turns to while it warms iron, such as a
// cylinder with its covers and its chest:
//
//	Q = m * c * (hot - cold)
//	w = Q / r
//
//	m          mass of the iron, above zero
//	c          specific heat, 447 J/(kg K); 420 and 544 for Min and Max
//	cold, hot  its temperatures before and after, cold from 0 degrees C, hot at most that of the steam
//	r          latent heat of the steam, [Saturated.LatentHeat] of 1 kg
//
// Less than the truth by what goes into the pipes and the air. Sources: mechanics
// of heat; Carvill, 3.4.4; Applied Science for Metal Workers, section 107. See the
// Example.
func (s Saturated) Condensed(iron units.Mass, cold, hot units.Temperature) (Condensate, error) {
	if err := fault.Positive(fail, "mass of the iron", iron); err != nil {
		return Condensate{}, err
	}
	latent, err := s.LatentHeat(1)
	if err != nil {
		return Condensate{}, err
	}
	if !(cold >= coldest && cold < s.Temperature) {
		return Condensate{}, fail.OutOfRange("temperature of the cold iron", cold, fmt.Sprintf("from 0 °C to below that of the steam, %v", s.Temperature))
	}
	if !(hot > cold && hot <= s.Temperature) {
		return Condensate{}, fail.OutOfRange("temperature of the warm iron", hot,
			fmt.Sprintf("above the cold, %v, and not above that of the steam, %v", cold, s.Temperature))
	}
	water := func(heat float64) units.Mass {
		return units.Mass(float64(iron) * heat * (hot.Kelvin() - cold.Kelvin()) / float64(latent)) // w = m c dT / r
	}
	return Condensate{
		Heat:  units.Energy(float64(iron) * ironHeat * (hot.Kelvin() - cold.Kelvin())), // Q = m c dT
		Water: water(ironHeat), Min: water(leastIronHeat), Max: water(mostIronHeat),
		Refs: source.Shared(&carvillHeat, &scienceHeat, &basicEquations),
	}, nil
}

// String returns the water with both ends, in grams.
func (c Condensate) String() string {
	return fmt.Sprintf("%.1f g (%.1f to %.1f g)", c.Water.In(units.Gram), c.Min.In(units.Gram), c.Max.In(units.Gram))
}
