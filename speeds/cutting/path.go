package cutting

import (
	"fmt"
	"math"
	"time"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Path is the way of a tool along its feed.
type Path struct {
	Length   units.Length // of the cut itself; half the diameter for a disc that is faced
	Approach units.Length // before it: [SlabApproach], [FaceApproach], [PointLength], or what the hand leaves
	Overrun  units.Length // after it: break-through, run-out
	Passes   int          // zero is one
}

// Time returns how long the tool is on the path at a feed speed:
//
//	t = passes * (length + approach + overrun) / vf
//
// The way back is not in it. Up to 10,000 passes and a year. See the Example.
func (p Path) Time(feed units.Speed) (time.Duration, error) {
	if err := p.Validate(); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "feed speed", feed); err != nil {
		return 0, err
	}
	travel := p.Length.Metres() + p.Approach.Metres() + p.Overrun.Metres()
	seconds := float64(max(p.Passes, 1)) * travel / float64(feed) // t = passes (l + approach + overrun) / vf
	if seconds > 366*24*3600 {
		return 0, fail.Wrong("feed speed", feed, "the cut would take more than a year", "a faster feed")
	}
	return time.Duration(math.Round(seconds * float64(time.Second))), nil
}

// Validate returns an error for a path without a length, or with a negative part.
func (p Path) Validate() error {
	if err := fail.Above(fault.Named("length of cut", p.Length)); err != nil {
		return err
	}
	if p.Approach.Sign() < 0 || p.Overrun.Sign() < 0 {
		return fail.OutOfRange("approach or overrun", fmt.Sprintf("%v, %v", p.Approach, p.Overrun), "zero or more")
	}
	if p.Passes < 0 || p.Passes > 10_000 {
		return fail.OutOfRange("passes", p.Passes, "0 to 10,000")
	}
	return nil
}

// Passes returns how many cuts of at most a given depth take off a total depth,
// and how deep each of them is when they are equal; up to 10,000. See the Example.
func Passes(depth, most units.Length) (passes int, each units.Length, err error) {
	if err := fail.Above(fault.Named("depth to take off", depth), fault.Named("greatest depth of cut", most)); err != nil {
		return 0, units.Length{}, err
	}
	exact := math.Ceil(depth.Ratio(most) - 1e-6) // a picometre of rounding is no cut
	if exact > 10_000 {
		return 0, units.Length{}, fail.Wrong("greatest depth of cut", most, fmt.Sprintf("%v would need more than 10,000 passes", depth), "a deeper cut")
	}
	passes = max(int(exact), 1)
	return passes, depth.Scale(1 / float64(passes)), nil
}
