package eccentric

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A remedy returns the gear changed in one way, and says how.
type remedy func(Gear) (Gear, string)

// remedy says what opens and shuts the port of one end as it should: the first
// of the given remedies that does so alone, or after the valve is set central,
// and otherwise all of them. Each is tried on the gear before it is named; one
// that brings on another fault is named only where all do.
func (c *checker) remedy(end End, good func(*EndEvents) bool, remedies ...remedy) string {
	if c.trying {
		return ""
	}
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
	return text + " Check again after it, for it brings on: " + strings.Join(faults, ", ") + "."
}

// bringsOn names the faults that a changed gear has and this one has not, all
// but those of the lead, which is set when all sizes are right.
func (c *checker) bringsOn(changed Gear) (faults []string) {
	if c.trying {
		return nil
	}
	for _, f := range changed.faults() {
		known := slices.ContainsFunc(c.faults, func(old Finding) bool {
			return old.Kind == f.Kind && old.End == f.End && old.Severity <= f.Severity
		})
		name := f.Kind.String()
		if f.Kind == NotAGear {
			name = "sizes that make no gear"
		}
		if !known && f.Severity != WorthKnowing && f.Kind != LateSteam && f.Kind != LargeLead && !slices.Contains(faults, name) {
			faults = append(faults, name)
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
func (c *checker) clearMiddle(end End, port string) string {
	g := c.gear
	if moved, text := central(g); text != "" && moved.passage(end).Cmp(g.Ports.Steam) >= 0 {
		return c.then(moved, text)
	}
	short := g.Ports.Steam.Sub(lesser(g.passage(HeadEnd), g.passage(CrankEnd)))
	width := g.Ports.Exhaust.Add(short)
	wider := g.withMiddle(rounded(width, units.Up))
	text := fmt.Sprintf("Make the %s %s wide with the bars as they are (then the valve is %s longer, inside and out)", port, size(width, units.Up), mm(short))
	by := short.Scale(2)
	if less := g.withTravel(g.Travel.Sub(rounded(by, units.Up))); less.passage(end).Cmp(g.Ports.Steam) >= 0 && c.serves(less) {
		text += fmt.Sprintf(", or the travel %s less, and set the advance anew", size(by, units.Up))
	}
	return c.then(wider, text+".")
}

// coverBar says what lets the valve's outer edge cover a quarter of the bar when
// it has gone furthest towards opening one end to steam; a new size serves both
// ends.
func (c *checker) coverBar(end End) string {
	g := c.gear
	least := g.Ports.Bar.Scale(leastSeal)
	if moved, text := central(g); text != "" && moved.seal(end).Cmp(least) >= 0 {
		return c.then(moved, text)
	}
	short := least.Sub(lesser(g.seal(HeadEnd), g.seal(CrankEnd)))
	travel, more := g.Travel.Sub(short.Scale(2)), short.Scale(2)
	less, longer := g.withTravel(rounded(travel, units.Down)), g
	longer.Valve.Length = g.Valve.Length.Add(rounded(more, units.Up))
	switch {
	case !c.serves(less):
		return c.then(longer, fmt.Sprintf("Make the valve %s longer, which leaves a quarter of the bar covered and adds to the lap.", size(more, units.Up))+c.advanceAnew(longer))
	case c.serves(longer):
		return fmt.Sprintf("Keep the travel to %s or make the valve %s longer; either leaves a quarter of the bar covered. Then set the advance anew.", size(travel, units.Down), size(more, units.Up))
	}
	return fmt.Sprintf("Keep the travel to %s, which leaves a quarter of the bar covered, and set the advance anew.", size(travel, units.Down))
}

// serves reports whether both ports of a changed gear still open to steam and to
// exhaust well enough, and nothing else goes wrong.
func (c *checker) serves(changed Gear) bool {
	e, err := changed.Events()
	least := enoughOf(changed.Ports.Steam)
	opens := func(e EndEvents) bool { return e.Opening.Cmp(least) >= 0 && e.ExhaustOpening.Cmp(least) >= 0 }
	return err == nil && opens(e.Head) && opens(e.Crank) && len(c.bringsOn(changed)) == 0
}

func (g Gear) withTravel(travel units.Length) Gear {
	g.Travel = travel
	return g
}

// withMiddle returns the gear with another width of the middle port, and a valve
// of the same laps.
func (g Gear) withMiddle(width units.Length) Gear {
	more := width.Sub(g.Ports.Exhaust)
	g.Ports.Exhaust = width
	g.Valve.Length, g.Valve.Cavity = g.Valve.Length.Add(more), g.Valve.Cavity.Add(more)
	return g
}

// withBars returns the gear with another width of the bars, and a valve of the
// same laps.
func (g Gear) withBars(width units.Length) Gear {
	more := width.Sub(g.Ports.Bar).Scale(2)
	g.Ports.Bar = width
	g.Valve.Length, g.Valve.Cavity = g.Valve.Length.Add(more), g.Valve.Cavity.Add(more)
	return g
}

func central(g Gear) (Gear, string) {
	offset := g.Valve.Offset
	if offset.IsZero() {
		return g, ""
	}
	g.Valve.Offset = units.Length{}
	return g, fmt.Sprintf("Move the valve %s the crank, to the centre.", towards(offset.Neg()))
}

func noSteamLap(g Gear) (Gear, string) {
	g, edge := steamEdge(g.withSteamLap(units.Length{}))
	return g, edge + ", for no steam lap, and set the advance anew."
}

// noExhaustLap takes the exhaust lap away, or as much of it as leaves lands as
// wide as the ports where the steam lap is negative.
func noExhaustLap(g Gear) (Gear, string) {
	laps := g.Laps()
	if least := laps.Steam.Neg(); least.Sign() > 0 && laps.Exhaust.Cmp(least) > 0 {
		g, edge := exhaustEdge(g.withExhaustLap(least))
		return g, edge + ", for lands just as wide as the ports."
	}
	g, edge := exhaustEdge(g.withExhaustLap(units.Length{}))
	return g, edge + ", for no exhaust lap."
}

// steamEdge says to which size the steam edges of the valve are made, and rounds
// them so that no lap gets shorter than asked for.
func steamEdge(g Gear) (Gear, string) {
	if g.InsideAdmission {
		return innerEdges(g, "the valve %s between its inner edges")
	}
	return outerEdges(g)
}

// exhaustEdge does the same for the exhaust edges.
func exhaustEdge(g Gear) (Gear, string) {
	if g.InsideAdmission {
		return outerEdges(g)
	}
	return innerEdges(g, "the cavity %s long")
}

func outerEdges(g Gear) (Gear, string) {
	text := fmt.Sprintf("Make the valve %s long over its outer edges", size(g.Valve.Length, units.Up))
	g.Valve.Length = rounded(g.Valve.Length, units.Up)
	return g, text
}

func innerEdges(g Gear, format string) (Gear, string) {
	text := fmt.Sprintf("Make "+format, size(g.Valve.Cavity, units.Down))
	g.Valve.Cavity = rounded(g.Valve.Cavity, units.Down)
	return g, text
}

// fullTravel gives the valve the travel that opens the ports fully to steam and
// to exhaust, and the middle port, the bars and the eccentric rod what this
// needs of them.
func fullTravel(g Gear) (Gear, string) {
	laps := g.Laps()
	lap := laps.Steam
	if laps.Exhaust.Cmp(lap) > 0 {
		lap = laps.Exhaust
	}
	g.Travel = lap.Add(g.Ports.Steam).Add(g.Valve.Offset.Abs()).Scale(2)
	text := fmt.Sprintf("Full opening needs a travel of %s, a sheave offset by %s", size(g.Travel, units.Up), size(g.EccentricOffset(), units.Up))
	g.Travel = rounded(g.Travel, units.Up)

	var more []string
	if short := g.Ports.Bar.Scale(leastSeal).Sub(lesser(g.seal(HeadEnd), g.seal(CrankEnd))); short.Sign() > 0 {
		bar := g.Ports.Bar.Add(short.Scale(1 / (1 - leastSeal)))
		more = append(more, "bars "+size(bar, units.Up)+" wide")
		g = g.withBars(rounded(bar, units.Up))
	}
	if short := g.Ports.Steam.Sub(lesser(g.passage(HeadEnd), g.passage(CrankEnd))); short.Sign() > 0 {
		middle := "an exhaust port "
		if g.InsideAdmission {
			middle = "a middle port "
		}
		width := g.Ports.Exhaust.Add(short)
		more = append(more, middle+size(width, units.Up)+" wide")
		g = g.withMiddle(rounded(width, units.Up))
	}
	if len(more) > 0 {
		text += ", " + strings.Join(more, ", ") + " and a valve to suit"
	}
	if offset := g.EccentricOffset(); !rodReaches(g.EccentricRod, g.Travel, g.LeverRatio) {
		text += fmt.Sprintf(", and an eccentric rod longer than %s, best several times as long", size(offset, units.Up))
		g.EccentricRod = offset.Scale(4)
	}
	return g, text + "; then set the advance anew."
}

// rounded returns what size prints for a length, in the unit in which it is
// further from it.
func rounded(l units.Length, mode units.RoundMode) units.Length {
	metric, errMM := l.Round(units.Micron(10), mode)
	inch, errInch := l.Round(units.Thou(1), mode)
	switch {
	case errMM != nil || errInch != nil:
		return l
	case metric.Sub(l).Abs().Cmp(inch.Sub(l).Abs()) > 0:
		return metric
	}
	return inch
}

func lesser(a, b units.Length) units.Length {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}
