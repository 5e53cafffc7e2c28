package eccentric

import (
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// WithLead returns the gear with the angle of advance that gives the wanted
// lead, positive or negative, at one end, or, for [BothEnds], as the mean of
// the two ends:
//
//	sin(d) = (S + lead + b/2) / r
//
//	d   angle of advance
//	S   steam lap, the mean of both ends
//	r   half the travel
//	b   LostMotion
//
// which both ends have once the valve is set by [Gear.OffsetForEqualLead]. Of
// the two angles that give a lead it takes the one from -90 to 90 degrees. A
// lead that the travel does not reach is an error. It is geometry. See the
// Example.
func (g Gear) WithLead(lead units.Length, end End) (Gear, error) {
	m, err := g.motion()
	if err != nil {
		return Gear{}, err
	}
	if !endNames.Known(int(end)) {
		return Gear{}, endNames.Unknown(int(end))
	}
	at, ok := m.AdvanceFor(count(lead), kernel.End(end))
	if !ok {
		shift := map[End]float64{HeadEnd: m.Shift, CrankEnd: -m.Shift}[end]
		reach, lap := m.Reach-m.Late, m.Steam[end]
		least, most := length(shift-reach-lap), length(shift+reach-lap)
		return Gear{}, fail.Wrong("lead", lead, "the travel does not reach it",
			"between "+least.String()+" and "+most.String())
	}
	g.Advance = units.Angle(at)
	return g, nil
}

// OffsetForEqualLead returns the offset of the valve, towards the crank, that
// makes the leads of both ends equal at the gear's angle of advance d. The
// eccentric rod's slant is what they differ by, and half the steam laps:
//
//	Offset = (S1 - S2)/2 - (l - sqrt(l^2 - (r*cos(d))^2))
//
//	S1, S2   steam lap of the head end and of the crank end
//	r, l     half the travel and eccentric rod
//
// for direct drive and outside admission, or for a reversing lever and inside
// admission; with the other sign if only one of the two is there. It is nothing
// for an infinitely long rod. It fails only where [Gear.Validate] does. It is
// geometry. See the Example.
func (g Gear) OffsetForEqualLead() (units.Length, error) {
	m, err := g.motion()
	if err != nil {
		return units.Length{}, err
	}
	return length(m.TowardsCrank(m.EqualLeadShift())), nil
}

// leastMove and leastTurn are the least by which a valve and a sheave are worth moving.
var leastMove = length(kernel.LeastMove)

const leastTurn = units.Angle(kernel.LeastTurn)

// MoveForEqualLead returns how far to move the valve on its rod, towards the
// crank, for equal leads at both ends:
//
//	move = OffsetForEqualLead - Offset
//
// It is nothing where that is less than 0.05 mm, the thinnest leaf of most feeler
// gauges, which nobody can set; common practice. It fails only where
// [Gear.Validate] does. See the Example.
func (g Gear) MoveForEqualLead() (units.Length, error) {
	offset, err := g.OffsetForEqualLead()
	if err != nil {
		return units.Length{}, err
	}
	move := offset.Sub(g.Valve.Offset)
	if move.Abs().Cmp(leastMove) < 0 {
		return units.Length{}, nil
	}
	return move, nil
}
