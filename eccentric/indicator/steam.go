package indicator

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

// A SteamUse is the steam that an engine takes, all its cylinders together. Below
// zero the gear is so wrong that the engine pumps into the chest; then the boiler
// need give none.
type SteamUse struct {
	PerTurn units.Mass // by the cycle: what the pressures account for
	PerHour units.Mass // the same in an hour at the speed of the engine

	// What the boiler must give in an hour, and so the water that it needs: more than
	// the pressures account for, by what cold walls condense and what leaks.
	Water, Min, Max units.Mass
	BlowsThrough    bool // some goes straight from the chest to the exhaust, of which nothing here knows how much
	Refs            source.Refs
}

// Shares of the steam that the pressures do not account for, of all that is supplied.
const (
	leastMissing = 0.25
	mostMissing  = 0.60
	usualMissing = 0.50 // on small engines
)

var (
	missingQuantity = source.Ref{
		Kind: source.Published, Title: "Lineham, A Text-Book of Mechanical Engineering", Edition: "edition not seen",
		Locator: "appendix II, note to p. 614", Note: "missing quantity 25 to 60 per cent of all that is supplied, 30 on the average of large engines",
	}
	saturatedVolume = source.Ref{
		Kind: source.Published, Title: "IAPWS R7-97(2012), Industrial Formulation 1997", Edition: "2012 revision", Locator: "equations 15 and 31",
		Note: "volume of dry saturated steam",
	}
	doubled = source.Ref{Kind: source.CommonPractice, Note: "cold walls and leaks double the steam of a small engine"}
)

// SteamUse returns the steam that the engine takes at its speed, and the water:
//
//	m     = Vo/vs - Vk/vb    of each end in a turn
//	water = m / (1 - missing)
//
//	Vo, Vk   volumes at cut-off and at compression, clearance and all
//	vs, vb   volume of a kilogram of dry saturated steam in the chest and of the exhaust
//	missing  0.5 for Water, 0.25 for Min and 0.6 for Max
//
// in whatever order the events are, as in [Running.AirUse]. The speed must be given,
// and the medium be steam. What the pressures do not account for is the missing
// quantity of the books: steam that condenses on the walls and what leaks. Source:
// the definition of the dry volume, IAPWS-IF97; the missing quantity Lineham, and
// common practice for small engines. Superheated steam is lighter, and less of it
// goes in. See the Example.
func (r Running) SteamUse() (SteamUse, error) {
	if err := r.on(Steam); err != nil {
		return SteamUse{}, err
	}
	m := r.model()
	turn, through := 0.0, false
	for _, end := range []kernel.End{kernel.Head, kernel.Crank} {
		charge, err := m.charge(end).weight()
		if err != nil {
			return SteamUse{}, err
		}
		rest, err := m.rest(end).weight()
		if err != nil {
			return SteamUse{}, err
		}
		turn += charge - rest
		through = through || passes(m.ends[end].events) > nothing
	}
	turn *= float64(r.Cylinders())
	hour := units.Mass(turn * turns(r.Speed) * 3600)
	return SteamUse{
		PerTurn: units.Mass(turn), PerHour: hour,
		Water: supplied(hour, usualMissing), Min: supplied(hour, leastMissing), Max: supplied(hour, mostMissing),
		BlowsThrough: through, Refs: source.Of(saturatedVolume, missingQuantity, doubled),
	}, nil
}

// weight returns the mass of the contents as dry saturated steam, in kg.
func (c contents) weight() (float64, error) {
	if c.volume == 0 {
		return 0, nil
	}
	s, err := steam.AtPressure(units.Pressure(c.pressure))
	if err != nil {
		return 0, err
	}
	dry, err := s.Steam()
	if err != nil {
		return 0, err
	}
	return c.volume / float64(dry.Volume), nil
}

// supplied returns all the steam of which a share is missing in the cylinder.
func supplied(accounted units.Mass, missing float64) units.Mass {
	return units.Mass(max(float64(accounted), 0) / (1 - missing))
}
