package eccentric

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

func (c *checker) narrowLand(f *Finding) {
	g := c.gear
	centred := g
	centred.Valve.CavityOffset = units.Length{}
	what := fmt.Sprintf("The valve, %s long, is too short", both(g.Valve.Length))
	if _, here := centred.edgeLaps(f.End); here.Sign() < 0 {
		what = fmt.Sprintf("The cavity, %s, is too long", both(g.Valve.Cavity))
		if g.InsideAdmission {
			what = fmt.Sprintf("The valve, %s between its inner edges, is too long", both(g.Valve.Cavity))
		}
	}
	lands := fmt.Sprintf("the lands are %s wide over ports of %s, %s short",
		mm(g.land(HeadEnd)), mm(g.Ports.Steam), both(f.Amount))
	switch {
	case f.End != BothEnds:
		lands = fmt.Sprintf("the land at the %s end is %s wide over a port of %s, %s short",
			f.End, mm(g.land(f.End)), mm(g.port(f.End)), both(f.Amount))
	case !g.alike():
		lands = fmt.Sprintf("the lands are %s wide at the head end and %s at the crank end over ports of %s and %s, up to %s short",
			mm(g.land(HeadEnd)), mm(g.land(CrankEnd)), mm(g.port(HeadEnd)), mm(g.port(CrankEnd)), both(f.Amount))
	}
	middle := ""
	if off := g.Valve.CavityOffset; !off.IsZero() {
		middle = " in its middle"
		if v := centred.judged().verdicts; v.Worst(kernel.NarrowLand) == kernel.Absent {
			f.tell("The cavity is %s the crank off the middle of the valve: %s%s", towards(off), lands, c.blowThrough())
			f.remedy(c.then(centred, "Make a valve with its cavity in the middle, or let a strip into this one and cut the cavity"+
				" on at the other end."))
			return
		}
	}
	f.tell("%s: %s%s", what, lands, c.blowThrough())

	g = centred
	outer, inner := g.edgeLaps(BothEnds)
	least, longest := g.Valve.Length.Sub(outer.Scale(2)), g.Valve.Cavity.Add(inner.Scale(2)) // for no laps
	sound := landed(g)
	between := "with a cavity of "
	if g.InsideAdmission {
		between = "that has between its inner edges "
	}
	between += size(longest, units.Down) + middle
	switch anew := c.advanceAnew(sound); {
	case inner.Sign() >= 0:
		if middle != "" {
			middle = ", with the cavity" + middle
		}
		f.remedy(c.then(sound, fmt.Sprintf("Make a valve at least %s long over the outer edges%s;"+
			" that is without any lap there.", size(least, units.Up), middle)+anew))
	case outer.Sign() < 0:
		f.remedy(c.then(sound, fmt.Sprintf("Make a valve %s and over its outer edges at least %s; that is without any lap.",
			between, size(least, units.Up))+anew))
	default:
		f.remedy(c.then(sound, "Make a valve "+between+", the longest that keeps both ports shut in mid-travel."+
			c.justStops(longest)+
			" Shortening the valve does not cure it: it makes the lands narrower still."+anew))
		f.remedy(c.then(sound, "Or let strips into this valve, to make it one "+between+"."+anew))
	}
}

// justStops says at which size between the inner edges, above the longest that
// keeps both ports shut in mid-travel, the lands are just as wide as the ports.
func (c *checker) justStops(longest units.Length) string {
	off := c.gear.Valve.CavityOffset.Scale(2)
	limit := lesser(c.gear.Valve.Length.Add(off).Sub(c.gear.port(HeadEnd).Scale(2)),
		c.gear.Valve.Length.Sub(off).Sub(c.gear.port(CrankEnd).Scale(2)))
	if limit.Cmp(longest) <= 0 {
		return ""
	}
	still := "the exhaust still opens early"
	if c.gear.InsideAdmission {
		still = "both ports are still open to steam in mid-travel"
	}
	return fmt.Sprintf(" At %s the blow-through just stops, but %s.", size(limit, units.Down), still)
}

// blowThrough ends the sentence about a land narrower than its port.
func (c *checker) blowThrough() string {
	narrow := func(end kernel.End) bool { return c.m.Steam[end]+c.m.Exhaust[end] < 0 }
	blows := ", so a port is open to steam and to exhaust at once and live steam blows straight through"
	const does = " It will hiss, use steam without doing work, and most likely not run."
	for _, end := range []End{HeadEnd, CrankEnd} {
		if e := c.events.at(end); narrow(kernel.End(end)) && e.Steam == OpensAndCloses && e.Exhaust == OpensAndCloses {
			return blows + fmt.Sprintf(" (at the %s end from %s to %s of crank and from %s to %s).", end,
				deg(e.Release.Crank), deg(e.CutOff.Crank), deg(e.Admission.Crank), deg(e.Compression.Crank-2*halfTurn)) + does
		}
	}
	for _, end := range []End{HeadEnd, CrankEnd} {
		if e := c.events.at(end); narrow(kernel.End(end)) && e.Steam != NeverOpens && e.Exhaust != NeverOpens {
			return blows + "." + does
		}
	}
	return "; only the short travel keeps live steam from blowing straight through."
}

func (c *checker) noSteamLap(f *Finding) {
	if f.End != BothEnds {
		f.tell("In mid-travel the %s port is open to steam by %s, so that steam pushes on that side of the piston when it"+
			" should not.", f.End, both(f.Amount))
	} else {
		f.tell("In mid-travel both ports are open to steam by %s, which pushes on both sides of the piston at once.",
			c.eachBy(f, kernel.NoSteamLap))
	}
	sound, edge := steamEdge(c.gear.withSteamLap(units.Length{}))
	f.remedy(c.then(sound, edge+", and set the advance anew."))
}

func (c *checker) openAtMidTravel(f *Finding) {
	end := f.End
	if end == BothEnds {
		f.tell("In mid-travel both ports are open to exhaust by %s.",
			c.eachBy(f, kernel.OpenAtMidTravel))
		end = HeadEnd
	} else {
		f.tell("In mid-travel the %s port is open to exhaust by %s.", f.End, both(f.Amount))
	}
	g := c.gear.withExhaustLap(units.Length{})
	if sound, err := g.Events(); err == nil && c.events.at(end).Release.Occurs && sound.at(end).Release.Occurs {
		is, would := c.events.at(end).Release, sound.at(end).Release
		f.tell(" Release at the %s end comes at %s, %s of the stroke, where it would come at %s, %s, with no exhaust lap.",
			end, deg(is.Crank), percent(is.Stroke), deg(would.Crank), percent(would.Stroke))
	}
	if f.Severity == finding.Note {
		f.Text += " Builders have made clearances as small as this on purpose, to free the exhaust."
		return
	}
	if centred, remedy := middleCavity(c.gear); centred != c.gear {
		if v := centred.judged().verdicts; v.Worst(kernel.OpenAtMidTravel) <= kernel.Worth {
			f.remedy(c.then(centred, remedy))
			return
		}
	}
	sound, edge := exhaustEdge(g)
	f.remedy(c.then(sound, edge+"."))
}

// eachBy says by how much a thing is so at both ends.
func (c *checker) eachBy(f *Finding, code kernel.Code) string {
	if c.gear.alike() {
		return both(f.Amount)
	}
	by := func(end kernel.End) string { return both(length(c.k.Amount(&c.m, &c.found, code, end))) }
	return by(kernel.Head) + " at the head end and " + by(kernel.Crank) + " at the crank end"
}

func (c *checker) thinBars(f *Finding) {
	port, bar := c.gear.Ports.At(f.End)
	bars := "The bars are"
	if f.End == BothEnds && !c.gear.alike() {
		end, amount := HeadEnd, c.k.Amount(&c.m, &c.found, kernel.ThinBars, kernel.Head)
		if c.k.Amount(&c.m, &c.found, kernel.ThinBars, kernel.Crank) > amount {
			end = CrankEnd
		}
		port, bar = c.gear.Ports.At(end)
		bars = fmt.Sprintf("Both bars are thin, that of the %s end the more:", end)
	} else if f.End != BothEnds {
		bars = fmt.Sprintf("The bar of the %s end is", f.End)
	}
	f.tell(bars+" %s wide, %.0f %% of the port's width. A rule for large engines makes them half as wide as the port"+
		" and 10 mm more, so that the valve seals on them and they stand being cut; below half the port there is"+
		" little of either.", both(bar), 100*bar.Ratio(port))
	f.Refs = source.Shared(&barRule)
	if !c.gear.alike() {
		short := port.Scale(kernel.LeastBar).Sub(bar)
		wider := c.gear.withWiderBars(rounded(short, units.Up))
		f.remedy(c.then(wider, fmt.Sprintf("Make both bars %s wider or more, and a valve to suit.", size(short, units.Up))))
		return
	}
	wider := c.gear.withBars(rounded(port.Scale(kernel.LeastBar), units.Up))
	f.remedy(c.then(wider, fmt.Sprintf("Make the bars %s wide or more, and a valve to suit.",
		size(port.Scale(kernel.LeastBar), units.Up))))
}

var barRule = source.Ref{
	Kind: source.Published, Title: "Kraft- und Hebemaschinen, a textbook in German after Weisbach",
	Edition: "digitised, year not seen", Locator: "image 493", Note: "large engines: half the port and 10 mm",
}
