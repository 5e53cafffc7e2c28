package eccentric

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// withExhaustLap returns the gear with a valve of the given exhaust lap, at the end
// that has less of it where they differ.
func (g Gear) withExhaustLap(lap units.Length) Gear {
	return g.withMoreExhaustLap(lap.Sub(g.leastLaps().Exhaust))
}

// withMoreExhaustLap returns the gear with a valve of so much more exhaust lap at
// each end.
func (g Gear) withMoreExhaustLap(more units.Length) Gear {
	more = more.Scale(2)
	if g.InsideAdmission {
		g.Valve.Length = g.Valve.Length.Add(more)
	} else {
		g.Valve.Cavity = g.Valve.Cavity.Sub(more)
	}
	return g
}

// withSteamLap returns the gear with a valve of the given steam lap, at the end that
// has less of it where they differ.
func (g Gear) withSteamLap(lap units.Length) Gear {
	return g.withMoreSteamLap(lap.Sub(g.leastLaps().Steam))
}

// leastLaps returns the laps that the valve has in mid-travel, of two that differ the
// lesser.
func (g Gear) leastLaps() Laps {
	k := g.Kernel()
	m := k.Motion()
	steam, exhaust := m.MidLaps(kernel.Head)
	crankSteam, crankExhaust := m.MidLaps(kernel.Crank)
	return Laps{Steam: length(min(steam, crankSteam)), Exhaust: length(min(exhaust, crankExhaust))}
}

// withMoreSteamLap returns the gear with a valve of so much more steam lap at each
// end.
func (g Gear) withMoreSteamLap(more units.Length) Gear {
	more = more.Scale(2)
	if g.InsideAdmission {
		g.Valve.Cavity = g.Valve.Cavity.Sub(more)
	} else {
		g.Valve.Length = g.Valve.Length.Add(more)
	}
	return g
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
func (g Gear) withBars(width units.Length) Gear { return g.withWiderBars(width.Sub(g.Ports.Bar)) }

// withWiderBars returns the gear with both bars so much wider, and a valve of the
// same laps.
func (g Gear) withWiderBars(more units.Length) Gear {
	g.Ports.Bar = g.Ports.Bar.Add(more)
	if !g.Ports.CrankBar.IsZero() {
		g.Ports.CrankBar = g.Ports.CrankBar.Add(more)
	}
	more = more.Scale(2)
	g.Valve.Length, g.Valve.Cavity = g.Valve.Length.Add(more), g.Valve.Cavity.Add(more)
	return g
}

// central returns the gear with its valve in the middle, or where the steam laps
// differ with it where they would be equal.
func (g Gear) central() Gear {
	g.Valve.Offset = g.LapsAt(HeadEnd).Steam.Sub(g.LapsAt(CrankEnd).Steam).Scale(0.5)
	return g
}

// placed moves the valve on its rod to where both ends have the same lead, or to
// the middle where that is as near as can be set; by nothing where it stands
// there as nearly. It is the one move of the valve that is ever named, by one
// figure.
func placed(g Gear) (Gear, string) {
	to, err := g.OffsetForEqualLead()
	if err != nil {
		return g, ""
	}
	why := ", for equal leads."
	if to.Abs().Cmp(leastMove) < 0 {
		to, why = units.Length{}, ", to the centre."
	}
	move := to.Sub(g.Valve.Offset)
	if move.Abs().Cmp(leastMove) < 0 {
		return g, ""
	}
	way := " towards the crank"
	if move.Sign() < 0 {
		way = " away from the crank"
	}
	text := "Move the valve " + toBeSet(move.Abs()) + way + why
	if set, err := move.Round(units.Micron(10), units.Nearest); err == nil { // as it is printed
		move = set
	}
	g.Valve.Offset = g.Valve.Offset.Add(move)
	return g, text
}

// takenUp takes up the lost motion.
func takenUp(g Gear) (Gear, string) {
	return tight(g), "Take up the play between sheave and valve: strap, pins of the rod, and the nut or the buckle that moves the" +
		" valve, which must be free to leave its face but not to move along it."
}

// middleCavity puts the cavity in the middle of the valve.
func middleCavity(g Gear) (Gear, string) {
	g.Valve.CavityOffset = units.Length{}
	return g, "Make a valve with its cavity in the middle."
}

// quarterLap gives the valve a steam lap of a quarter of the travel, which cuts
// off at about three quarters of the stroke.
func quarterLap(g Gear) (Gear, string) {
	g, edge := steamEdge(g.withSteamLap(g.Travel.Scale(0.25)))
	return g, edge + ", for a steam lap of a quarter of the travel, and set the advance anew."
}

func noSteamLap(g Gear) (Gear, string) {
	g, edge := steamEdge(g.withSteamLap(units.Length{}))
	return g, edge + ", for no steam lap, and set the advance anew."
}

// noExhaustLap takes the exhaust lap away, or as much of it as leaves lands as
// wide as the ports where the steam lap is negative.
func noExhaustLap(g Gear) (Gear, string) {
	laps := g.leastLaps()
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
	needs := func(end End) units.Length {
		laps := g.LapsAt(end)
		return greater(laps.Steam, laps.Exhaust).Add(g.port(end))
	}
	g.Travel = greater(needs(HeadEnd), needs(CrankEnd)).Add(g.Valve.Offset.Abs()).Scale(2).Add(g.Valve.LostMotion)
	text := fmt.Sprintf("Full opening needs a travel of %s, a sheave offset by %s",
		size(g.Travel, units.Up), size(g.EccentricOffset(), units.Up))
	g.Travel = rounded(g.Travel, units.Up)

	var more []string
	if short := greater(g.sealShort(HeadEnd), g.sealShort(CrankEnd)); short.Sign() > 0 {
		wider := short.Scale(1 / (1 - kernel.LeastSeal))
		bar := g.Ports.Bar.Add(wider)
		if g.alike() {
			more = append(more, "bars "+size(bar, units.Up)+" wide")
			g = g.withBars(rounded(bar, units.Up))
		} else {
			more = append(more, "bars wider by "+size(wider, units.Up))
			g = g.withWiderBars(rounded(wider, units.Up))
		}
	}
	if short := greater(g.passageShort(HeadEnd), g.passageShort(CrankEnd)); short.Sign() > 0 {
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
	if offset := g.EccentricOffset(); !kernel.RodReaches(g.EccentricRod.count(), count(g.Travel), g.LeverRatio) {
		text += fmt.Sprintf(", and an eccentric rod longer than %s, best several times as long", size(offset, units.Up))
		g.EccentricRod = RodOf(offset.Scale(4))
	}
	return g, text + "; then set the advance anew."
}

// sealShort returns by how much the valve's edge covers less of a bar than it should
// when it has gone furthest towards opening one end to steam.
func (g Gear) sealShort(end End) units.Length {
	k := g.Kernel()
	_, bar := g.Ports.At(End(k.Land(kernel.End(end))))
	return bar.Scale(kernel.LeastSeal).Sub(g.seal(end))
}

// passageShort returns by how much less is left open of the middle port then than
// the port to the cylinder that it serves is wide.
func (g Gear) passageShort(end End) units.Length {
	k := g.Kernel()
	return g.port(End(k.Fed(kernel.End(end)))).Sub(g.passage(end))
}

func greater(a, b units.Length) units.Length {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}

func lesser(a, b units.Length) units.Length {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}
