package eccentric

import (
	"math"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// These are the changes, beside those of change.go, that [Gear.Check] names as a
// remedy where one answers a finding, and that [Salvage] tries for the whole gear:
// each returns the gear with the sizes that Check prints.

// mirrored turns the eccentric to the mirror image of its place about the crank,
// and opposite half round.
func mirrored(g Gear) Gear {
	g.Advance = inTurn(halfTurn - g.Advance)
	return g
}

func opposite(g Gear) Gear {
	g.Advance = inTurn(g.Advance + halfTurn)
	return g
}

// noMeanLead turns it to a mean lead of nothing; false where the travel does not
// reach the lap.
func noMeanLead(g Gear) (Gear, bool) {
	set, err := g.WithLead(units.Length{}, BothEnds)
	if err != nil {
		return g, false
	}
	set.Advance = toTenths(set.Advance)
	return set, true
}

// toTenths rounds an angle as it is printed.
func toTenths(a units.Angle) units.Angle {
	return units.Angle(math.Round(10*a.Degrees())) / 10 * units.Degree
}

// lapForLead is the steam lap, the mean of both ends, that gives a mean lead with the
// eccentric where it is: sin(d) = (S + lead + b/2) / r.
func lapForLead(g Gear, lead units.Length) units.Length {
	k := g.Kernel()
	m := k.Motion()
	return length(m.Reach*math.Sin(m.Advance) - m.Late).Sub(lead)
}

// lappedForNoLead gives the valve the lap for a mean lead of nothing with the
// eccentric where it is; false where that is no lap, or too little to alter.
func lappedForNoLead(g Gear) (set Gear, change units.Length, ok bool) {
	lap := lapForLead(g, units.Length{})
	change = lap.Sub(g.Laps().Steam)
	if lap.Sign() <= 0 || change.Abs().Cmp(leastMove) < 0 {
		return g, change, false
	}
	set = g.withMoreSteamLap(change)
	if g.InsideAdmission {
		set.Valve.Cavity = rounded(set.Valve.Cavity, units.Up)
	} else {
		set.Valve.Length = rounded(set.Valve.Length, units.Down)
	}
	return set, change, true
}

// landed gives a valve whose lands are narrower than the ports the laps that it
// lacks, by the least change.
func landed(g Gear) Gear {
	outer, inner := g.edgeLaps(BothEnds)
	if outer.Sign() < 0 {
		g.Valve.Length = rounded(g.Valve.Length.Sub(outer.Scale(2)), units.Up)
	}
	if inner.Sign() < 0 {
		g.Valve.Cavity = rounded(g.Valve.Cavity.Add(inner.Scale(2)), units.Down)
	}
	return g
}

// sealShort is how much more of the bars is to be covered at full travel, and
// middleShort how much more of the middle port is to be open; not above zero where
// it is enough.
func sealShort(g Gear) units.Length { return greater(g.sealShort(HeadEnd), g.sealShort(CrankEnd)) }

func middleShort(g Gear) units.Length {
	return greater(g.passageShort(HeadEnd), g.passageShort(CrankEnd))
}

// widerMiddle makes the middle port wide enough, with a valve to suit, and
// lessForMiddle the travel short enough for it.
func widerMiddle(g Gear) Gear {
	return g.withMiddle(rounded(g.Ports.Exhaust.Add(middleShort(g)), units.Up))
}

func lessForMiddle(g Gear) Gear {
	return g.withTravel(g.Travel.Sub(rounded(middleShort(g).Scale(2), units.Up)))
}

// lessForBars makes the travel short enough to leave enough of the bars covered, and
// longerForBars the valve long enough.
func lessForBars(g Gear) Gear {
	return g.withTravel(rounded(g.Travel.Sub(sealShort(g).Scale(2)), units.Down))
}

func longerForBars(g Gear) Gear {
	g.Valve.Length = g.Valve.Length.Add(rounded(sealShort(g).Scale(2), units.Up))
	return g
}

// longerChest leaves half a millimetre at each end of the chest.
func longerChest(g Gear) Gear {
	g.Chest = rounded(g.Sweep().Chest.Add(length(2*kernel.ChestMargin)), units.Up)
	return g
}

// tight takes the lost motion up.
func tight(g Gear) Gear {
	g.Valve.LostMotion = units.Length{}
	return g
}
