package eccentric

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Check returns what is worth saying about a gear, the worst first: what stops
// the engine, what costs power, what is worth knowing. Every finding says what
// will happen and, where something should be done, what to do and to which
// size. Each remedy has been tried on the gear before it is named, with its size
// as it is printed, and if it brings on a fault that the gear has not got, it
// says which; no move is named that is too small to be set. Where the figures
// look as if they were stated amiss, that is told first. A gear that
// [Gear.Validate] refuses has one finding, [NotAGear], with the reasons.
//
// The geometry is exact. How much of a thing is too much is common practice,
// which the finding then names as its source, and a builder may differ.
func (g Gear) Check() []Finding { return g.check(false) }

// CheckPlaced is [Gear.Check] for a gear whose eccentric was given by where it
// stands, as [Gear.WithEccentricAt] takes it: a slip in that angle, such as the
// angle of advance in its place or the wrong sign, is looked for and told in place
// of one in the advance. See the Example of [Gear.WithEccentricAt].
func (g Gear) CheckPlaced() []Finding { return g.check(true) }

func (g Gear) check(placed bool) []Finding {
	if err := g.Validate(); err != nil {
		return []Finding{notAGear(err)}
	}
	c := checking(g)
	if placed {
		c.judged = g.judgedAs(placed)
	}
	all := c.findings()
	finding.Sort(all)
	return all
}

// findings puts all verdicts into words, by their codes.
func (c *checker) findings() (all []Finding) {
	for code, ends := range c.verdicts {
		for end, grade := range ends {
			if grade != kernel.Absent {
				all = append(all, c.say(kernel.Code(code), End(end), grade))
			}
		}
	}
	return all
}

// notAGear puts what Validate complains of, one a line, into one sentence.
func notAGear(err error) Finding {
	return Finding{Finding: finding.Finding{
		Code: NotAGear, Severity: finding.Fails,
		Text:     "From these sizes nothing can be worked out: " + strings.ReplaceAll(err.Error(), "\n", "; ") + ".",
		Remedies: []string{"Put these sizes right first; nothing else has been looked at."},
	}}
}

// A judged is a gear with the kernel's verdicts on it.
type judged struct {
	k        kernel.Gear
	m        kernel.Motion
	found    kernel.Events
	verdicts kernel.Verdicts
}

func (g *Gear) judged() judged { return g.judgedAs(false) }

func (g *Gear) judgedAs(placed bool) judged {
	j := judged{k: g.Kernel()}
	j.k.Placed = placed
	j.m.Set(&j.k)
	j.m.Events(&j.found)
	j.verdicts = j.k.Judge(&j.m, &j.found)
	return j
}

// A checker puts the verdicts on a gear into words.
type checker struct {
	gear   Gear
	laps   Laps
	events Events
	judged

	named []Gear // what the remedies of a port make of the gear, each as it was said
}

// checking returns the checker of a sound gear.
func checking(g Gear) *checker {
	c := &checker{gear: g, laps: g.Laps(), judged: g.judged()}
	c.events.set(&c.found)
	return c
}

// say returns the finding for one verdict.
func (c *checker) say(code kernel.Code, end End, grade kernel.Grade) Finding {
	f := Finding{
		Finding: finding.Finding{Code: known[code].code, Severity: severities[grade]},
		End:     end,
		Amount:  length(c.k.Amount(&c.m, &c.found, code, kernel.End(end))),
	}
	if known[code].byPractice && grade < kernel.Stops {
		f.Refs = source.Shared(&practice)
	}
	switch code {
	case kernel.AngleFromCrank, kernel.AdvanceOfOtherSign, kernel.AdvanceForPlace, kernel.PlaceOfOtherSign,
		kernel.OffsetForTravel, kernel.TravelForOffset:
		c.slip(&f, code)
	case kernel.NarrowLand:
		c.narrowLand(&f)
	case kernel.ThinBars:
		c.thinBars(&f)
	case kernel.RunsBackwards:
		c.runsBackwards(&f)
	case kernel.LittleWork:
		c.littleWork(&f)
	case kernel.OffCentre:
		c.offCentre(&f)
	case kernel.LostMotion:
		c.lostMotion(&f)
	case kernel.SteamNeverOpens, kernel.SteamNeverCloses, kernel.SteamPartOpen:
		c.steamPort(&f)
	case kernel.ExhaustNeverOpens, kernel.ExhaustNeverCloses, kernel.ExhaustPartOpen:
		c.exhaustPort(&f)
	case kernel.SteamPastValve:
		c.steamPastValve(&f)
	case kernel.FoulsChest:
		c.foulsChest(&f)
	case kernel.OpenAtMidTravel:
		c.openAtMidTravel(&f)
	case kernel.LittleExhaustLap:
		c.littleExhaustLap(&f)
	case kernel.NoSteamLap:
		c.noSteamLap(&f)
	case kernel.MiddleThrottled:
		c.middleThrottled(&f)
	case kernel.LateSteam, kernel.NoLead, kernel.LargeLead:
		c.lead(&f)
	case kernel.UnequalCutOff:
		c.unequalCutOff(&f)
	case kernel.BlindArc:
		c.blindArc(&f)
	}
	return f
}

// tell adds to the text of the finding.
func (f *Finding) tell(format string, args ...any) { f.Text += fmt.Sprintf(format, args...) }

// remedy adds a remedy to the finding; a blank one is none.
func (f *Finding) remedy(text string) {
	if text != "" {
		f.Remedies = append(f.Remedies, text)
	}
}

func (f *Finding) remedyf(format string, args ...any) { f.remedy(fmt.Sprintf(format, args...)) }

// at returns the events of one end.
func (e *Events) at(end End) *EndEvents {
	if end == CrankEnd {
		return &e.Crank
	}
	return &e.Head
}

func other(end End) End { return End(kernel.End(end).Other()) }

// edgeLaps returns the laps of the valve's outer and inner edges at one end, or for
// [BothEnds] the lesser of each.
func (g Gear) edgeLaps(end End) (outer, inner units.Length) {
	if end == BothEnds {
		outer, inner = g.edgeLaps(HeadEnd)
		crankOuter, crankInner := g.edgeLaps(CrankEnd)
		return lesser(outer, crankOuter), lesser(inner, crankInner)
	}
	laps := g.LapsAt(end)
	if g.InsideAdmission {
		return laps.Exhaust, laps.Steam
	}
	return laps.Steam, laps.Exhaust
}

// alike reports whether the valve and its ports are the same at both ends.
func (g Gear) alike() bool {
	port, bar := g.Ports.At(CrankEnd)
	return port == g.Ports.Steam && bar == g.Ports.Bar && g.Valve.CavityOffset.IsZero()
}

// port returns the width of one end's port to the cylinder, or for [BothEnds] the
// mean of both.
func (g Gear) port(end End) units.Length {
	port, _ := g.Ports.At(end)
	return port
}

// land returns how wide the valve is over one end's port.
func (g Gear) land(end End) units.Length {
	width := g.Valve.Length.Sub(g.Valve.Cavity).Scale(0.5)
	if end == CrankEnd {
		return width.Sub(g.Valve.CavityOffset)
	}
	return width.Add(g.Valve.CavityOffset)
}
