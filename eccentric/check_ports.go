package eccentric

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// enoughOf returns the opening of a port that a remedy must reach, after its
// size has been rounded.
func enoughOf(port units.Length) units.Length {
	return port.Scale(kernel.SmallOpening).Add(units.Micron(10))
}

// reach returns how far the valve goes towards opening one end's port to steam.
func (c *checker) reach(end End) units.Length { return length(c.k.Reach(kernel.End(end))) }

// opensWell reports whether a port opens to steam as far as a remedy must make it.
func (c *checker) opensWell(end End, e *EndEvents) bool {
	return e.Opening.Cmp(enoughOf(c.gear.port(end))) >= 0
}

func (c *checker) steamPort(f *Finding) {
	e, port := c.events.at(f.End), c.gear.port(f.End)
	opensWell := func(e *EndEvents) bool { return c.opensWell(f.End, e) }
	switch {
	case e.Steam == NeverOpens:
		f.tell("The %s port never opens to steam: the steam lap is %s and the valve %s that way.",
			f.End, both(c.gear.LapsAt(f.End).Steam), goesOnly(c.reach(f.End)))
		f.remedy(c.remedy(f.End, opensWell, fullTravel))
	case e.Steam == NeverCloses:
		f.tell("The %s port is never shut to steam.", f.End)
		f.remedy(c.remedy(f.End, func(e *EndEvents) bool { return e.Steam == OpensAndCloses }, noSteamLap))
	default:
		f.tell("The %s port opens %s of its %s to steam, %.0f %%.",
			f.End, both(e.Opening), mm(port), 100*e.Opening.Ratio(port))
		switch {
		case f.Severity > finding.Note:
			f.Text += " Steam is throttled going in."
			f.remedy(c.remedy(f.End, opensWell, fullTravel))
		case e.ExhaustOpening == port:
			f.Text += " That is often so; the full width still serves the exhaust."
		default:
			f.Text += " That is often so."
		}
	}
}

func (c *checker) exhaustPort(f *Finding) {
	e, port := c.events.at(f.End), c.gear.port(f.End)
	serves := func(e *EndEvents) bool { return e.ExhaustOpening.Cmp(enoughOf(port)) >= 0 }
	switch {
	case e.Exhaust == NeverOpens:
		f.tell("The %s port never opens to exhaust: the exhaust lap is %s and the valve %s that way."+
			" Used steam cannot leave and the piston stops against it.",
			f.End, both(c.gear.LapsAt(f.End).Exhaust), goesOnly(c.reach(other(f.End))))
		f.remedy(c.remedy(f.End, serves, noExhaustLap, fullTravel))
	case e.Exhaust == NeverCloses:
		f.tell("The %s port is never shut to exhaust, so steam never holds there.", f.End)
		f.remedy(c.remedy(f.End, func(e *EndEvents) bool { return e.Exhaust == OpensAndCloses }, noExhaustLap))
	default:
		f.tell("The %s port opens %s of its %s to exhaust, %.0f %%.",
			f.End, both(e.ExhaustOpening), mm(port), 100*e.ExhaustOpening.Ratio(port))
		if f.Severity > finding.Note {
			f.Text += " Used steam is throttled going out and holds the piston back."
			f.remedy(c.remedy(f.End, serves, noExhaustLap, fullTravel))
		}
	}
}

func goesOnly(reach units.Length) string {
	if reach.Sign() < 0 {
		return "stays " + both(reach.Neg()) + " short of the centre"
	}
	return "goes only " + both(reach)
}
