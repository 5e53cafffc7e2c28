package eccentric

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
)

// Where Check draws its lines. The geometry is exact; how much of a thing is
// too much is common practice of the trade, and a builder may differ.
const (
	largeLead     = 0.25             // of the port's width
	lateByLittle  = 5 * units.Degree // of crank past the dead centre, still worth knowing only
	smallOpening  = 0.5              // of the port's width
	smallShow     = 0.02             // of the travel: exhaust clearance that makers have put in on purpose
	leastSeal     = 0.25             // of the bar's width, left at full travel
	chestMargin   = 500 * 1_000_000  // picometres: half a millimetre at each end
	equalCutOffs  = 0.005            // of the stroke
	nearlyCentred = 0.01             // of the travel
	halfTurn      = units.Angle(math.Pi)
)

// Check returns what is worth saying about a gear, the worst first: what stops
// the engine, what costs power, what is worth knowing. Every finding says what
// will happen and, where something should be done, what to do and to which
// size. A gear that [Gear.Validate] refuses is an error.
func (g Gear) Check() ([]Finding, error) {
	events, err := g.Events()
	if err != nil {
		return nil, err
	}
	c := &checker{gear: g, motion: g.motion(), laps: g.Laps(), events: events}
	c.land()
	c.direction()
	c.chest()
	c.midTravel()
	for _, end := range []End{HeadEnd, CrankEnd} {
		e := events.Head
		if end == CrankEnd {
			e = events.Crank
		}
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
	return c.findings, nil
}

type checker struct {
	gear     Gear
	motion   motion
	laps     Laps
	events   Events
	findings []Finding
}

func (c *checker) add(f Finding) { c.findings = append(c.findings, f) }

// reach returns how far the valve goes towards opening one end's port to steam.
func (c *checker) reach(end End) units.Length {
	offset := c.gear.Valve.Offset
	if (end == CrankEnd) != c.gear.InsideAdmission {
		offset = offset.Neg()
	}
	return c.gear.Travel.Scale(0.5).Add(offset)
}

// edgeLaps returns the laps of the valve's outer and inner edges.
func (c *checker) edgeLaps() (outer, inner units.Length) {
	if c.gear.InsideAdmission {
		return c.laps.Exhaust, c.laps.Steam
	}
	return c.laps.Steam, c.laps.Exhaust
}

// lineAndLine returns the gear with no exhaust lap.
func (c *checker) lineAndLine() Gear {
	g := c.gear
	if g.InsideAdmission {
		g.Valve.Length = g.Valve.Length.Sub(c.laps.Exhaust.Scale(2))
	} else {
		g.Valve.Cavity = g.Valve.Cavity.Add(c.laps.Exhaust.Scale(2))
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
	outer, inner := c.edgeLaps()
	var text, remedy string
	if inner.Sign() < 0 {
		text = fmt.Sprintf("The cavity, %s, is too long: the lands are %s wide over ports of %s, %s short", both(g.Valve.Cavity), mm(width), mm(g.Ports.Steam), both(short))
		sound := g.Ports.Bar.Scale(2).Add(g.Ports.Exhaust)
		limit := g.Valve.Length.Sub(g.Ports.Steam.Scale(2))
		remedy = fmt.Sprintf("Make a valve with a cavity of %s, the longest that keeps both ports shut in mid-travel, or let strips into this one to that size.", size(sound, units.Down))
		if limit.Cmp(sound) > 0 {
			remedy += fmt.Sprintf(" At %s the blow-through just stops, but the exhaust still opens early.", size(limit, units.Down))
		}
		remedy += " Shortening the valve does not cure it: it makes the lands narrower still."
	} else {
		text = fmt.Sprintf("The valve, %s long, is too short: the lands are %s wide over ports of %s, %s short", both(g.Valve.Length), mm(width), mm(g.Ports.Steam), both(short))
		remedy = fmt.Sprintf("Make a valve at least %s long over the outer edges; that is without any lap.", size(g.Valve.Length.Sub(outer.Scale(2)), units.Up))
	}
	text += ", so a port is open to steam and to exhaust at once and live steam blows straight through"
	if arc, ok := blowArc(c.events.Head); ok {
		text += fmt.Sprintf(" (at the head end from %s to %s of crank, and again near the dead centre). It will hiss, use steam without doing work, and most likely not run.", deg(arc[0]), deg(arc[1]))
	} else {
		text += "."
	}
	c.add(Finding{Kind: NarrowLand, Severity: StopsEngine, Amount: short, Text: text, Remedy: remedy})
}

// blowArc returns the crank angles from release to cut-off, where release comes
// first.
func blowArc(e EndEvents) ([2]units.Angle, bool) {
	if e.Steam != OpensAndCloses || e.Exhaust != OpensAndCloses || e.Release.Crank >= e.CutOff.Crank {
		return [2]units.Angle{}, false
	}
	return [2]units.Angle{e.Release.Crank, e.CutOff.Crank}, true
}

func (c *checker) direction() {
	if math.Abs(float64(c.gear.Advance)) <= math.Pi/2 {
		return
	}
	right := c.gear
	right.Advance = units.Angle(math.Copysign(math.Pi, float64(c.gear.Advance))) - c.gear.Advance
	c.add(Finding{
		Kind: RunsBackwards, Severity: StopsEngine,
		Text: fmt.Sprintf("An angle of advance of %s admits steam on the wrong side of the piston: the engine turns the other way, if at all.", deg(c.gear.Advance)),
		Remedy: fmt.Sprintf("Turn the eccentric on the shaft until it stands %s from the crank in the direction of rotation (advance %s, the same lead), or run the engine the other way.",
			deg(right.EccentricLead()), deg(right.Advance)),
	})
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
		c.add(Finding{
			Kind: NoSteamLap, Severity: CostsPower, Amount: steam.Neg(),
			Text:   fmt.Sprintf("In mid-travel both ports are open to steam by %s, which pushes on both sides of the piston at once.", both(steam.Neg())),
			Remedy: c.steamEdgeRemedy(units.Length{}),
		})
	}
}

func (c *checker) openAtMidTravel() {
	show := c.laps.Exhaust.Neg()
	g := c.lineAndLine()
	f := Finding{Kind: OpenAtMidTravel, Severity: CostsPower, Amount: show}
	f.Text = fmt.Sprintf("In mid-travel both ports are open to exhaust by %s.", both(show))
	if sound, err := g.Events(); err == nil && c.events.Head.Release.Occurs && sound.Head.Release.Occurs {
		f.Text += fmt.Sprintf(" Release at the head end comes at %s, %s of the stroke, where it would come at %s, %s, with no exhaust lap.",
			deg(c.events.Head.Release.Crank), percent(c.events.Head.Release.Stroke), deg(sound.Head.Release.Crank), percent(sound.Head.Release.Stroke))
	}
	if show.Cmp(c.gear.Travel.Scale(smallShow)) <= 0 {
		f.Severity = WorthKnowing
		f.Text += " So small a clearance has been put in on purpose, to free the exhaust."
	} else if c.gear.InsideAdmission {
		f.Remedy = fmt.Sprintf("Make the valve %s long over its outer edges.", size(g.Valve.Length, units.Up))
	} else {
		f.Remedy = fmt.Sprintf("Make the cavity %s long.", size(g.Valve.Cavity, units.Down))
	}
	c.add(f)
}

// steamEdgeRemedy says how long to make the valve for a wanted steam lap.
func (c *checker) steamEdgeRemedy(lap units.Length) string {
	more := lap.Sub(c.laps.Steam).Scale(2)
	if c.gear.InsideAdmission {
		return fmt.Sprintf("Make the valve %s between its inner edges.", size(c.gear.Valve.Cavity.Sub(more), units.Down))
	}
	return fmt.Sprintf("Make the valve %s long over its outer edges.", size(c.gear.Valve.Length.Add(more), units.Up))
}

func (c *checker) ports(end End, e EndEvents) {
	reach, back := c.reach(end), c.reach(other(end))
	port := c.gear.Ports.Steam
	switch {
	case e.Steam == NeverOpens:
		c.add(Finding{
			Kind: SteamNeverOpens, Severity: StopsEngine, End: end, Amount: c.laps.Steam.Sub(reach),
			Text:   fmt.Sprintf("The %s port never opens to steam: the steam lap is %s and the valve goes only %s that way.", end, both(c.laps.Steam), both(reach)),
			Remedy: c.travelRemedy("Full opening"),
		})
	case e.Steam == NeverCloses:
		c.add(Finding{
			Kind: SteamNeverCloses, Severity: StopsEngine, End: end, Amount: c.laps.Steam.Neg().Sub(back),
			Text:   fmt.Sprintf("The %s port is never shut to steam.", end),
			Remedy: c.steamEdgeRemedy(units.Length{}) + " Then it has no lap; see the cut-off wanted.",
		})
	case e.OverTravel.Sign() < 0:
		f := Finding{
			Kind: SteamPartOpen, Severity: WorthKnowing, End: end, Amount: e.OverTravel.Neg(),
			Text: fmt.Sprintf("The %s port opens %s of its %s to steam, %.0f %%.", end, both(e.Opening), mm(port), 100*e.Opening.Ratio(port)),
		}
		if e.Opening.Ratio(port) < smallOpening {
			f.Severity = CostsPower
			f.Text += " Steam is throttled going in."
			f.Remedy = c.travelRemedy("Full opening")
		} else {
			f.Text += " That is often so; the full width still serves the exhaust."
		}
		c.add(f)
	}
	switch {
	case e.Exhaust == NeverOpens:
		c.add(Finding{
			Kind: ExhaustNeverOpens, Severity: StopsEngine, End: end, Amount: c.laps.Exhaust.Sub(back),
			Text:   fmt.Sprintf("The %s port never opens to exhaust: the exhaust lap is %s and the valve goes only %s that way. Used steam cannot leave and the piston stops against it.", end, both(c.laps.Exhaust), both(back)),
			Remedy: c.exhaustEdgeRemedy(),
		})
	case e.Exhaust == NeverCloses:
		c.add(Finding{
			Kind: ExhaustNeverCloses, Severity: StopsEngine, End: end, Amount: c.laps.Exhaust.Neg().Sub(reach),
			Text:   fmt.Sprintf("The %s port is never shut to exhaust, so steam never holds there.", end),
			Remedy: c.exhaustEdgeRemedy(),
		})
	case e.ExhaustOpening.Cmp(port) < 0:
		f := Finding{
			Kind: ExhaustPartOpen, Severity: WorthKnowing, End: end, Amount: port.Sub(e.ExhaustOpening),
			Text: fmt.Sprintf("The %s port opens %s of its %s to exhaust, %.0f %%.", end, both(e.ExhaustOpening), mm(port), 100*e.ExhaustOpening.Ratio(port)),
		}
		if e.ExhaustOpening.Ratio(port) < smallOpening {
			f.Severity = CostsPower
			f.Text += " Used steam is throttled going out and holds the piston back."
			f.Remedy = c.exhaustEdgeRemedy()
		}
		c.add(f)
	}
}

func (c *checker) travelRemedy(purpose string) string {
	travel := c.laps.Steam.Add(c.gear.Ports.Steam).Add(c.gear.Valve.Offset.Abs()).Scale(2)
	g := c.gear
	g.Travel = travel
	return fmt.Sprintf("%s needs a travel of %s, a sheave offset by %s; then set the advance anew.", purpose, size(travel, units.Up), size(g.EccentricOffset(), units.Up))
}

func (c *checker) exhaustEdgeRemedy() string {
	g := c.lineAndLine()
	if g.InsideAdmission {
		return fmt.Sprintf("Make the valve %s long over its outer edges, for no exhaust lap.", size(g.Valve.Length, units.Nearest))
	}
	return fmt.Sprintf("Make the cavity %s long, for no exhaust lap.", size(g.Valve.Cavity, units.Nearest))
}

// middle looks at full travel of the valve towards opening one end to steam.
// There one land has moved in towards the middle port: that of the same end, or
// with inside admission that of the other end. Its outer edge must still cover
// part of the bar, and its inner edge must leave enough of the middle port open.
func (c *checker) middle(end End) {
	g := c.gear
	outer, inner := c.edgeLaps()
	reach := c.reach(end)
	land, fed := end, other(end) // the end whose outer edge has moved in, and the end that the middle port serves
	if g.InsideAdmission {
		land, fed = fed, land
	}
	if passage := g.Ports.Exhaust.Add(g.Ports.Bar).Sub(inner).Sub(reach); passage.Cmp(g.Ports.Steam) < 0 {
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
		need := g.Ports.Exhaust.Add(f.Amount)
		f.Remedy = fmt.Sprintf("Make the %s %s wide with the bars as they are (then the valve is %s longer, inside and out), or the travel %s less.", name, size(need, units.Up), mm(f.Amount), size(f.Amount.Scale(2), units.Up))
		c.add(f)
	}
	seal := outer.Add(g.Ports.Steam).Add(g.Ports.Bar).Sub(reach)
	if seal.Cmp(g.Ports.Bar.Scale(leastSeal)) >= 0 {
		return
	}
	f := Finding{Kind: SteamPastValve, End: land}
	most := outer.Add(g.Ports.Steam).Add(g.Ports.Bar.Scale(1 - leastSeal)).Sub(g.Valve.Offset.Abs()).Scale(2)
	f.Remedy = fmt.Sprintf("Keep the travel to %s, which leaves a quarter of the bar covered, or lengthen the valve.", size(most, units.Down))
	if seal.Sign() < 0 {
		f.Severity, f.Amount = StopsEngine, seal.Neg()
		f.Text = fmt.Sprintf("At full travel the valve's outer edge at the %s end runs %s past the bar, and live steam goes straight to exhaust behind it.", land, both(seal.Neg()))
	} else {
		f.Severity, f.Amount = CostsPower, seal
		f.Text = fmt.Sprintf("At full travel only %s of the bar at the %s end stays covered between live steam and exhaust; it will leak.", both(seal), land)
	}
	c.add(f)
}

func (c *checker) lead(end End, e EndEvents) {
	if e.Steam != OpensAndCloses || math.Abs(float64(c.gear.Advance)) > math.Pi/2 {
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

// leadRemedy says which advance gives no lead, and how to share what the
// eccentric rod makes unequal.
func (c *checker) leadRemedy() string {
	set, err := c.gear.WithLead(units.Length{}, BothEnds)
	if err != nil {
		return "The steam lap is more than the valve's reach: " + c.steamEdgeRemedy(c.gear.Travel.Scale(0.25))
	}
	text := fmt.Sprintf("An advance of %s gives a mean lead of nothing; add what lead you want.", deg(set.Advance))
	if offset, err := set.OffsetForEqualLead(); err == nil && !offset.IsZero() {
		text += fmt.Sprintf(" Both ends then agree with the valve set %s the crank.", towards(offset))
	}
	return text
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
		f.Remedy = fmt.Sprintf("Move it %s the crank for equal leads, or %s the crank to the centre.", towards(equal.Sub(offset)), towards(offset.Neg()))
	}
	c.add(f)
}

func (c *checker) cutOffs() {
	head, crank := c.events.Head.CutOff, c.events.Crank.CutOff
	difference := head.Stroke - crank.Stroke
	if !head.Occurs || !crank.Occurs || math.Abs(difference) < equalCutOffs || c.gear.ConnectingRod.IsZero() && c.gear.EccentricRod.IsZero() {
		return
	}
	c.add(Finding{
		Kind: UnequalCutOff, Severity: WorthKnowing, Amount: c.gear.Stroke.Scale(math.Abs(difference)),
		Text: fmt.Sprintf("Cut-off comes at %s of the stroke at the head end and %s at the crank end. That is the slant of the rods and normal, not a fault; equal lead and equal cut-off cannot both be had.", percent(head.Stroke), percent(crank.Stroke)),
	})
}

func (c *checker) blindArc() {
	head, crank := driven(c.events.Head), driven(c.events.Crank)
	total := 2*halfTurn - (head[1] - head[0]) - (crank[1] - crank[0])
	if total <= 0 {
		return
	}
	text := fmt.Sprintf("A single cylinder cannot start by itself in %.0f of the 360 deg: from %s to %s and from %s to %s of crank after the head-end dead centre. Turn it by hand past there, with the steam shut off.",
		total.Degrees(), deg(head[1]), deg(halfTurn+crank[0]), deg(halfTurn+crank[1]), deg(2*halfTurn+head[0]))
	c.add(Finding{Kind: BlindArc, Severity: WorthKnowing, Arc: total, Text: text})
}

// driven returns the part of one end's outward stroke during which the port is
// open to steam.
func driven(e EndEvents) [2]units.Angle {
	switch e.Steam {
	case NeverOpens:
		return [2]units.Angle{}
	case NeverCloses:
		return [2]units.Angle{0, halfTurn}
	}
	from := max(e.Admission.Crank, 0)
	to := min(e.CutOff.Crank, halfTurn)
	return [2]units.Angle{min(from, halfTurn), max(to, min(from, halfTurn))}
}

func other(end End) End {
	if end == HeadEnd {
		return CrankEnd
	}
	return HeadEnd
}

// mm writes a length for a sentence, to a hundredth of a millimetre.
func mm(l units.Length) string { return trim(l.Decimal(units.Millimetres, 2)) + " mm" }

// both writes it in millimetres and in thou.
func both(l units.Length) string {
	return mm(l) + " (" + trim(l.Decimal(units.Thousandths, 1)) + " thou)"
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

func deg(a units.Angle) string { return fmt.Sprintf("%.1f deg", a.Degrees()) }

func percent(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }
