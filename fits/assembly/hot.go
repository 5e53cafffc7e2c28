package assembly

import (
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// expansionKnown reports whether mean expansions hold at a temperature.
func expansionKnown(at units.Temperature) bool {
	const hair = 1e-6 // -80 degrees C is not the same on both scales to the last bit
	return at >= material.ExpansionFrom-hair && at <= material.ExpansionTo+hair
}

// judgeHeat says what the heat does to the hub: that it melts, or that it loses
// what it was bought for. A hub that nobody heats is left alone.
func (r *ShrinkResult) judgeHeat(s Shrink) {
	list := &r.Findings
	enough := "Bring the interference down."
	limit, why, remedy := heatLimit(s.Hub)
	switch {
	case r.HubNeeded == 0:
	case limit == 0 || r.HubNeeded <= limit:
		enough = "Heat it to " + degrees(r.HubNeeded) + ", which is enough."
		remedy = enough
	default:
		enough += " At " + degrees(r.HubNeeded) + " the parts drop together, but " + why + "."
	}
	if melts := s.Hub.Melts; melts.Known() && s.HubAt >= melts.Value {
		f := said(list, HubMelts, finding.Danger, "The hub of %s is to be at %s and begins to melt at %s: "+
			"it loses all strength, falls apart and splashes.", s.Hub.Name, degrees(s.HubAt), degrees(melts.Value))
		f.Remedies, f.Refs = []string{enough}, source.Of(melts.Refs.First())
		return
	}
	at := s.HubAt
	if !r.Pressed {
		at = max(at, r.HubNeeded)
	}
	if limit != 0 && at > limit {
		f := said(list, HubTooHot, finding.Caution, "The hub of %s at %s: %s.", s.Hub.Name, degrees(at), why)
		f.Remedies, f.Refs = []string{remedy}, source.Of(source.Practice())
		if s.Hub.Family == material.Plastic {
			f.Severity = finding.Danger
		}
	}
}

// heatLimit returns the temperature above which a material loses what it was
// bought for, how, and what to do. Common practice; the heat treatment of the
// piece in hand decides.
func heatLimit(m material.Material) (limit units.Temperature, why, remedy string) {
	const less = "Bring the interference down."
	switch m.Family {
	case material.Aluminium:
		return units.Celsius(175), "aged aluminium alloys soften above about 175 degrees C", less
	case material.Steel:
		return units.Celsius(250), "hardened and tempered steel softens above its tempering heat, " +
			"and bright steel colours from about 220 degrees C", less
	case material.Stainless:
		return units.Celsius(425), "18-8 steel loses its resistance to rust from about 425 degrees C, " +
			"and hardened stainless steel softens above its tempering heat", less
	case material.Iron:
		return units.Celsius(400), "grey iron scales and grows for good from about 400 degrees C", less
	case material.Brass, material.Bronze, material.Copper:
		return units.Celsius(250), "cold drawn copper alloys soften above about 250 degrees C", less
	case material.Zinc:
		return units.Celsius(100), "zinc alloys creep from about 100 degrees C", less
	case material.Plastic:
		return units.Celsius(200), "plastics give off fumes that harm, and creep", "Keep below the maker's limit."
	}
	return 0, "", ""
}

// precautions are of the heat and the cold that the parts are brought to. All are
// common practice.
func (s Shrink) precautions() []finding.Precaution {
	var list []finding.Precaution
	say := func(when bool, code finding.Code, text string) {
		if when {
			list = append(list, care(code, text))
		}
	}
	hot := func(celsius float64) bool { return s.HubAt > units.Celsius(celsius) }
	copper := s.Hub.Family == material.Brass || s.Hub.Family == material.Bronze
	say(hot(60), HotMetal, "Hot metal burns and does not look hot: "+
		"dry gloves, eye protection, no trapped moisture, and a place to put it down.")
	say(hot(60), HotSolvent, "Let solvent dry off before the part is heated: it catches fire, "+
		"and chlorinated solvent gives off a poisonous gas.")
	say(hot(60) && s.Hub.Family == material.Plastic, HotPlastic, "Overheated plastics give off fumes that harm: "+
		"keep below the maker's limit, with good air.")
	say(hot(150), HotSeals, "Take rubber, plastic and PTFE out first. Overheated PTFE and fluorocarbon rubber give off "+
		"poisonous fumes, and burnt fluorocarbon rubber leaves an acid that eats into the skin: do not touch it.")
	say(hot(200), HotPlating, "Heat no part that is plated with zinc or cadmium: the fumes poison.")
	say(hot(300) && copper, LeadSweats, "Leaded brass and bronze sweat lead out from about 327 degrees C: good air, and wash your hands.")
	say(hot(400) && (copper || s.Hub.Family == material.Zinc), ZincFume,
		"Brass, gunmetal and zinc alloys give off zinc fume as they come near melting, which makes ill: heat less, in the open air.")
	cold := func(celsius float64) bool { return s.ShaftAt < units.Celsius(celsius) }
	say(cold(-30), ColdMetal, "Deeply cold metal burns like hot metal: dry gloves and eye protection.")
	say(cold(-30), BoilOff, "Dry ice and liquid nitrogen boil off and take the place of the air: "+
		"good air, never a closed room, car or vessel.")
	return list
}
