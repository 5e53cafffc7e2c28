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
// of the given remedies that does so alone, or after the valve is set central,
// and otherwise all of them. Each is tried on the gear before it is named; one
// that brings on another fault is named only where all do.
func (c *checker) remedy(end End, good func(*EndEvents) bool, remedies ...remedy) string {
	var ways [][]remedy
	if !c.gear.Valve.Offset.IsZero() {
		ways = append(ways, []remedy{central})
	}
	for _, r := range remedies {
		ways = append(ways, []remedy{r}, []remedy{central, r})
	}
	ways = append(ways, append([]remedy{central}, remedies...))
	var best, last string
	for _, way := range ways {
		g := c.gear
		var texts []string
		for _, change := range way {
			var text string
			if g, text = change(g); text != "" {
				texts = append(texts, text)
			}
		}
		last = strings.Join(texts, " ")
		if events, err := g.Events(); err != nil || !good(events.at(end)) {
			continue
		}
		if len(c.bringsOn(g)) == 0 {
			return last
		}
		if best == "" {
			best = c.then(g, last)
		}
	}
	return cmp.Or(best, last)
}

// then ends the text of a remedy with the faults that the changed gear has and
// this one has not.
func (c *checker) then(g Gear, text string) string {
	faults := c.bringsOn(g)
	if len(faults) == 0 {
		return text
	}
	return text + " Check again after it, for it brings on " + strings.Join(faults, ", ") + "."
}

// bringsOn names the faults that a changed gear has and this one has not, all
// but those of the lead, which is set when all sizes are right.
func (c *checker) bringsOn(changed Gear) (faults []string) {
	if changed.Validate() != nil {
		return []string{"sizes that make no gear"}
	}
	for code, ends := range changed.judged().verdicts {
		switch kernel.Code(code) {
		case kernel.LateSteam, kernel.LargeLead:
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
	if moved, text := central(g); text != "" && moved.passage(end).Cmp(g.Ports.Steam) >= 0 {
		return []string{c.then(moved, text)}
	}
	short := g.Ports.Steam.Sub(lesser(g.passage(HeadEnd), g.passage(CrankEnd)))
	width := g.Ports.Exhaust.Add(short)
	wider := g.withMiddle(rounded(width, units.Up))
	ways := []string{c.then(wider, fmt.Sprintf("Make the %s %s wide with the bars as they are; the valve is then %s"+
		" longer, inside and out.",
		port, size(width, units.Up), mm(short)))}
	by := short.Scale(2)
	less := g.withTravel(g.Travel.Sub(rounded(by, units.Up)))
	if less.passage(end).Cmp(g.Ports.Steam) >= 0 && c.serves(less) {
		ways = append(ways, fmt.Sprintf("Or make the travel %s less, and set the advance anew.", size(by, units.Up)))
	}
	return ways
}

// coverBar says what lets the valve's outer edge cover a quarter of the bar when
// it has gone furthest towards opening one end to steam; a new size serves both
// ends.
func (c *checker) coverBar(end End) []string {
	g := c.gear
	least := g.Ports.Bar.Scale(kernel.LeastSeal)
	if moved, text := central(g); text != "" && moved.seal(end).Cmp(least) >= 0 {
		return []string{c.then(moved, text)}
	}
	short := least.Sub(lesser(g.seal(HeadEnd), g.seal(CrankEnd)))
	travel, more := g.Travel.Sub(short.Scale(2)), short.Scale(2)
	less, longer := g.withTravel(rounded(travel, units.Down)), g
	longer.Valve.Length = g.Valve.Length.Add(rounded(more, units.Up))
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
	least := enoughOf(changed.Ports.Steam)
	opens := func(e EndEvents) bool { return e.Opening.Cmp(least) >= 0 && e.ExhaustOpening.Cmp(least) >= 0 }
	return err == nil && opens(e.Head) && opens(e.Crank) && len(c.bringsOn(changed)) == 0
}
