package eccentric

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A remedy returns the gear changed in one way, and says how.
type remedy func(Gear) (Gear, string)

// remedy says what opens and shuts the port of one end as it should: the first
// of the given remedies that does so alone, or after the valve is put in its
// place, and otherwise all of them. Each is tried on the gear before it is named;
// one that brings on another fault is named only where all do.
func (c *checker) remedy(end End, good func(*EndEvents) bool, remedies ...remedy) string {
	var ways [][]remedy
	if _, move := placed(c.gear); move != "" {
		ways = append(ways, []remedy{placed})
	}
	if !c.gear.Valve.LostMotion.IsZero() {
		ways = append(ways, []remedy{takenUp})
	}
	if !c.gear.Valve.CavityOffset.IsZero() {
		ways = append(ways, []remedy{middleCavity}, []remedy{placed, middleCavity})
	}
	for _, r := range remedies {
		ways = append(ways, []remedy{r}, []remedy{placed, r})
	}
	ways = append(ways, append([]remedy{placed}, remedies...))
	best := ""
	for _, way := range ways {
		g := c.gear
		var texts []string
		for _, change := range way {
			var text string
			if g, text = change(g); text != "" {
				texts = append(texts, text)
			}
		}
		text := strings.Join(texts, " ")
		if events, err := g.Events(); err != nil || !good(events.at(end)) {
			continue
		}
		if len(c.bringsOn(g)) == 0 {
			c.named = append(c.named, g)
			return text
		}
		if best == "" {
			best = c.then(g, text)
		}
	}
	return cmp.Or(best, designAnew)
}

const designAnew = "No one size puts this right: design the valve and its travel anew for these ports."

// then ends the text of a remedy with the faults that the changed gear has and
// this one has not. Sizes that make no gear, as where these ports leave a lap no room,
// are no remedy.
func (c *checker) then(g Gear, text string) string {
	if g.Validate() != nil {
		return designAnew
	}
	faults := c.bringsOn(g)
	if len(faults) == 0 {
		return text
	}
	return text + " Check again after it, for it brings on " + strings.Join(faults, ", ") + "."
}

// bringsOn names the faults that a changed gear has and this one has not. Where
// the lead has changed, the advance is first set anew, and the leads of the two
// ends are left to the setting.
func (c *checker) bringsOn(changed Gear) (faults []string) {
	if changed.Validate() != nil {
		return []string{"sizes that make no gear"}
	}
	set, anew := c.settled(changed)
	if !anew && c.advanceAnew(changed) != "" && c.gear.leads() {
		faults = append(faults, noLeadWords)
	}
	for code, ends := range set.judged().verdicts {
		switch code := kernel.Code(code); {
		case code < kernel.Faults:
			continue
		case anew && (code == kernel.LateSteam || code == kernel.LargeLead):
			continue
		}
		for end, grade := range ends {
			if grade > kernel.Worth && grade > c.verdicts[code][end] {
				faults = append(faults, known[code].words)
				break
			}
		}
	}
	return faults
}

// noLeadWords name what no advance puts right.
const noLeadWords = "a steam lap that the travel does not reach"

// leads reports whether some advance gives a gear a mean lead of nothing.
func (g Gear) leads() bool {
	_, err := g.WithLead(units.Length{}, BothEnds)
	return err == nil
}

// settled returns a gear whose steam lap or travel has been changed with the
// advance set anew, for the mean lead that this gear has if it is a sound one and
// otherwise for none; false where nothing of that has changed, or no advance
// gives it.
func (c *checker) settled(changed Gear) (Gear, bool) {
	if c.advanceAnew(changed) == "" {
		return changed, false
	}
	lead := c.events.MeanLead()
	if !c.k.LeadSound(count(lead)) {
		lead = units.Length{}
	}
	set, err := changed.WithLead(lead, BothEnds)
	if err != nil {
		return changed, false
	}
	return set, true
}

// advanceAnew asks for the advance to be set again if the lead has changed.
func (c *checker) advanceAnew(changed Gear) string {
	if changed.Travel == c.gear.Travel && changed.Laps().Steam == c.laps.Steam {
		return ""
	}
	return " Then set the advance anew."
}

// clearMiddle says what leaves enough of the middle port open when the valve has
// gone furthest towards opening one end to steam; a new size serves both ends.
func (c *checker) clearMiddle(end End, port string) []string {
	g := c.gear
	if moved, text := placed(g); text != "" && moved.passageShort(end).Sign() <= 0 && c.bringsOn(moved) == nil {
		return []string{text}
	}
	if centred, text := middleCavity(g); centred.passageShort(end).Sign() <= 0 && c.bringsOn(centred) == nil {
		return []string{text}
	}
	short := middleShort(g)
	width := g.Ports.Exhaust.Add(short)
	wider := widerMiddle(g)
	ways := []string{c.then(wider, fmt.Sprintf("Make the %s %s wide with the bars as they are; the valve is then %s"+
		" longer, inside and out.",
		port, size(width, units.Up), mm(short)))}
	by := short.Scale(2)
	less := lessForMiddle(g)
	if less.passageShort(end).Sign() <= 0 && c.serves(less) {
		ways = append(ways, fmt.Sprintf("Or make the travel %s less, and set the advance anew.", size(by, units.Up)))
	}
	return ways
}

// coverBar says what lets the valve's outer edge cover a quarter of the bar when
// it has gone furthest towards opening one end to steam; a new size serves both
// ends.
func (c *checker) coverBar(end End) []string {
	g := c.gear
	if moved, text := placed(g); text != "" && moved.sealShort(end).Sign() <= 0 && c.bringsOn(moved) == nil {
		return []string{text}
	}
	more := sealShort(g).Scale(2)
	travel := g.Travel.Sub(more)
	less, longer := lessForBars(g), longerForBars(g)
	lengthen := func(how string) string {
		return fmt.Sprintf("%s the valve %s longer, which leaves a quarter of the bar covered and adds to the lap.%s",
			how, size(more, units.Up), c.advanceAnew(longer))
	}
	if !c.serves(less) {
		return []string{c.then(longer, lengthen("Make"))}
	}
	ways := []string{fmt.Sprintf("Keep the travel to %s, which leaves a quarter of the bar covered,"+
		" and set the advance anew.", size(travel, units.Down))}
	if c.serves(longer) {
		ways = append(ways, lengthen("Or make"))
	}
	return ways
}

// serves reports whether both ports of a changed gear still open to steam and to
// exhaust well enough, and nothing else goes wrong.
func (c *checker) serves(changed Gear) bool {
	e, err := changed.Events()
	opens := func(end End) bool {
		least := enoughOf(changed.port(end))
		return e.at(end).Opening.Cmp(least) >= 0 && e.at(end).ExhaustOpening.Cmp(least) >= 0
	}
	return err == nil && opens(HeadEnd) && opens(CrankEnd) && len(c.bringsOn(changed)) == 0
}
