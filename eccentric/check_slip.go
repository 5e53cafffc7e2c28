package eccentric

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// slip says what the gear was most likely to be, where its figures look as if
// they had been stated amiss: with what was meant, the trouble is gone.
func (c *checker) slip(f *Finding, code kernel.Code) {
	f.Slip = true
	k, _ := c.k.Meant(code)
	meant := c.gear
	meant.Advance, meant.Travel = units.Angle(k.Advance), length(k.Travel)
	j := meant.judged()
	lead := both(length(j.found.MeanLead()))
	rest := "none of the trouble that is told below"
	leads, left := j.verdicts.Troubles(kernel.LateSteam, kernel.LargeLead), j.verdicts.Troubles()
	left -= leads
	set := "the valve on its rod"
	if !c.k.LeadSound(j.found.MeanLead()) {
		set = "the lead"
	}
	switch {
	case leads > 0 && left > 0:
		rest = "only " + set + " left to be set, beside what is told below of ports and valve"
	case leads > 0:
		rest = "only " + set + " left to be set"
	case left > 0:
		rest = "none of the trouble with the lead, while what is told below of ports and valve stays"
	}
	sound := "openings and the lead are sound"
	if leads > 0 {
		sound = "openings are sound"
	}
	g := c.gear
	switch code {
	case kernel.AngleFromCrank:
		counted := "90 deg and the advance ahead of it"
		switch {
		case c.k.Follows() && c.gear.Advance > halfTurn/2:
			counted = "90 deg and the advance, as in direct drive with outside admission"
		case c.k.Follows():
			counted = "90 deg less the advance behind it"
		}
		f.tell("An advance of %s looks like the place of the eccentric counted from the crank, %s. An advance of %s stands"+
			" there, has a mean lead of %s and %s.",
			deg(g.Advance), counted, deg(meant.Advance), lead, rest)
	case kernel.AdvanceOfOtherSign:
		f.tell("The angle of advance, %s, looks to be of the wrong hand: at %s the mean lead is %s, and there is %s.",
			deg(g.Advance), deg(meant.Advance), lead, rest)
	case kernel.AdvanceForPlace:
		f.tell("An eccentric %s looks like one whose angle of advance was given for its place. %s, %s, has a mean lead of"+
			" %s and %s.", fromCrank(g), standing(meant), ofAdvance(meant), lead, rest)
	case kernel.PlaceOfOtherSign:
		f.tell("An eccentric %s looks to be given with the wrong sign: %s the mean lead is %s, and there is %s.",
			fromCrank(g), fromCrank(meant), lead, rest)
	case kernel.OffsetForTravel:
		f.tell("A travel of %s looks like the offset of the eccentric%s. With a travel of %s the %s, and there is %s.",
			both(g.Travel), half(g), both(meant.Travel), sound, rest)
	case kernel.TravelForOffset:
		f.tell("A travel of %s looks as if the travel had been taken for the offset of the eccentric%s, and doubled. With a"+
			" travel of %s the %s, and there is %s.", both(g.Travel), half(g), both(meant.Travel), sound, rest)
	}
	switch code {
	case kernel.AdvanceForPlace, kernel.PlaceOfOtherSign:
		f.remedyf("If the eccentric is to stand %s, turn nothing and give its place as %s.", fromCrank(meant),
			deg(meant.EccentricLead()))
		return
	}
	if meant.Advance != g.Advance {
		f.remedyf("If the eccentric is to stand %s, turn nothing and state the advance as %s.", fromCrank(meant), deg(meant.Advance))
		return
	}
	f.remedyf("Measure how far the valve moves from end to end; if it is %s, cut nothing and state the travel so.", both(meant.Travel))
}

// standing begins a sentence with where the eccentric stands.
func standing(g Gear) string { return "One that stands " + fromCrank(g) }

// ofAdvance says how the place of the eccentric comes of its angle of advance.
func ofAdvance(g Gear) string {
	if g.follows() {
		return "90 deg less an advance of " + deg(g.Advance)
	}
	return "90 deg and an advance of " + deg(g.Advance)
}

// half says what the offset is to the travel.
func half(g Gear) string {
	if g.LeverRatio != 0 {
		return fmt.Sprintf(", which behind this lever is the travel divided by %.4g", g.Travel.Ratio(g.EccentricOffset()))
	}
	return ", which is half the travel"
}
