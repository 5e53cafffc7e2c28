package thread

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// UnionFor returns the smallest size of the series that suits the nut of a union on a
// tube, whose collar must pass through the thread:
//
//	minor >= tube + 1.5 mm
//
//	minor  minor diameter of the thread, sharp corners and all
//	tube   outside diameter of the tube, 1 to 25 mm
//
// A collar 0.75 mm high all round is enough for a nut to hold and a cone to seat on.
// It is a rule of ours that comes to what is usual on model steam pipes: 7/32x40 ME on
// 1/8 in, 1/4x40 on 5/32 in. Fine threads are what unions have: ask [ME] or
// [MetricFine]. Of two sizes with one diameter the finer is taken. A series that has
// none so large is an error.
func (s Series) UnionFor(tube units.Length) (Thread, error) {
	if !seriesNames().Known(int(s)) || s == Special || s.Pipe() {
		return Thread{}, fail.Unknown("series for a union", s.String(), "a series of screw threads, such as ME or metric fine")
	}
	if err := fail.Above(fault.Named("outside of the tube", tube)); err != nil {
		return Thread{}, err
	}
	if tube.Cmp(units.MM(1)) < 0 || tube.Cmp(units.MM(25)) > 0 {
		return Thread{}, fail.OutOfRange("outside of the tube", tube, "1 to 25 mm")
	}
	collar := tube.Add(units.MM(1.5))
	best, found := Thread{}, false
	for t := range s.All() {
		if t.Minor().Cmp(collar) < 0 {
			continue
		}
		if by := t.Major().Cmp(best.Major()); !found || by < 0 || by == 0 && t.Pitch().Cmp(best.Pitch()) < 0 {
			best, found = t, true
		}
	}
	if !found {
		return Thread{}, fail.OutOfRange("outside of the tube", tube, fmt.Sprintf("a tube whose collar passes through a thread of the series %v", s))
	}
	return best, nil
}
