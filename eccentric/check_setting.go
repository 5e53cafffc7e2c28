package eccentric

import (
	"fmt"
	"math"
	"strings"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

const halfTurn = units.Angle(math.Pi)

func (c *checker) runsBackwards(f *Finding) {
	stated := "An angle of advance of " + deg(c.gear.Advance)
	if c.k.Placed {
		stated = "An eccentric " + fromCrank(c.gear)
	}
	f.tell("%s admits steam on the wrong side of the piston: the engine turns the other way, if at all.", stated)
	// Turned to the mirror image of its place about the crank it has the lead that
	// it has for the other direction, and it may as well run in that.
	mirrored, opposite := mirrored(c.gear), opposite(c.gear)
	switch {
	case c.leadsWell(mirrored):
		f.remedyf("Turn the eccentric on the shaft until it stands %s (advance %s).",
			fromCrank(mirrored), advanceAndLead(mirrored))
		f.remedy("Or run the engine the other way.")
	case c.leadsWell(opposite):
		f.remedyf("Turn the eccentric half round on the shaft, until it stands %s (advance %s).",
			fromCrank(opposite), deg(opposite.Advance))
	default:
		f.remedy(c.setAnew())
	}
}

// advanceAndLead says what a gear that was turned to the mirror image of its place
// has: the lead that it had, but for what lost motion makes of it.
func advanceAndLead(g Gear) string {
	if g.Valve.LostMotion.IsZero() {
		return deg(g.Advance) + ", the same lead"
	}
	return deg(g.Advance) + ", a mean lead of " + both(g.judgedLead())
}

func (c *checker) littleWork(f *Finding) {
	share := c.m.WorkShare(&c.found)
	why := "The valve cuts off so early and compresses so long"
	early := f.Severity < finding.Fails // the eccentric stands right for its lap
	if off := math.Abs(math.Abs(float64(c.gear.Advance)) - math.Pi/2); off < inLine && !early {
		why = "The eccentric stands " + fromCrank(c.gear) +
			", in line with the crank or nearly so: the port opens to steam and shuts again with the piston at the same place"
	}
	least := "is the least"
	switch {
	case early:
		f.tell("%s that little becomes work: the engine runs weakly, and wants steam of a high pressure.", why)
		least = "is little"
	case share < 0:
		f.tell("%s, and the piston takes work out of the flywheel instead of giving any: a brake, whichever way it is turned.",
			why)
	default:
		f.tell("%s, and not enough becomes work to run it, whichever way it is turned.", why)
	}
	f.tell(" With 2 bar on the gauge and 8 %% of clearance an ideal cycle has a mean pressure of %.0f %% of the"+
		" difference between steam and exhaust, before any friction; %.0f %% %s.",
		math.Round(100*share)+0, 100*kernel.LeastWork, least)
	if text, ok := c.turn(); ok && !early {
		f.remedy(text)
		return
	}
	for _, way := range [][]remedy{{quarterLap}, {noExhaustLap}, {quarterLap, noExhaustLap}, {noSteamLap}, {fullTravel}} {
		changed, texts := c.gear, []string(nil)
		for _, change := range way {
			var text string
			changed, text = change(changed)
			texts = append(texts, text)
		}
		set, anew := c.settled(changed)
		if set.Validate() != nil || !anew && c.advanceAnew(changed) != "" {
			continue
		}
		if set.judged().verdicts[kernel.LittleWork][kernel.Both] == kernel.Absent {
			f.remedy(c.then(changed, strings.Join(texts, " ")))
			return
		}
	}
	f.remedy(designAnew)
}

// inLine is how far from the line of the crank an eccentric is still said to stand
// in it.
const inLine = 25 * math.Pi / 180

func (c *checker) offCentre(f *Finding) {
	offset := c.gear.Valve.Offset
	differ := offset.Scale(2).Sub(c.gear.LapsAt(HeadEnd).Steam).Add(c.gear.LapsAt(CrankEnd).Steam).Abs()
	if c.gear.alike() {
		f.tell("The valve is set %s the crank, so its openings at the two ends differ by up to %s.",
			towards(offset), both(differ))
	} else {
		f.tell("The valve is set %s the crank; with the steam laps that it has its openings at the two ends differ by up to %s.",
			towards(offset), both(differ))
	}
	switch set, move := placed(c.gear); {
	case move == "":
		f.Text += " That is about what makes the leads equal."
	case c.verdicts.Worst(kernel.LateSteam, kernel.LargeLead) <= kernel.Worth: // which would ask for the same
		f.remedy(c.then(set, move))
	}
}

func (c *checker) lostMotion(f *Finding) {
	g := c.gear
	f.Arc = units.Angle(c.m.Lag())
	f.tell("The valve follows its eccentric with %s of lost motion: it is half of that late each way, %s of crank in"+
		" mid-travel, and goes %s less far.", both(f.Amount), deg(f.Arc), both(f.Amount.Scale(0.5)))
	tight, taken := takenUp(g)
	if c.verdicts.Worst(kernel.LostMotion) == kernel.Stops {
		f.Text += " It alone keeps a port shut."
	}
	if e, err := tight.Events(); err == nil {
		for _, end := range []End{HeadEnd, CrankEnd} {
			is, was := c.events.at(end), e.at(end)
			if is.Admission.Occurs && was.Admission.Occurs && is.Release.Occurs && was.Release.Occurs {
				f.tell(" At the %s end admission comes at %s of crank where it would come at %s without, cut-off at %s of the"+
					" stroke for %s, release at %s for %s.", end, deg(is.Admission.Crank), deg(was.Admission.Crank),
					percent(is.CutOff.Stroke), percent(was.CutOff.Stroke),
					percent(is.Release.Stroke), percent(was.Release.Stroke))
			}
		}
	}
	c.playTurnedOut(f, tight)
	f.remedy(c.then(tight, taken))
}

// playTurnedOut says where the eccentric has the mean lead that it would have without
// lost motion.
func (c *checker) playTurnedOut(f *Finding, tight Gear) {
	if !c.k.LeadSound(count(tight.judgedLead())) {
		return
	}
	set, err := c.gear.WithLead(tight.judgedLead(), BothEnds)
	if err != nil || c.m.Backwards() {
		return
	}
	set.Advance = toTenths(set.Advance)
	if by := set.Advance - c.gear.Advance; by >= leastTurn && c.leadsWell(set) {
		f.tell(" Turned on until it stands %s the eccentric would give the mean lead back, %s, but not the openings.",
			fromCrank(set), both(tight.judgedLead()))
	}
}

// judgedLead returns the mean lead of a sound gear.
func (g *Gear) judgedLead() units.Length {
	j := g.judged()
	return length(j.found.MeanLead())
}

func (c *checker) lead(f *Finding) {
	e, port := c.events.at(f.End), c.gear.port(f.End)
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
		f.tell("The %s port is open by %s at dead centre, ", f.End, both(lesser(f.Amount, port)))
		if past := f.Amount.Sub(port); past.Sign() >= 0 {
			f.Text += "its full width"
			if past.Sign() > 0 {
				f.tell(", with the valve's edge %s past it", both(past))
			}
		} else {
			f.tell("%.0f %% of its width", 100*f.Amount.Ratio(port))
		}
		f.tell(": steam meets the piston from %s before dead centre,"+
			" so the engine is hard to start, knocks and runs rough.", deg(f.Arc))
	}
	f.Remedies = c.leadRemedies()
}

// leadRemedies says how to set the valve and the eccentric. Where the mean of the
// two leads is sound the eccentric stands right and only the valve is off; where
// it is not, the eccentric or the valve's length may be what is wrong.
func (c *checker) leadRemedies() []string {
	if c.gear.leastLaps().Steam.Sign() < 0 {
		return []string{c.then(noSteamLap(c.gear))}
	}
	mean := c.events.MeanLead()
	if c.k.LeadSound(count(mean)) {
		if set, move := placed(c.gear); move != "" && c.leadsWell(set) {
			return []string{strings.TrimSuffix(move, ".") + "; both ends then have a lead of " + both(mean) + "."}
		}
	}
	if c.verdicts.Worst(kernel.SteamPartOpen) > kernel.Worth {
		return []string{c.then(fullTravel(c.gear))} // the lead is set when the openings are right
	}
	turn, turns := c.turn()
	length, fits := c.lengthForLead()
	switch {
	case !turns && !fits:
		return []string{c.setAnew()}
	case !fits:
		return []string{turn}
	case !turns:
		return []string{length}
	case c.turnedCutsOffWell():
		return []string{turn, "Or leave the eccentric: " + lowered(length)}
	}
	return []string{length, "Or leave the valve: " + lowered(turn)}
}

// setAnew says how to come by a lead where no one setting does it.
func (c *checker) setAnew() string {
	if text, ok := c.turn(); ok {
		return text
	}
	if set, err := c.gear.WithLead(units.Length{}, BothEnds); err == nil {
		if set.Valve.Offset, err = set.OffsetForEqualLead(); err == nil && c.leadsWell(set) {
			return "Set the eccentric and the valve on its rod together, until both ports just open at dead centre."
		}
	}
	return c.then(fullTravel(c.gear))
}

// turn says where the eccentric stands for a mean lead of nothing; false where
// that does not put the leads right or is too little to turn it by.
func (c *checker) turn() (string, bool) {
	set, ok := noMeanLead(c.gear)
	if !ok {
		return "", false
	}
	moved, move := placed(set)
	by := inTurn(set.Advance - c.gear.Advance)
	if max(by, -by) < leastTurn || !c.leadsWell(set) && !c.leadsWell(moved) {
		return "", false
	}
	text := fmt.Sprintf("Turn the eccentric on the shaft until it stands %s: at this travel an advance of %s gives a mean"+
		" lead of nothing; add what lead you want.%s", fromCrank(set), deg(set.Advance), cutsOff(set))
	if move != "" && c.leadsWell(moved) {
		text += " " + move
	}
	return text, true
}

// lengthForLead says how long the valve is for a mean lead of nothing with the
// eccentric where it is: (S + lead) / r is the sine of the advance.
func (c *checker) lengthForLead() (string, bool) {
	set, change, ok := lappedForNoLead(c.gear)
	if !ok {
		return "", false
	}
	exact := c.gear.withMoreSteamLap(change)
	edges, from := size(exact.Valve.Length, units.Down)+" long over its outer edges", "each end"
	if c.gear.InsideAdmission {
		edges, from = size(exact.Valve.Cavity, units.Up)+" between its inner edges", "each inner edge"
	}
	moved, move := placed(set)
	if !c.leadsWell(set) && !c.leadsWell(moved) {
		return "", false
	}
	how := fmt.Sprintf("Take %s off %s of the valve, which is then %s", both(change.Abs()), from, edges)
	if change.Sign() > 0 {
		how = fmt.Sprintf("Make a valve %s, or let strips into this one, %s at %s", edges, both(change.Abs()), from)
	}
	text := how + ": with the eccentric where it is that gives a mean lead of nothing; what more comes off each end is lead." +
		cutsOff(set)
	if move != "" && !c.leadsWell(set) {
		text += " " + move
	}
	return text, true
}

// turnedCutsOffWell reports whether the gear cuts off as one with an eccentric
// of its own lap does when the eccentric has been turned for a mean lead of
// nothing. Lap alone is not to cut off before two thirds of the stroke (J. Bourne,
// A Catechism of the Steam Engine); after 98 per cent there is no expansion left.
// A valve outside that is most likely of the wrong length.
func (c *checker) turnedCutsOffWell() bool {
	set, err := c.gear.WithLead(units.Length{}, BothEnds)
	if err != nil {
		return false
	}
	j := set.judged()
	mean, _ := meanCutOff(&j.found)
	return strays(mean) == 0
}

// cutsOff says where a gear cuts off, as the next sentence of a text.
func cutsOff(g Gear) string {
	e, err := g.Events()
	if err != nil || !e.Head.CutOff.Occurs || !e.Crank.CutOff.Occurs {
		return ""
	}
	return fmt.Sprintf(" Cut-off then comes at %s of the stroke at the head end and %s at the crank end.",
		percent(e.Head.CutOff.Stroke), percent(e.Crank.CutOff.Stroke))
}

// leadsWell reports whether a changed gear turns the right way, has sound leads at
// both ends and does work, with nothing wrong that this one has not.
func (c *checker) leadsWell(changed Gear) bool {
	if changed.Validate() != nil {
		return false
	}
	v := changed.judged().verdicts
	return v.Worst(kernel.RunsBackwards, kernel.LittleWork, kernel.LateSteam, kernel.LargeLead) <= kernel.Worth &&
		len(c.bringsOn(changed)) == 0
}

func (c *checker) unequalCutOff(f *Finding) {
	head, crank := c.events.Head.CutOff, c.events.Crank.CutOff
	f.tell("Cut-off comes at %s of the stroke at the head end and %s at the crank end.",
		percent(head.Stroke), percent(crank.Stroke))
	why := " That is"
	if g := c.gear.central(); g != c.gear {
		where, off := "central", "the valve off centre"
		if !c.gear.alike() {
			where, off = "where both steam laps are the same", "the steam laps that differ"
			if !c.gear.Valve.Offset.IsZero() {
				off += " and the valve off centre"
			}
		}
		why = " Part of that is " + off + ", part"
		if !c.k.Slants() {
			f.Text += " That is " + off + "."
			return
		}
		if e, err := g.Events(); err == nil && e.Head.CutOff.Occurs && e.Crank.CutOff.Occurs {
			f.tell(" With the valve %s it would come at %s and %s.",
				where, percent(e.Head.CutOff.Stroke), percent(e.Crank.CutOff.Stroke))
		}
	}
	f.Text += why + " the slant of the rods and normal, not a fault; equal lead and equal cut-off cannot both be had."
}

func (c *checker) blindArc(f *Finding) {
	f.Arc = units.Angle(c.found.BlindArc())
	against := func(friction float64) float64 {
		return units.Angle(c.m.BlindArcAgainst(&c.found, friction)).Degrees()
	}
	f.tell("A single cylinder cannot start by itself in at least %.0f of the 360 deg, which is without any friction:"+
		" %s."+
		" Against a friction of 10, 20 or 30 %% of the greatest moment it is about %.0f, %.0f or %.0f deg."+
		" Turn it by hand past there, with the steam shut off.",
		f.Arc.Degrees(), c.blind(), against(0.1), against(0.2), against(0.3))
	if both := units.Angle(c.found.OpenTogether()); both >= units.Angle(kernel.LeastBlind) {
		f.tell(" In %.0f deg of that both ports are open to steam, and the ends push against each other: what is left is"+
			" the area of the piston rod.", both.Degrees())
	}
}

// blind returns the words for the arcs in which neither end drives: "from 133.4 deg to
// 180.0 deg and from ... of crank after the head-end dead centre".
func (c *checker) blind() string {
	driven := c.found.Driven()
	all := driven.All()
	if len(all) == 0 {
		return "all the way round"
	}
	place := func(d kernel.Drive) (from, to units.Angle) {
		from, to = units.Angle(d.From), units.Angle(d.To)
		if d.End == kernel.Crank {
			from, to = from+halfTurn, to+halfTurn
		}
		return from, to
	}
	var arcs []string
	for i, d := range all {
		_, stops := place(d)
		next, _ := place(all[(i+1)%len(all)])
		if i+1 == len(all) {
			next += 2 * halfTurn
		}
		if next-stops < units.Degree/20 { // nothing in the digits that are told
			continue
		}
		if stops >= 2*halfTurn {
			stops -= 2 * halfTurn
		}
		if next > 2*halfTurn {
			next -= 2 * halfTurn
		}
		arcs = append(arcs, "from "+deg(stops)+" to "+deg(next))
	}
	return strings.Join(arcs, " and ") + " of crank after the head-end dead centre"
}
