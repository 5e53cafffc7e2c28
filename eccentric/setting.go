package eccentric

import (
	"math"
	"strconv"

	"github.com/valvechest/valvechest/units"
)

// WithLead returns the gear with the angle of advance that gives the wanted
// lead, positive or negative, at one end, or, for [BothEnds], as the mean of
// the two ends:
//
//	sin d = (S + lead) / r
//
// which both ends have once the valve is set by [Gear.OffsetForEqualLead]. Of
// the two angles that give a lead it takes the one from -90 to 90 degrees. A
// lead that the travel does not reach, and an end that there is not, are a
// [*units.ArgumentError].
func (g Gear) WithLead(lead units.Length, end End) (Gear, error) {
	if err := g.Validate(); err != nil {
		return Gear{}, err
	}
	if !endNames.Known(int(end)) {
		return Gear{}, endNames.Unknown(int(end))
	}
	m := g.motion()
	wanted := m.steam + count(lead)
	switch end {
	case BothEnds:
		m.l, m.offset = math.Inf(1), 0
	case CrankEnd:
		m.oblique, m.offset = -m.oblique, -m.offset
	}
	at, ok := m.crossing(wanted - m.offset)
	if !ok {
		least, most := length(m.offset-m.r-m.steam), length(m.offset+m.r-m.steam)
		return Gear{}, &units.ArgumentError{Package: "eccentric", Field: "lead", Value: lead.String(), Problem: "the travel does not reach it", Accepted: "between " + least.String() + " and " + most.String(), Err: units.ErrOutOfRange}
	}
	g.Advance = units.Angle(at.p - math.Pi/2)
	return g, nil
}

// OffsetForEqualLead returns the offset of the valve, towards the crank, that
// makes the leads of both ends equal at the gear's angle of advance d. The
// eccentric rod's slant is what they differ by:
//
//	Offset = -(l - sqrt(l^2 - r^2 cos^2 d))
//
// for direct drive and outside admission, or for a reversing lever and inside
// admission; with the other sign if only one of the two is there. It is nothing
// for an infinitely long rod. It fails only where [Gear.Validate] does.
func (g Gear) OffsetForEqualLead() (units.Length, error) {
	if err := g.Validate(); err != nil {
		return units.Length{}, err
	}
	m := g.motion()
	slant := m.oblique * rise(m.r*math.Cos(m.advance), m.l)
	return length(-m.toCrank * slant), nil
}

func formatShare(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
