package eccentric

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// Where Check draws its lines. The geometry is exact; how much of a thing is
// too much is common practice of the trade, and a builder may differ.
const (
	largeLead     = 0.25             // of the port's width
	lateByLittle  = 5 * units.Degree // of crank past the dead centre, still worth knowing only
	smallOpening  = 0.5              // of the port's width
	smallShow     = 0.02             // of the travel: exhaust clearance that builders make on purpose
	slightly      = 0.05             // of the port's width: a passage too narrow by so little is worth knowing only
	leastSeal     = 0.25             // of the bar's width, left at full travel
	chestMargin   = 500 * 1_000_000  // picometres: half a millimetre at each end
	equalCutOffs  = 0.005            // of the stroke
	nearlyCentred = 0.01             // of the travel
	halfTurn      = units.Angle(math.Pi)
)

// Check returns what is worth saying about a gear, the worst first: what stops
// the engine, what costs power, what is worth knowing. Every finding says what
// will happen and, where something should be done, what to do and to which
// size; the size has been tried on the gear, and if it brings on a fault that
// the gear has not got, the remedy says which. A gear that [Gear.Validate]
// refuses has one finding, [NotAGear], with the reasons.
func (g Gear) Check() []Finding {
	faults := g.faults()
	if len(faults) > 0 && faults[0].Kind == NotAGear {
		return faults
	}
	return g.check(&checker{faults: faults})
}

// faults returns the findings without the remedies that take trying.
func (g Gear) faults() []Finding { return g.check(&checker{trying: true}) }

func (g Gear) check(c *checker) []Finding {
	events, err := g.Events()
	if err != nil {
		return []Finding{notAGear(err)}
	}
	c.gear, c.laps, c.events = g, g.Laps(), events
	c.land()
	c.direction()
	c.chest()
	c.midTravel()
	for _, end := range []End{HeadEnd, CrankEnd} {
		e := events.at(end)
		c.ports(end, e)
		c.middle(end)
		c.lead(end, e)
	}
	c.centre()
	c.cutOffs()
	c.blindArc()
	slices.SortStableFunc(c.findings, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.End, b.End))
	})
	return c.findings
}

// notAGear puts what Validate complains of, one a line, into one sentence.
func notAGear(err error) Finding {
	return Finding{
		Kind:     NotAGear,
		Severity: StopsEngine,
		Text:     "From these sizes nothing can be worked out: " + strings.ReplaceAll(err.Error(), "\n", "; ") + ".",
		Remedy:   "Put these sizes right first; nothing else has been looked at.",
	}
}

type checker struct {
	gear     Gear
	laps     Laps
	events   Events
	findings []Finding

	trying bool      // a remedy: no further ones are looked for
	faults []Finding // of the gear, when they have been found before
}

func (c *checker) add(f Finding) { c.findings = append(c.findings, f) }

// reach returns how far the valve goes towards opening one end's port to steam.
func (g Gear) reach(end End) units.Length {
	offset := g.Valve.Offset
	if (end == CrankEnd) != g.InsideAdmission {
		offset = offset.Neg()
	}
	return g.Travel.Scale(0.5).Add(offset)
}

// edgeLaps returns the laps of the valve's outer and inner edges.
func (g Gear) edgeLaps() (outer, inner units.Length) {
	laps := g.Laps()
	if g.InsideAdmission {
		return laps.Exhaust, laps.Steam
	}
	return laps.Steam, laps.Exhaust
}

// passage returns how much of the middle port the valve leaves open when it has
// gone furthest towards opening one end to steam; not above zero where it shuts
// the port.
func (g Gear) passage(end End) units.Length {
	_, inner := g.edgeLaps()
	open := g.Ports.Exhaust.Add(g.Ports.Bar).Sub(inner).Sub(g.reach(end))
	return lesser(open, lesser(g.Ports.Exhaust, g.Valve.Cavity))
}

// seal returns how much of a bar the valve's outer edge still covers at the same
// moment; below zero it has run past the bar.
func (g Gear) seal(end End) units.Length {
	outer, _ := g.edgeLaps()
	return outer.Add(g.Ports.Steam).Add(g.Ports.Bar).Sub(g.reach(end))
}

// withExhaustLap returns the gear with a valve of the given exhaust lap.
func (g Gear) withExhaustLap(lap units.Length) Gear {
	more := lap.Sub(g.Laps().Exhaust).Scale(2)
	if g.InsideAdmission {
		g.Valve.Length = g.Valve.Length.Add(more)
	} else {
		g.Valve.Cavity = g.Valve.Cavity.Sub(more)
	}
	return g
}

// withSteamLap returns the gear with a valve of the given steam lap.
func (g Gear) withSteamLap(lap units.Length) Gear {
	more := lap.Sub(g.Laps().Steam).Scale(2)
	if g.InsideAdmission {
		g.Valve.Cavity = g.Valve.Cavity.Sub(more)
	} else {
		g.Valve.Length = g.Valve.Length.Add(more)
	}
	return g
}

func (c *checker) land() {
	short := c.laps.Steam.Add(c.laps.Exhaust).Neg()
	if short.Sign() <= 0 {
		return
	}
	g := c.gear
	width := g.Valve.Length.Sub(g.Valve.Cavity).Scale(0.5)
	outer, inner := g.edgeLaps()
	var text, remedy string
	sound := g                                                                               // of the least change
	least, longest := g.Valve.Length.Sub(outer.Scale(2)), g.Valve.Cavity.Add(inner.Scale(2)) // for no laps
	if outer.Sign() < 0 {
		sound.Valve.Length = rounded(least, units.Up)
	}
	if inner.Sign() < 0 {
		sound.Valve.Cavity = rounded(longest, units.Down)
		name, made := "cavity, "+both(g.Valve.Cavity)+",", "a valve with a cavity of "
		if g.InsideAdmission {
			name, made = "valve, "+both(g.Valve.Cavity)+" between its inner edges,", "a valve that has between its inner edges "
		}
		text = fmt.Sprintf("The %s is too long", name)
		remedy = "Make " + made + size(longest, units.Down)
	} else {
		text = fmt.Sprintf("The valve, %s long, is too short", both(g.Valve.Length))
		remedy = fmt.Sprintf("Make a valve at least %s long over the outer edges; that is without any lap there", size(least, units.Up))
	}
	switch {
	case inner.Sign() >= 0:
		remedy += "." + c.advanceAnew(sound)
	case outer.Sign() < 0:
		remedy += fmt.Sprintf(" and over its outer edges at least %s; that is without any lap.", size(least, units.Up)) + c.advanceAnew(sound)
	default:
		remedy += ", the longest that keeps both ports shut in mid-travel, or let strips into this one to that size."
		if limit := g.Valve.Length.Sub(g.Ports.Steam.Scale(2)); limit.Cmp(longest) > 0 {
			still := "the exhaust still opens early"
			if g.InsideAdmission {
				still = "both ports are still open to steam in mid-travel"
			}
			remedy += fmt.Sprintf(" At %s the blow-through just stops, but %s.", size(limit, units.Down), still)
		}
		remedy += " Shortening the valve does not cure it: it makes the lands narrower still." + c.advanceAnew(sound)
	}
	text += fmt.Sprintf(": the lands are %s wide over ports of %s, %s short", mm(width), mm(g.Ports.Steam), both(short)) + c.blowThrough()
	c.add(Finding{Kind: NarrowLand, Severity: StopsEngine, Amount: short, Text: text, Remedy: c.then(sound, remedy)})
}

// blowThrough ends the sentence about a land narrower than its port.
func (c *checker) blowThrough() string {
	blows := ", so a port is open to steam and to exhaust at once and live steam blows straight through"
	const does = " It will hiss, use steam without doing work, and most likely not run."
	for _, end := range []End{HeadEnd, CrankEnd} {
		if e := c.events.at(end); e.Steam == OpensAndCloses && e.Exhaust == OpensAndCloses {
			return blows + fmt.Sprintf(" (at the %s end from %s to %s of crank and from %s to %s).", end, deg(e.Release.Crank), deg(e.CutOff.Crank), deg(e.Admission.Crank), deg(e.Compression.Crank-2*halfTurn)) + does
		}
	}
	for _, end := range []End{HeadEnd, CrankEnd} {
		if e := c.events.at(end); e.Steam != NeverOpens && e.Exhaust != NeverOpens {
			return blows + "." + does
		}
	}
	return "; only the short travel keeps live steam from blowing straight through."
}

// at returns the events of one end.
func (e *Events) at(end End) *EndEvents {
	if end == CrankEnd {
		return &e.Crank
	}
	return &e.Head
}

func (c *checker) backwards() bool { return math.Abs(float64(c.gear.Advance)) > math.Pi/2 }

func (c *checker) direction() {
	if !c.backwards() {
		return
	}
	right := c.gear
	f := Finding{
		Kind: RunsBackwards, Severity: StopsEngine,
		Text: fmt.Sprintf("An angle of advance of %s admits steam on the wrong side of the piston: the engine turns the other way, if at all.", deg(c.gear.Advance)),
	}
	if right.Advance > 0 {
		right.Advance = halfTurn - right.Advance
		f.Remedy = fmt.Sprintf("Turn the eccentric on the shaft until it stands %s (advance %s, the same lead), or run the engine the other way.", fromCrank(right), deg(right.Advance))
	} else {
		right.Advance += halfTurn
		f.Remedy = fmt.Sprintf("Turn the eccentric half round on the shaft, until it stands %s (advance %s).", fromCrank(right), deg(right.Advance))
	}
	c.add(f)
}

// fromCrank says where the eccentric stands.
func fromCrank(g Gear) string {
	if lead := g.EccentricLead(); lead < 0 {
		return deg(-lead) + " behind the crank in the direction of rotation"
	} else {
		return deg(lead) + " ahead of the crank in the direction of rotation"
	}
}

func (c *checker) chest() {
	g := c.gear
	if g.Chest.IsZero() {
		return
	}
	free := g.Chest.Sub(g.Valve.Length).Sub(g.Travel).Scale(0.5).Sub(g.Valve.Offset.Abs())
	if free.Cmp(units.Picometres(chestMargin)) >= 0 {
		return
	}
	need := g.Valve.Length.Add(g.Travel).Add(g.Valve.Offset.Abs().Scale(2))
	f := Finding{Kind: FoulsChest, Amount: free.Abs(), Remedy: fmt.Sprintf("Make the chest %s long inside, for half a millimetre at each end.", size(need.Add(units.Picometres(2*chestMargin)), units.Up))}
	if free.Sign() < 0 {
		f.Severity = StopsEngine
		f.Text = fmt.Sprintf("The valve strikes the end of the chest %s before full travel: the chest is %s long and the valve sweeps %s. The engine jams or bends its valve rod.", both(free.Neg()), mm(g.Chest), mm(need))
	} else {
		f.Severity = WorthKnowing
		f.Text = fmt.Sprintf("At full travel the valve clears the end of the chest by %s; a nut, a gasket or a rod a little out takes that up.", both(free))
	}
	c.add(f)
}

func (c *checker) midTravel() {
	if c.laps.Exhaust.Sign() < 0 {
		c.openAtMidTravel()
	}
	if steam := c.laps.Steam; steam.Sign() < 0 {
		sound, edge := steamEdge(c.gear.withSteamLap(units.Length{}))
		c.add(Finding{
			Kind: NoSteamLap, Severity: CostsPower, Amount: steam.Neg(),
			Text:   fmt.Sprintf("In mid-travel both ports are open to steam by %s, which pushes on both sides of the piston at once.", both(steam.Neg())),
			Remedy: c.then(sound, edge+", and set the advance anew."),
		})
	}
}

func (c *checker) openAtMidTravel() {
	show := c.laps.Exhaust.Neg()
	g := c.gear.withExhaustLap(units.Length{})
	f := Finding{Kind: OpenAtMidTravel, Severity: CostsPower, Amount: show}
	f.Text = fmt.Sprintf("In mid-travel both ports are open to exhaust by %s.", both(show))
	if sound, err := g.Events(); err == nil && c.events.Head.Release.Occurs && sound.Head.Release.Occurs {
		f.Text += fmt.Sprintf(" Release at the head end comes at %s, %s of the stroke, where it would come at %s, %s, with no exhaust lap.",
			deg(c.events.Head.Release.Crank), percent(c.events.Head.Release.Stroke), deg(sound.Head.Release.Crank), percent(sound.Head.Release.Stroke))
	}
	if show.Cmp(c.gear.Travel.Scale(smallShow)) <= 0 {
		f.Severity = WorthKnowing
		f.Text += " Builders have made clearances as small as this on purpose, to free the exhaust."
	} else {
		sound, edge := exhaustEdge(g)
		f.Remedy = c.then(sound, edge+".")
	}
	c.add(f)
}

func (c *checker) ports(end End, e *EndEvents) {
	reach, back := c.gear.reach(end), c.gear.reach(other(end))
	port := c.gear.Ports.Steam
	enough := enoughOf(port)
	steamServes := func(e *EndEvents) bool { return e.Opening.Cmp(enough) >= 0 }
	exhaustServes := func(e *EndEvents) bool { return e.ExhaustOpening.Cmp(enough) >= 0 }
	switch {
	case e.Steam == NeverOpens:
		c.add(Finding{
			Kind: SteamNeverOpens, Severity: StopsEngine, End: end, Amount: c.laps.Steam.Sub(reach),
			Text:   fmt.Sprintf("The %s port never opens to steam: the steam lap is %s and the valve %s that way.", end, both(c.laps.Steam), goesOnly(reach)),
			Remedy: c.remedy(end, steamServes, fullTravel),
		})
	case e.Steam == NeverCloses:
		c.add(Finding{
			Kind: SteamNeverCloses, Severity: StopsEngine, End: end, Amount: c.laps.Steam.Neg().Sub(back),
			Text:   fmt.Sprintf("The %s port is never shut to steam.", end),
			Remedy: c.remedy(end, func(e *EndEvents) bool { return e.Steam == OpensAndCloses }, noSteamLap),
		})
	case e.OverTravel.Sign() < 0:
		f := Finding{
			Kind: SteamPartOpen, Severity: WorthKnowing, End: end, Amount: e.OverTravel.Neg(),
			Text: fmt.Sprintf("The %s port opens %s of its %s to steam, %.0f %%.", end, both(e.Opening), mm(port), 100*e.Opening.Ratio(port)),
		}
		if e.Opening.Ratio(port) < smallOpening {
			f.Severity = CostsPower
			f.Text += " Steam is throttled going in."
			f.Remedy = c.remedy(end, steamServes, fullTravel)
		} else {
			f.Text += " That is often so"
			if e.ExhaustOpening == port {
				f.Text += "; the full width still serves the exhaust"
			}
			f.Text += "."
		}
		c.add(f)
	}
	switch {
	case e.Exhaust == NeverOpens:
		c.add(Finding{
			Kind: ExhaustNeverOpens, Severity: StopsEngine, End: end, Amount: c.laps.Exhaust.Sub(back),
			Text:   fmt.Sprintf("The %s port never opens to exhaust: the exhaust lap is %s and the valve %s that way. Used steam cannot leave and the piston stops against it.", end, both(c.laps.Exhaust), goesOnly(back)),
			Remedy: c.remedy(end, exhaustServes, noExhaustLap, fullTravel),
		})
	case e.Exhaust == NeverCloses:
		c.add(Finding{
			Kind: ExhaustNeverCloses, Severity: StopsEngine, End: end, Amount: c.laps.Exhaust.Neg().Sub(reach),
			Text:   fmt.Sprintf("The %s port is never shut to exhaust, so steam never holds there.", end),
			Remedy: c.remedy(end, func(e *EndEvents) bool { return e.Exhaust == OpensAndCloses }, noExhaustLap),
		})
	case e.ExhaustOpening.Cmp(port) < 0:
		f := Finding{
			Kind: ExhaustPartOpen, Severity: WorthKnowing, End: end, Amount: port.Sub(e.ExhaustOpening),
			Text: fmt.Sprintf("The %s port opens %s of its %s to exhaust, %.0f %%.", end, both(e.ExhaustOpening), mm(port), 100*e.ExhaustOpening.Ratio(port)),
		}
		if e.ExhaustOpening.Ratio(port) < smallOpening {
			f.Severity = CostsPower
			f.Text += " Used steam is throttled going out and holds the piston back."
			f.Remedy = c.remedy(end, exhaustServes, noExhaustLap, fullTravel)
		}
		c.add(f)
	}
}

// middle looks at full travel of the valve towards opening one end to steam.
// There one land has moved in towards the middle port: that of the same end, or
// with inside admission that of the other end. Its outer edge must still cover
// part of the bar, and its inner edge must leave enough of the middle port open.
func (c *checker) middle(end End) {
	g := c.gear
	land, fed := end, other(end) // the end whose outer edge has moved in, and the end that the middle port serves
	if g.InsideAdmission {
		land, fed = fed, land
	}
	if passage := g.passage(end); passage.Cmp(g.Ports.Steam) < 0 {
		f := Finding{Kind: MiddleThrottled, Severity: CostsPower, End: fed, Amount: g.Ports.Steam.Sub(passage)}
		name, does := "exhaust port", "takes the exhaust of"
		if g.InsideAdmission {
			name, does = "middle port", "feeds"
		}
		if passage.Sign() <= 0 {
			f.Text = fmt.Sprintf("At full travel the valve shuts the %s altogether, %s past its edge, while it %s the %s end.", name, both(passage.Neg()), does, fed)
		} else {
			f.Text = fmt.Sprintf("At full travel the valve leaves %s of the %s open while it %s the %s end, less than the cylinder port's %s.", both(passage), name, does, fed, mm(g.Ports.Steam))
		}
		if passage.Ratio(g.Ports.Steam) > 1-slightly {
			f.Severity = WorthKnowing
		}
		f.Remedy = c.clearMiddle(end, name)
		c.add(f)
	}
	seal, least := g.seal(end), g.Ports.Bar.Scale(leastSeal)
	if seal.Cmp(least) >= 0 {
		return
	}
	f := Finding{Kind: SteamPastValve, End: land, Remedy: c.coverBar(end)}
	if seal.Sign() < 0 {
		f.Severity, f.Amount = StopsEngine, seal.Neg()
		f.Text = fmt.Sprintf("At full travel the valve's outer edge at the %s end runs %s past the bar, and live steam goes straight to exhaust behind it.", land, both(seal.Neg()))
	} else {
		covered := "only " + both(seal)
		if seal.IsZero() {
			covered = "nothing"
		}
		f.Severity, f.Amount = CostsPower, seal
		f.Text = fmt.Sprintf("At full travel %s of the bar at the %s end stays covered between live steam and exhaust; it will leak.", covered, land)
	}
	c.add(f)
}

// enoughOf returns the opening of a port that a remedy must reach, after its
// size has been rounded.
func enoughOf(port units.Length) units.Length {
	return port.Scale(smallOpening).Add(units.Micron(10))
}

func (c *checker) lead(end End, e *EndEvents) {
	if e.Steam != OpensAndCloses || c.backwards() {
		return
	}
	lead, port := e.Lead, c.gear.Ports.Steam
	switch {
	case lead.Sign() < 0:
		f := Finding{
			Kind: LateSteam, Severity: CostsPower, End: end, Amount: lead.Neg(), Arc: e.Admission.Crank,
			Text:   fmt.Sprintf("The %s port is still shut by %s at dead centre and opens %s after it.", end, both(lead.Neg()), deg(e.Admission.Crank)),
			Remedy: c.leadRemedy(),
		}
		if e.Admission.Crank <= lateByLittle {
			f.Severity = WorthKnowing
		} else {
			f.Text = strings.TrimSuffix(f.Text, ".") + fmt.Sprintf(", when the piston has gone %s of its stroke without steam.", percent(e.Admission.Stroke))
		}
		c.add(f)
	case lead.IsZero():
		c.add(Finding{
			Kind: NoLead, Severity: WorthKnowing, End: end,
			Text: fmt.Sprintf("The %s port just cracks at dead centre, with no lead; usual on small engines.", end),
		})
	case lead.Ratio(port) > largeLead:
		c.add(Finding{
			Kind: LargeLead, Severity: CostsPower, End: end, Amount: lead, Arc: -e.Admission.Crank,
			Text:   fmt.Sprintf("The %s port is open by %s at dead centre, %.0f %% of its width: steam meets the piston from %s before dead centre, so the engine is hard to start, knocks and runs rough.", end, both(lead), 100*lead.Ratio(port), deg(-e.Admission.Crank)),
			Remedy: c.leadRemedy(),
		})
	}
}

// leadRemedy says how to set the valve and the eccentric. Where the mean of the
// two leads is sound the eccentric stands right and only the valve is off.
func (c *checker) leadRemedy() string {
	mean := c.events.Head.Lead.Add(c.events.Crank.Lead).Scale(0.5)
	if c.laps.Steam.Sign() < 0 {
		return c.then(noSteamLap(c.gear))
	}
	if other, ok := c.otherHand(); ok {
		return fmt.Sprintf("The angle of advance looks to be of the wrong hand: at %s the mean lead is %s.", deg(-c.gear.Advance), both(other))
	}
	set, text, lead := c.gear, "", "Both ends have a lead of "+both(mean)
	if mean.Sign() < 0 || mean.Ratio(c.gear.Ports.Steam) > largeLead {
		var err error
		if set, err = c.gear.WithLead(units.Length{}, BothEnds); err != nil {
			return c.then(fullTravel(c.gear))
		}
		lead = " Both ends then have the same lead"
		text = fmt.Sprintf("At this travel an advance of %s gives a mean lead of nothing; add what lead you want.", deg(set.Advance))
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
	mean := events.Head.Lead.Add(events.Crank.Lead).Scale(0.5)
	return mean, mean.Sign() >= 0 && mean.Ratio(other.Ports.Steam) <= largeLead
}

func goesOnly(reach units.Length) string {
	if reach.Sign() < 0 {
		return "stays " + both(reach.Neg()) + " short of the centre"
	}
	return "goes only " + both(reach)
}

func towards(offset units.Length) string {
	if offset.Sign() < 0 {
		return both(offset.Neg()) + " away from"
	}
	return both(offset) + " towards"
}

func (c *checker) centre() {
	offset := c.gear.Valve.Offset
	if offset.IsZero() {
		return
	}
	equal, err := c.gear.OffsetForEqualLead()
	if err != nil {
		return
	}
	f := Finding{Kind: OffCentre, Severity: WorthKnowing, Amount: offset.Abs()}
	f.Text = fmt.Sprintf("The valve is set %s the crank, so its openings at the two ends differ by up to %s.", towards(offset), both(offset.Abs().Scale(2)))
	if offset.Sub(equal).Abs().Cmp(c.gear.Travel.Scale(nearlyCentred)) <= 0 {
		f.Text += " That is about what makes the leads equal."
	} else {
		f.Remedy = fmt.Sprintf("Move it %s the crank to the centre", towards(offset.Neg()))
		if equal.IsZero() {
			f.Remedy += ", for equal leads."
		} else {
			f.Remedy += fmt.Sprintf(", or %s the crank for equal leads.", towards(equal.Sub(offset)))
		}
	}
	c.add(f)
}

func (c *checker) cutOffs() {
	head, crank := c.events.Head.CutOff, c.events.Crank.CutOff
	difference := head.Stroke - crank.Stroke
	if c.backwards() || !head.Occurs || !crank.Occurs || math.Abs(difference) < equalCutOffs || c.gear.ConnectingRod.IsZero() && c.gear.EccentricRod.IsZero() {
		return
	}
	text := fmt.Sprintf("Cut-off comes at %s of the stroke at the head end and %s at the crank end.", percent(head.Stroke), percent(crank.Stroke))
	why := " That is"
	if g, _ := central(c.gear); g != c.gear {
		why = " Part of that is the valve off centre, part"
		if e, err := g.Events(); err == nil && e.Head.CutOff.Occurs && e.Crank.CutOff.Occurs {
			text += fmt.Sprintf(" With the valve central it would come at %s and %s.", percent(e.Head.CutOff.Stroke), percent(e.Crank.CutOff.Stroke))
		}
	}
	c.add(Finding{
		Kind: UnequalCutOff, Severity: WorthKnowing, Amount: c.gear.Stroke.Scale(math.Abs(difference)),
		Text: text + why + " the slant of the rods and normal, not a fault; equal lead and equal cut-off cannot both be had.",
	})
}

func (c *checker) blindArc() {
	if c.backwards() || c.events.Head.Steam != OpensAndCloses || c.events.Crank.Steam != OpensAndCloses {
		return // it does not start at all
	}
	headFrom, headTo := c.events.Head.Driven()
	crankFrom, crankTo := c.events.Crank.Driven()
	total := 2*halfTurn - (headTo - headFrom) - (crankTo - crankFrom)
	if total <= 0 {
		return
	}
	second, until := halfTurn+crankTo, 2*halfTurn+headFrom
	if second >= 2*halfTurn {
		second -= 2 * halfTurn
	}
	if until > 2*halfTurn {
		until -= 2 * halfTurn
	}
	text := fmt.Sprintf("A single cylinder cannot start by itself in %.0f of the 360 deg: from %s to %s and from %s to %s of crank after the head-end dead centre. Turn it by hand past there, with the steam shut off.",
		total.Degrees(), deg(headTo), deg(halfTurn+crankFrom), deg(second), deg(until))
	c.add(Finding{Kind: BlindArc, Severity: WorthKnowing, Arc: total, Text: text})
}

func other(end End) End {
	if end == HeadEnd {
		return CrankEnd
	}
	return HeadEnd
}

// mm writes a length for a sentence, to a hundredth of a millimetre, and below
// a tenth to a micron.
func mm(l units.Length) string {
	places := 2
	if l.Abs().Cmp(units.Micron(100)) < 0 {
		places = 3
	}
	return trim(l.Decimal(units.Millimetres, places)) + " mm"
}

// both writes it in millimetres and, as the shop says it, in thou below a tenth
// of an inch and in inches above.
func both(l units.Length) string {
	if l.Abs().Cmp(units.Thou(100)) < 0 {
		return mm(l) + " (" + trim(l.Decimal(units.Thousandths, 1)) + " thou)"
	}
	return mm(l) + " (" + l.Text(units.Inches, 3) + ")"
}

// size writes a length to cut to, rounded to the safe side at a hundredth of a
// millimetre and at a thou.
func size(l units.Length, mode units.RoundMode) string {
	metric, errMM := l.Round(units.Micron(10), mode)
	inch, errInch := l.Round(units.Thou(1), mode)
	if errMM != nil || errInch != nil {
		return l.String()
	}
	return mm(metric) + " (" + inch.Decimal(units.Inches, 3) + " in)"
}

// trim takes the zeros off the end of a decimal number.
func trim(s string) string {
	for s[len(s)-1] == '0' && slices.Contains([]byte(s), '.') {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}

// deg writes an angle to a tenth of a degree, nothing without a sign.
func deg(a units.Angle) string { return fmt.Sprintf("%.1f deg", math.Round(10*a.Degrees())/10+0) }

func percent(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }
