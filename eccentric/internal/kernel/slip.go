package kernel

import (
	"math"
	"math/bits"
)

// slips returns the codes of what a gear may have been stated as, in the order of
// the codes, those of its angle first.
func (g *Gear) slips() [4]Code {
	if g.Placed {
		return [...]Code{AdvanceForPlace, PlaceOfOtherSign, OffsetForTravel, TravelForOffset}
	}
	return [...]Code{AngleFromCrank, AdvanceOfOtherSign, OffsetForTravel, TravelForOffset}
}

// ofAngle and ofTravel are the troubles that an angle and a travel stated amiss
// bring on.
const (
	ofAngle  set = 1<<RunsBackwards | 1<<LittleWork | 1<<LateSteam | 1<<LargeLead
	ofLead   set = 1<<LateSteam | 1<<LargeLead
	ofTravel set = 1<<LittleWork | 1<<SteamNeverOpens | 1<<SteamNeverCloses | 1<<ExhaustNeverOpens |
		1<<ExhaustNeverCloses | 1<<SteamPastValve | 1<<FoulsChest | 1<<MiddleThrottled | 1<<ExhaustPartOpen |
		1<<SteamPartOpen | 1<<LateSteam | 1<<LargeLead
)

// judgeSlips suspects the way in which a gear in trouble was stated, where the
// same figure taken otherwise leaves nothing of the trouble. A slip is as grave
// as the trouble that it explains.
func (g *Gear) judgeSlips(v *Verdicts, stated *Events) {
	if v.worst(ofAngle|ofTravel) <= Worth {
		return
	}
	slips := g.slips()
	var meantBy [len(slips)]Verdicts
	for i, slip := range slips {
		meant, grade := g.suspect(slip, v, stated)
		meantBy[i] = meant.verdicts
		if grade == Absent {
			continue
		}
		if meant.suspected(ofTravels(slip)) {
			continue // what was meant is not right either, as its own figures say
		}
		v[slip][Both] = grade
	}
	if v[OffsetForTravel][Both]|v[TravelForOffset][Both] == Absent {
		return
	}
	for i, slip := range slips[:2] {
		if meantBy[i].worst(ofTravel) > Worth {
			v[slip][Both] = Absent // another travel leaves nothing, another angle does
		}
	}
}

// ofTravels reports whether a slip is of the travel and not of the angle.
func ofTravels(slip Code) bool { return slip == OffsetForTravel || slip == TravelForOffset }

// A reading is a gear as its figures may have been meant.
type reading struct {
	gear     Gear
	events   Events
	verdicts Verdicts
}

// suspected reports whether the travel, or the angle, of a gear as it was meant would
// be suspected in its turn.
func (r *reading) suspected(travel bool) bool {
	for _, slip := range r.gear.slips() {
		if ofTravels(slip) != travel {
			continue
		}
		if _, grade := r.gear.suspect(slip, &r.verdicts, &r.events); grade != Absent {
			return true
		}
	}
	return false
}

// suspect returns the gear that was meant if the statement of this one, which has
// these verdicts, is the given slip, and how grave that is; Absent where nothing
// points to it.
func (g *Gear) suspect(slip Code, v *Verdicts, stated *Events) (meant reading, grade Grade) {
	sound := g.LeadSound(stated.MeanLead())
	explains := ofAngle
	if ofTravels(slip) {
		explains = ofTravel
	}
	grade = v.worst(explains)
	if explains == ofAngle && v[RunsBackwards][Both]|v[LittleWork][Both] == Absent && sound {
		return meant, Absent // only the valve is off on its rod
	}
	if grade <= Worth {
		return meant, Absent
	}
	var ok bool
	if meant.gear, ok = g.Meant(slip); !ok || !meant.gear.Sound() {
		return meant, Absent
	}
	e := &meant.events
	m := meant.gear.Motion()
	if head, crank := m.leads(math.Sincos((math.Pi/2 + m.Advance) / 2)); !g.leadNear((head + crank) / 2) {
		return meant, Absent // sooner known than the rest
	}
	m.Events(e)
	meant.verdicts = meant.gear.judge(&m, e)
	judged := meant.verdicts
	// The lead of one end is the valve's place on its rod too; the mean of both is the eccentric's alone. Where the
	// stated one is far out, what was meant need not be quite right; of a travel only where the ports are in trouble
	// and then just open, and the lead is not out by a hair, which rounding a size mends.
	full := m.Steam[Both] + m.Port[Both]
	late, large := -Slightly*m.Port[Both], (LargestLead+Slightly)*m.Port[Both]
	fits := v.worst(ofTravel&^ofLead) > Worth && (stated.MeanLead() < late || stated.MeanLead() > large) &&
		math.Abs(m.Reach-m.Late-full) <= FullOpening*full
	if explains == ofAngle {
		fits = math.Abs(e.MeanLead()) <= math.Abs(stated.MeanLead())/2
	}
	far := !sound && fits
	near := g.LeadSound(e.MeanLead()) || far && g.leadNear(e.MeanLead())
	if explains == ofAngle || far {
		judged[LateSteam], judged[LargeLead] = [Ends]Grade{}, [Ends]Grade{}
	}
	if !near || judged.worst(explains|1<<RunsBackwards) > Worth || judged.worsen(v) {
		return meant, Absent
	}
	return meant, grade
}

// LeadSound reports whether a mean lead is neither late nor large.
func (g *Gear) LeadSound(mean float64) bool {
	port, _ := g.Port(Both)
	return mean > -hair && mean <= LargestLead*port
}

// leadNear reports whether a mean lead is such as builders come by, sound or not: to a
// quarter of the port late, to half of it large.
func (g *Gear) leadNear(mean float64) bool {
	port, _ := g.Port(Both)
	return mean >= -LargestLead*port && mean <= 2*LargestLead*port
}

// Meant returns the gear that was meant if its statement is the given slip; false
// where the statement is none such.
func (g *Gear) Meant(slip Code) (Gear, bool) {
	meant := *g
	switch slip {
	case AngleFromCrank:
		// What is ahead of the crank by 90 degrees and the advance, or behind it by 90 degrees less the advance;
		// who follows the rule for direct drive adds 90 degrees there too.
		meant.Advance = g.Advance - math.Pi/2
		if g.Follows() && g.Advance <= math.Pi/2 {
			meant.Advance = math.Pi/2 - math.Abs(g.Advance)
		}
		return meant, meant.Advance >= 0
	case AdvanceOfOtherSign:
		meant.Advance = -g.Advance
		return meant, g.Advance < 0
	case AdvanceForPlace:
		place := g.Place()
		meant.Advance = place
		switch {
		case g.Follows() && place > math.Pi/2: // ahead by 90 degrees and the advance, as in direct drive
			meant.Advance = place - math.Pi/2
		case g.Follows(): // behind by the advance, with its sign or without
			meant.Advance = math.Abs(place)
		}
		return meant, meant.Advance >= 0 && meant.Advance <= math.Pi/2
	case PlaceOfOtherSign:
		place := g.Place()
		meant.Advance = -place - math.Pi/2
		if g.Follows() {
			meant.Advance = math.Pi/2 - place
		}
		return meant, place != 0 && (place > 0) == g.Follows()
	case OffsetForTravel:
		meant.Travel = g.Travel * g.perOffset()
	case TravelForOffset:
		meant.Travel = g.Travel / g.perOffset()
	}
	return meant, meant.Travel != g.Travel
}

// Follows reports whether the eccentric follows the crank by 90 degrees less the
// advance, as it does behind a reversing lever or with inside admission.
func (g *Gear) Follows() bool { return (g.Lever < 0) != g.Inside }

// Place returns the angle by which the high point of the eccentric leads the crank
// in the direction of rotation, from -pi to pi.
func (g *Gear) Place() float64 {
	if g.Follows() {
		return math.Remainder(g.Advance-math.Pi/2, 2*math.Pi)
	}
	return math.Remainder(g.Advance+math.Pi/2, 2*math.Pi)
}

// perOffset returns the travel of the valve for one of the sheave's offset.
func (g *Gear) perOffset() float64 {
	if g.Lever == 0 {
		return 2
	}
	return 2 * math.Abs(g.Lever)
}

// worsen reports whether something is graver than worth knowing and than it was.
func (v *Verdicts) worsen(was *Verdicts) bool {
	for code, ends := range v {
		for end, grade := range ends {
			if grade > Worth && grade > was[code][end] {
				return true
			}
		}
	}
	return false
}

// Worst returns the gravest of the verdicts on some codes, at any end.
func (v *Verdicts) Worst(codes ...Code) (worst Grade) {
	for _, code := range codes {
		worst = max(worst, v.worst(1<<code))
	}
	return worst
}

// Troubles counts the verdicts graver than worth knowing, of all codes or of the
// given ones; a slip is none.
func (v *Verdicts) Troubles(codes ...Code) (n int) {
	of := ^set(1<<Faults - 1)
	if len(codes) > 0 {
		of = 0
		for _, code := range codes {
			of |= 1 << code
		}
	}
	for code, ends := range v {
		for _, grade := range ends {
			if of>>code&1 != 0 && grade > Worth {
				n++
			}
		}
	}
	return n
}

// A set of codes, a bit for each.
type set uint64

// worst returns the gravest of the verdicts on a set of codes.
func (v *Verdicts) worst(of set) (worst Grade) {
	for of &= 1<<Codes - 1; of != 0; of &= of - 1 {
		ends := &v[bits.TrailingZeros64(uint64(of))]
		worst = max(worst, ends[Both], ends[Head], ends[Crank])
	}
	return worst
}
