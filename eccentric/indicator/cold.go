package indicator

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

// A ColdEngine is what the first steam leaves in a cold cylinder.
type ColdEngine struct {
	Water    steam.Condensate
	Volume   units.Volume // of the water, as hot as the iron then is
	Room     units.Volume // of the smaller clearance, which is all there is at the dead centre
	Share    float64      // of that room that the water fills
	Findings finding.List
	Refs     source.Refs
}

// ColdEngine returns the water that steam of the chest turns to while it warms iron,
// such as the cylinder with its covers and its chest, and what room there is for it:
//
//	V = m * c * (hot - cold) / r * v1
//
//	m          mass of the iron, above zero
//	cold, hot  its temperatures before and after, cold from 0 degrees C, hot at most that of the steam
//	c, r       specific heat of iron and latent heat of the steam, see [steam.Saturated.Condensed]
//	v1         volume of a kilogram of water at hot
//
// Water does not give: a piston that shuts in more than the clearance holds breaks a
// cover, a rod or the crank. The medium must be steam. Source: that of
// [steam.Saturated.Condensed]; IAPWS R7-97(2012), equation 7. See the Example.
func (r Running) ColdEngine(iron units.Mass, cold, hot units.Temperature) (ColdEngine, error) {
	if err := r.Validate(); err != nil {
		return ColdEngine{}, err
	}
	if r.Medium != Steam {
		return ColdEngine{}, fail.Wrong("medium", r.Medium, "does not condense", Steam.String())
	}
	s, err := steam.AtPressure(r.Absolute(r.Chest))
	if err != nil {
		return ColdEngine{}, err
	}
	water, err := s.Condensed(iron, cold, hot)
	if err != nil {
		return ColdEngine{}, err
	}
	hotWater, err := steam.WaterAt(s.Pressure, hot)
	if err != nil {
		return ColdEngine{}, err
	}
	m := r.model()
	c := m.cycle()
	volume := units.Volume(float64(water.Water) * float64(hotWater.Volume))
	room := min(c.Head.Clearance, c.Crank.Clearance)
	e := ColdEngine{
		Water: water, Volume: volume, Room: room, Share: float64(volume / room),
		Refs: water.Refs.And(practice),
	}
	if e.Share > 1 {
		e.Findings = finding.List{{
			Code: WaterInCylinder, Severity: finding.Caution,
			Text: fmt.Sprintf("Warming %.3g kg of iron, the first steam leaves %.3g ml of water, and the clearance holds %.2g ml at the dead centre."+
				" Water does not give: a piston that shuts it in breaks a cover, a rod or the crank.",
				iron.In(units.Kilogram), volume.In(units.CubicCentimetre), room.In(units.CubicCentimetre)),
			Remedies: []string{
				"Open the drain cocks at both ends before the stop valve, and leave them open until they blow dry steam.",
				"Turn the engine by hand, half a turn for each end, until no water comes, and only then let it start.",
			},
			Refs: source.Of(practice),
		}}
	}
	return e, nil
}
