package eccentric

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

const halfTurn = units.Angle(math.Pi)

func (c *checker) runsBackwards(f *Finding) {
	f.tell("An angle of advance of %s admits steam on the wrong side of the piston: the engine turns the other way, if"+
		" at all.",
		deg(c.gear.Advance))
	right := c.gear
	if right.Advance > 0 {
		right.Advance = halfTurn - right.Advance
		f.remedyf("Turn the eccentric on the shaft until it stands %s (advance %s, the same lead).",
			fromCrank(right), deg(right.Advance))
		f.remedy("Or run the engine the other way.")
		return
	}
	right.Advance += halfTurn
	f.remedyf("Turn the eccentric half round on the shaft, until it stands %s (advance %s).",
		fromCrank(right), deg(right.Advance))
}

func (c *checker) offCentre(f *Finding) {
	offset := c.gear.Valve.Offset
	equal := length(c.m.TowardsCrank(-c.m.Slant()))
	f.tell("The valve is set %s the crank, so its openings at the two ends differ by up to %s.",
		towards(offset), both(offset.Abs().Scale(2)))
	if offset.Sub(equal).Abs().Cmp(c.gear.Travel.Scale(nearlyCentred)) <= 0 {
		f.Text += " That is about what makes the leads equal."
		return
	}
	move := "Move the valve " + towards(offset.Neg()) + " the crank, to the centre"
	if equal.IsZero() {
		f.remedy(move + ", for equal leads.")
		return
	}
	f.remedy(move + ".")
	f.remedyf("Or move it %s the crank, for equal leads.", towards(equal.Sub(offset)))
}

const nearlyCentred = 0.01 // of the travel; common practice

func (c *checker) lead(f *Finding) {
	e, port := c.events.at(f.End), c.gear.Ports.Steam
	switch f.Code {
	case NoLead:
		f.tell("The %s port just cracks at dead centre, with no lead; usual on small engines.", f.End)
		return
	case LateSteam:
		f.Arc = e.Admission.Crank
		f.tell("The %s port is still shut by %s at dead centre and opens %s after it", f.End, both(f.Amount), deg(f.Arc))
		if f.Severity > finding.Note {
			f.tell(", when the piston has gone %s of its stroke without steam", percent(e.Admission.Stroke))
		}
		f.Text += "."
	case LargeLead:
		f.Arc = -e.Admission.Crank
		f.tell("The %s port is open by %s at dead centre, %.0f %% of its width: steam meets the piston from %s before dead"+
			" centre,"+
			" so the engine is hard to start, knocks and runs rough.",
			f.End, both(f.Amount), 100*f.Amount.Ratio(port), deg(f.Arc))
	}
	f.remedy(c.leadRemedy())
}

// leadRemedy says how to set the valve and the eccentric. Where the mean of the
// two leads is sound the eccentric stands right and only the valve is off.
func (c *checker) leadRemedy() string {
	mean := c.events.MeanLead()
	if c.laps.Steam.Sign() < 0 {
		return c.then(noSteamLap(c.gear))
	}
	if other, ok := c.otherHand(); ok {
		return fmt.Sprintf("The angle of advance looks to be of the wrong hand: at %s the mean lead is %s.",
			deg(-c.gear.Advance), both(other))
	}
	set, text, lead := c.gear, "", "Both ends have a lead of "+both(mean)
	if mean.Sign() < 0 || mean.Ratio(c.gear.Ports.Steam) > kernel.LargestLead {
		var err error
		if set, err = c.gear.WithLead(units.Length{}, BothEnds); err != nil {
			return c.then(fullTravel(c.gear))
		}
		lead = " Both ends then have the same lead"
		text = fmt.Sprintf("At this travel an advance of %s gives a mean lead of nothing; add what lead you want.",
			deg(set.Advance))
	}
	offset, err := set.OffsetForEqualLead()
	if err != nil || offset == set.Valve.Offset {
		return text
	}
	if offset.IsZero() {
		return text + lead + " with the valve set central."
	}
	return text + lead + fmt.Sprintf(" with the valve set %s the crank.", towards(offset))
}

// otherHand returns the mean lead that the advance gives with its sign turned
// round, where that sign is wrong and that lead a sound one.
func (c *checker) otherHand() (units.Length, bool) {
	if c.gear.Advance >= 0 {
		return units.Length{}, false
	}
	other := c.gear
	other.Advance = -other.Advance
	events, err := other.Events()
	if err != nil {
		return units.Length{}, false
	}
	mean := events.MeanLead()
	return mean, mean.Sign() >= 0 && mean.Ratio(other.Ports.Steam) <= kernel.LargestLead
}

func (c *checker) unequalCutOff(f *Finding) {
	head, crank := c.events.Head.CutOff, c.events.Crank.CutOff
	f.tell("Cut-off comes at %s of the stroke at the head end and %s at the crank end.",
		percent(head.Stroke), percent(crank.Stroke))
	why := " That is"
	if g, _ := central(c.gear); g != c.gear {
		why = " Part of that is the valve off centre, part"
		if e, err := g.Events(); err == nil && e.Head.CutOff.Occurs && e.Crank.CutOff.Occurs {
			f.tell(" With the valve central it would come at %s and %s.",
				percent(e.Head.CutOff.Stroke), percent(e.Crank.CutOff.Stroke))
		}
	}
	f.Text += why + " the slant of the rods and normal, not a fault; equal lead and equal cut-off cannot both be had."
}

func (c *checker) blindArc(f *Finding) {
	headFrom, headTo := c.events.Head.Driven()
	crankFrom, crankTo := c.events.Crank.Driven()
	second, until := halfTurn+crankTo, 2*halfTurn+headFrom
	if second >= 2*halfTurn {
		second -= 2 * halfTurn
	}
	if until > 2*halfTurn {
		until -= 2 * halfTurn
	}
	f.Arc = units.Angle(c.found.BlindArc())
	f.tell("A single cylinder cannot start by itself in %.0f of the 360 deg: from %s to %s and from %s to %s of crank"+
		" after the head-end dead centre."+
		" Turn it by hand past there, with the steam shut off.",
		f.Arc.Degrees(), deg(headTo), deg(halfTurn+crankFrom), deg(second), deg(until))
}
