package eccentric

import (
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// portSpeed is the mean speed of the steam in the ports of Bourne's rule, in m/s:
// the area of a port is that of the piston times its mean speed in feet a minute
// over 4000.
const portSpeed = 4000 * 0.3048 / 60

// portByRule returns the width of a steam port, in picometres:
//
//	width = pi/4 * bore^2 * v / (4000 ft/min) / length      v = 2 * stroke * turns a second
func portByRule(bore, stroke, length units.Length, speed units.RotationalSpeed) float64 {
	v := 2 * stroke.Metres() * float64(speed) / (2 * math.Pi)
	return math.Pi / 4 * count(bore) * bore.Ratio(length) * v / portSpeed // Bourne, Q. 320
}

// portLength returns the length of the ports, given or three quarters of the bore.
func portLength(w Wish) units.Length {
	if !w.Gear.Ports.Length.IsZero() {
		return w.Gear.Ports.Length
	}
	return w.Bore.Scale(0.75) // James and Dole, p. 61
}

var (
	bournePort = source.Ref{
		Kind: source.Published, Title: "A Catechism of the Steam Engine, by J. Bourne", Edition: "new and revised edition",
		Locator: "Q. 320", Note: "area of the port",
	}
	lowBars = source.Ref{
		Kind: source.Published, Title: "An Introduction to Machine Drawing and Design, by D. A. Low", Edition: "4th edition, 1890",
		Locator: "Fig. 58, p. 73", Note: "bars of 5/8 in between ports of 5/8 in, cylinder of 6 by 12 in",
	}
	jamesLength = source.Ref{
		Kind: source.Published, Title: "Mechanism of Steam Engines, by W. H. James and M. W. Dole", Edition: "edition not seen",
		Locator: "p. 61", Note: "length of the ports",
	}
	jamesExhaust = source.Ref{
		Kind: source.Published, Title: "Mechanism of Steam Engines, by W. H. James and M. W. Dole", Edition: "edition not seen",
		Locator: "p. 61 and 62", Note: "exhaust port",
	}
	weisbachExhaust = source.Ref{
		Kind: source.Published, Title: "Kraft- und Hebemaschinen, a textbook in German after Weisbach",
		Edition: "digitised, year not seen", Locator: "image 493", Note: "exhaust port",
	}
)

// chosen says how the sizes that were not given were come by, and what equal leads
// or cut-offs make of the other.
func (d *designer) chosen(j *Designed) (all []Finding) {
	g, w := &j.Gear, &d.wish
	given := &w.Gear.Ports
	say := func(code finding.Code, where, text string, refs source.Refs) {
		all = append(all, Finding{Finding: finding.Finding{Code: code, Where: where, Text: text, Refs: refs}})
	}
	switch {
	case !given.Steam.IsZero():
	case d.byRule > 0:
		say(ChosenByRule, "ports", fmt.Sprintf("The steam ports are %s wide: the area of the piston times its mean speed over 4000"+
			" feet a minute, on a length of %s.", both(g.Ports.Steam), both(g.Ports.Length)), source.Shared(&bournePort))
	default:
		say(LeftOpen, "ports", fmt.Sprintf("The steam ports are as wide as the valve opens, %s.", both(g.Ports.Steam)), source.Refs{})
	}
	if given.Length.IsZero() && !g.Ports.Length.IsZero() {
		say(ChosenByRule, "ports", fmt.Sprintf("The ports are %s long, three quarters of the bore; no event depends on it.",
			both(g.Ports.Length)), source.Shared(&jamesLength))
	}
	if given.Bar.IsZero() {
		text := fmt.Sprintf("The bars are as wide as the steam ports, %s.", both(g.Ports.Bar))
		refs := source.Shared(&lowBars)
		switch wider := g.Ports.Bar.Sub(greater(g.port(HeadEnd), g.port(CrankEnd))); {
		case wider.IsZero():
		case wider.Cmp(j.Step) < 0:
			text = fmt.Sprintf("The bars are as wide as the steam ports, up to the next whole step, %s.", both(g.Ports.Bar))
		default:
			text = fmt.Sprintf("The bars are %s wide, wider than the ports, so that at full travel a quarter of them stays covered.",
				both(g.Ports.Bar))
			refs = source.Shared(&lowBars, &practice)
		}
		say(ChosenByRule, "bars", text, refs)
	}
	if given.Exhaust.IsZero() {
		say(ChosenByRule, middleOf(g), fmt.Sprintf("The %s is %s wide: at full travel it stays open by the width of a steam port"+
			" or more.", middleOf(g), both(g.Ports.Exhaust)), source.Shared(&jamesExhaust, &weisbachExhaust))
	}
	if w.Compression == 0 && w.ExhaustLap.IsZero() {
		say(LeftOpen, "exhaust lap", "No exhaust lap and no compression is wished, so the valve is line on line with the ports on"+
			" the exhaust side.", source.Refs{})
	}
	if w.Lead.IsZero() {
		say(LeftOpen, "lead", "No lead is wished: the mean of both ends is nothing, and the ports just open at the dead centres.",
			source.Refs{})
	}
	if d.wanted.Full {
		say(LeftOpen, "opening", "No opening and no travel is wished, so the ports open fully, with the least travel that does it.",
			source.Refs{})
	}
	if text := d.ends(j); text != "" {
		say(EndsDiffer, "both ends", text, source.Refs{})
	}
	return all
}

// keeps tells it where the rounded gear does not keep to the wish, as its gear would
// not work.
func (d *designer) keeps(exact, rounded *Designed) {
	fails := func(j *Designed) bool {
		return slices.ContainsFunc(j.Findings, func(f Finding) bool { return f.Severity >= finding.Fails })
	}
	if !fails(exact) || fails(rounded) {
		return
	}
	rounded.Chosen = append([]Finding{{Finding: finding.Finding{
		Code: WishNotKept, Severity: finding.Caution, Where: "wish",
		Text: fmt.Sprintf("The gear that does all that is wished does not work, as is told of it; the rounded one is the nearest that"+
			" does. It cuts off at %s of the stroke and compresses the last %s of it.",
			percent(rounded.CutOff), percent(rounded.Compression)),
	}}}, rounded.Chosen...)
}

func middleOf(g *Gear) string {
	if g.InsideAdmission {
		return "middle port"
	}
	return "exhaust port"
}

// ends says what the ends do that were made equal in one thing, or in none.
func (d *designer) ends(j *Designed) string {
	h, c := j.Events.Head, j.Events.Crank
	leads := fmt.Sprintf("%s at the head end and %s at the crank end", both(h.Lead), both(c.Lead))
	cuts := fmt.Sprintf("%s of the stroke at the head end and %s at the crank end", percent(h.CutOff.Stroke), percent(c.CutOff.Stroke))
	cannot := "; with one eccentric that drives the valve direct both cannot be equal."
	if j.Gear.LeverRatio < 0 || j.Gear.InsideAdmission {
		cannot = "; both are not equal in this gear."
	}
	switch {
	case h.Lead.Sub(c.Lead).Abs().Cmp(units.Micron(1)) < 0 && math.Abs(h.CutOff.Stroke-c.CutOff.Stroke) < 5e-4:
		return ""
	case d.wish.EqualLead:
		return "Equal leads are wished: the cut-offs become " + cuts + cannot
	case d.wish.EqualCutOff:
		return "Equal cut-offs are wished: the leads become " + leads + cannot
	}
	at := "in the middle of the ports"
	if !j.Gear.Valve.Offset.IsZero() {
		at = towards(j.Gear.Valve.Offset) + " the crank, as given"
	}
	return "Nothing is wished to be equal, so the valve stays " + at + ": the leads are " + leads + ", the cut-offs " + cuts + "."
}
