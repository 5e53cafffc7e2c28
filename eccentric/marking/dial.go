package marking

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Dial is a dial indicator on round work that turns off centre.
type Dial struct {
	Range    units.Length // that its plunger has
	Offset   units.Length // of the work
	Diameter units.Length // of the work
}

// A Sweep is what a dial goes over.
type Sweep struct {
	Reading  units.Length // over a turn: twice the offset
	Short    bool         // more than its range
	Min, Max units.Length // of a block under the plunger on the low side that brings it back; zero unless it is short
	Turn     units.Angle  // either way from the high side, over which it follows; 180 degrees unless it is short
}

// Sweep returns what the dial goes over in a turn, and what helps where its range is
// shorter: a block of known size b, a slip gauge or a drill shank, goes under the plunger
// on the low side, and the offset is half of b and of what the dial then still went down,
// or the slide that carries the dial is wound in by 2*e, where it must read as before.
//
//	2*e - range <= b <= 2*e
//	cos(t) = (p^2 + e^2 - R^2) / (2*p*e)
//
//	p   R + e - range
//	t   turn from the high side until the range is used up
//	R   half the diameter, more than e
//
// Geometry. See the Example.
func (d Dial) Sweep() (Sweep, error) {
	if err := fail.Above(fault.Named("range of the dial", d.Range), fault.Named("offset", d.Offset),
		fault.Named("diameter of the work", d.Diameter)); err != nil {
		return Sweep{}, err
	}
	if half := d.Diameter.Scale(0.5); d.Offset.Cmp(half) >= 0 {
		return Sweep{}, fail.OutOfRange("offset", d.Offset, "below half of the diameter, "+half.String())
	}
	s := Sweep{Reading: d.Offset.Scale(2), Turn: 180 * units.Degree}
	if d.Range.Cmp(s.Reading) >= 0 {
		return s, nil
	}
	s.Short, s.Min, s.Max = true, s.Reading.Sub(d.Range), s.Reading
	radius, e := count(d.Diameter)/2, count(d.Offset)
	p := radius + e - count(d.Range)
	s.Turn = units.Angle(math.Acos(max(-1, min(1, (p*p+e*e-radius*radius)/(2*p*e))))) // cos t = (p^2 + e^2 - R^2)/(2 p e)
	return s, nil
}
