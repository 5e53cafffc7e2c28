package eccentric

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A remedy returns the gear changed in one way, and says how.
type remedy func(Gear) (Gear, string)

// remedy says what opens and shuts the port of one end as it should: the first
// of the given remedies that does so alone, or after the valve is set central,
// and otherwise all of them. Each is tried on the gear before it is named.
func (c *checker) remedy(end End, good func(*EndEvents) bool, remedies ...remedy) string {
	var ways [][]remedy
	if !c.gear.Valve.Offset.IsZero() {
		ways = append(ways, []remedy{central})
	}
	for _, r := range remedies {
		ways = append(ways, []remedy{r}, []remedy{central, r})
	}
	ways = append(ways, append([]remedy{central}, remedies...))
	var all string
	for _, way := range ways {
		g := c.gear
		var texts []string
		for _, change := range way {
			var text string
			if g, text = change(g); text != "" {
				texts = append(texts, text)
			}
		}
		all = strings.Join(texts, " ")
		if events, err := g.Events(); err == nil && good(events.at(end)) {
			break
		}
	}
	return all
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
	g = g.withSteamLap(units.Length{})
	return g, steamEdge(g) + ", for no steam lap, and set the advance anew."
}

func noExhaustLap(g Gear) (Gear, string) {
	g = g.withoutExhaustLap()
	return g, exhaustEdge(g, units.Nearest, units.Nearest) + ", for no exhaust lap."
}

// steamEdge says to which size the steam edges of the valve are made.
func steamEdge(g Gear) string {
	if g.InsideAdmission {
		return fmt.Sprintf("Make the valve %s between its inner edges", size(g.Valve.Cavity, units.Down))
	}
	return fmt.Sprintf("Make the valve %s long over its outer edges", size(g.Valve.Length, units.Up))
}

// exhaustEdge says to which size the exhaust edges of the valve are made, for
// inner and for outer edges rounded in the given way.
func exhaustEdge(g Gear, inner, outer units.RoundMode) string {
	if g.InsideAdmission {
		return fmt.Sprintf("Make the valve %s long over its outer edges", size(g.Valve.Length, outer))
	}
	return fmt.Sprintf("Make the cavity %s long", size(g.Valve.Cavity, inner))
}

// fullTravel gives the valve the travel that opens the ports fully to steam and
// to exhaust, and the middle port the width that this needs.
func fullTravel(g Gear) (Gear, string) {
	laps := g.Laps()
	lap := laps.Steam
	if laps.Exhaust.Cmp(lap) > 0 {
		lap = laps.Exhaust
	}
	g.Travel = lap.Add(g.Ports.Steam).Add(g.Valve.Offset.Abs()).Scale(2)
	text := fmt.Sprintf("Full opening needs a travel of %s, a sheave offset by %s", size(g.Travel, units.Up), size(g.EccentricOffset(), units.Up))
	least := g.passage(HeadEnd)
	if other := g.passage(CrankEnd); other.Cmp(least) < 0 {
		least = other
	}
	if short := g.Ports.Steam.Sub(least); short.Sign() > 0 {
		middle := "an exhaust port"
		if g.InsideAdmission {
			middle = "a middle port"
		}
		text += fmt.Sprintf(", and %s %s wide with a valve to suit", middle, size(g.Ports.Exhaust.Add(short), units.Up))
	}
	return g, text + "; then set the advance anew."
}
