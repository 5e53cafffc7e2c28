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
	outer, inner := g.edgeLaps()
	what := fmt.Sprintf("The valve, %s long, is too short", both(g.Valve.Length))
	if inner.Sign() < 0 {
		what = fmt.Sprintf("The cavity, %s, is too long", both(g.Valve.Cavity))
		if g.InsideAdmission {
			what = fmt.Sprintf("The valve, %s between its inner edges, is too long", both(g.Valve.Cavity))
		}
	}
	width := g.Valve.Length.Sub(g.Valve.Cavity).Scale(0.5)
	f.tell("%s: the lands are %s wide over ports of %s, %s short%s",
		what, mm(width), mm(g.Ports.Steam), both(f.Amount), c.blowThrough())

	least, longest := g.Valve.Length.Sub(outer.Scale(2)), g.Valve.Cavity.Add(inner.Scale(2)) // for no laps
	sound := g                                                                               // of the least change
	if outer.Sign() < 0 {
		sound.Valve.Length = rounded(least, units.Up)
	}
	if inner.Sign() < 0 {
		sound.Valve.Cavity = rounded(longest, units.Down)
	}
	between := "with a cavity of "
	if g.InsideAdmission {
		between = "that has between its inner edges "
	}
	between += size(longest, units.Down)
	switch anew := c.advanceAnew(sound); {
	case inner.Sign() >= 0:
		f.remedy(c.then(sound, fmt.Sprintf("Make a valve at least %s long over the outer edges;"+
			" that is without any lap there.", size(least, units.Up))+anew))
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
	limit := c.gear.Valve.Length.Sub(c.gear.Ports.Steam.Scale(2))
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
	blows := ", so a port is open to steam and to exhaust at once and live steam blows straight through"
	const does = " It will hiss, use steam without doing work, and most likely not run."
	for _, end := range []End{HeadEnd, CrankEnd} {
		if e := c.events.at(end); e.Steam == OpensAndCloses && e.Exhaust == OpensAndCloses {
			return blows + fmt.Sprintf(" (at the %s end from %s to %s of crank and from %s to %s).", end,
				deg(e.Release.Crank), deg(e.CutOff.Crank), deg(e.Admission.Crank), deg(e.Compression.Crank-2*halfTurn)) + does
		}
	}
	for _, end := range []End{HeadEnd, CrankEnd} {
		if e := c.events.at(end); e.Steam != NeverOpens && e.Exhaust != NeverOpens {
			return blows + "." + does
		}
	}
	return "; only the short travel keeps live steam from blowing straight through."
}

func (c *checker) noSteamLap(f *Finding) {
	f.tell("In mid-travel both ports are open to steam by %s, which pushes on both sides of the piston at once.",
		both(f.Amount))
	sound, edge := steamEdge(c.gear.withSteamLap(units.Length{}))
	f.remedy(c.then(sound, edge+", and set the advance anew."))
}

func (c *checker) openAtMidTravel(f *Finding) {
	f.tell("In mid-travel both ports are open to exhaust by %s.", both(f.Amount))
	g := c.gear.withExhaustLap(units.Length{})
	if sound, err := g.Events(); err == nil && c.events.Head.Release.Occurs && sound.Head.Release.Occurs {
		f.tell(" Release at the head end comes at %s, %s of the stroke, where it would come at %s, %s, with no exhaust lap.",
			deg(c.events.Head.Release.Crank), percent(c.events.Head.Release.Stroke),
			deg(sound.Head.Release.Crank), percent(sound.Head.Release.Stroke))
	}
	if f.Severity == finding.Note {
		f.Text += " Builders have made clearances as small as this on purpose, to free the exhaust."
		return
	}
	sound, edge := exhaustEdge(g)
	f.remedy(c.then(sound, edge+"."))
}

func (c *checker) thinBars(f *Finding) {
	bar, port := c.gear.Ports.Bar, c.gear.Ports.Steam
	f.tell("The bars are %s wide, %.0f %% of the port's width. A rule for large engines makes them half as wide as the port"+
		" and 10 mm more, so that the valve seals on them and they stand being cut; below half the port there is"+
		" little of either.", both(bar), 100*bar.Ratio(port))
	f.Refs = source.Shared(&barRule)
	wider := c.gear.withBars(rounded(port.Scale(kernel.LeastBar), units.Up))
	f.remedy(c.then(wider, fmt.Sprintf("Make the bars %s wide or more, and a valve to suit.",
		size(port.Scale(kernel.LeastBar), units.Up))))
}

var barRule = source.Ref{
	Kind: source.Published, Title: "Kraft- und Hebemaschinen, a textbook in German after Weisbach",
	Edition: "digitised, year not seen", Locator: "image 493", Note: "large engines: half the port and 10 mm",
}
