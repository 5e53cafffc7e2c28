package cutting

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"github.com/valvechest/valvechest/speeds/internal/arg"
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
//	t = passes (length + approach + overrun) / vf
//
// The way back is not in it. A length or a feed speed that is not above zero, a
// negative approach or overrun, more than 10,000 passes, or a time beyond a year
// is an [*units.ArgumentError].
func (p Path) Time(feed units.Speed) (time.Duration, error) {
	if err := above(arg.Named("length of cut", p.Length)); err != nil {
		return 0, err
	}
	if p.Approach.Sign() < 0 || p.Overrun.Sign() < 0 {
		return 0, bad("approach or overrun", fmt.Sprintf("%v, %v", p.Approach, p.Overrun), "", "zero or more", units.ErrOutOfRange)
	}
	if p.Passes < 0 || p.Passes > 10_000 {
		return 0, bad("passes", strconv.Itoa(p.Passes), "", "0 to 10,000", units.ErrOutOfRange)
	}
	if err := positive("feed speed", feed); err != nil {
		return 0, err
	}
	travel := p.Length.Metres() + p.Approach.Metres() + p.Overrun.Metres()
	seconds := float64(max(p.Passes, 1)) * travel / float64(feed)
	if seconds > 366*24*3600 {
		return 0, bad("feed speed", feed.String(), "the cut would take more than a year", "a faster feed", units.ErrOutOfRange)
	}
	return time.Duration(math.Round(seconds * float64(time.Second))), nil
}

// FeedSpeed returns the speed of the tool along the work at a feed per turn:
//
//	vf = f n
//
// f is the feed per turn, n the spindle speed. Arguments that are not above
// zero are an [*units.ArgumentError].
func FeedSpeed(n units.RotationalSpeed, feed units.Length) (units.Speed, error) {
	if err := positive("spindle speed", n); err != nil {
		return 0, err
	}
	if err := above(arg.Named("feed", feed)); err != nil {
		return 0, err
	}
	return units.Speed(feed.Metres() * float64(n/units.RevPerSecond)), nil
}

// TableFeed returns the speed of a milling table at a feed per tooth:
//
//	vf = fz z n
//
// with z teeth, 1 to 100. fz is the feed per tooth, n the spindle speed.
// Arguments outside that, or not above zero, are an [*units.ArgumentError].
func TableFeed(n units.RotationalSpeed, perTooth units.Length, teeth int) (units.Speed, error) {
	if teeth < 1 || teeth > 100 {
		return 0, bad("teeth", strconv.Itoa(teeth), "", "1 to 100", units.ErrOutOfRange)
	}
	vf, err := FeedSpeed(n, perTooth)
	return vf * units.Speed(teeth), err
}

// FeedPerTooth returns the feed per tooth that a table speed makes, the inverse
// of [TableFeed]. Limits as there.
func FeedPerTooth(vf units.Speed, n units.RotationalSpeed, teeth int) (units.Length, error) {
	if teeth < 1 || teeth > 100 {
		return units.Length{}, bad("teeth", strconv.Itoa(teeth), "", "1 to 100", units.ErrOutOfRange)
	}
	if err := positive("table feed", vf); err != nil {
		return units.Length{}, err
	}
	if err := positive("spindle speed", n); err != nil {
		return units.Length{}, err
	}
	return units.Millimetres.Of(1000 * float64(vf) / float64(n/units.RevPerSecond) / float64(teeth))
}

// Passes returns how many cuts of at most a given depth take off a total depth,
// and how deep each of them is when they are equal. Depths that are not above
// zero and more than 10,000 passes are an [*units.ArgumentError].
func Passes(depth, most units.Length) (passes int, each units.Length, err error) {
	if err := above(arg.Named("depth to take off", depth), arg.Named("greatest depth of cut", most)); err != nil {
		return 0, units.Length{}, err
	}
	exact := math.Ceil(depth.Ratio(most) - 1e-6) // a picometre of rounding is no cut
	if exact > 10_000 {
		return 0, units.Length{}, bad("greatest depth of cut", most.String(), fmt.Sprintf("%v would need more than 10,000 passes", depth), "a deeper cut", units.ErrOutOfRange)
	}
	passes = max(int(exact), 1)
	return passes, depth.Scale(1 / float64(passes)), nil
}

// PointLength returns how far the point of a drill stands before its full
// diameter:
//
//	L = d / (2 tan(a/2))    0.3004 d at 118 degrees, 0.2071 d at 135
//
// The point angle a is included, from 30 up to 180 degrees (flat). Geometry.
// Another angle, and a drill that is not above zero, are an
// [*units.ArgumentError].
func PointLength(diameter units.Length, point units.Angle) (units.Length, error) {
	if err := above(arg.Named("drill", diameter)); err != nil {
		return units.Length{}, err
	}
	if !(point >= 30*units.Degree && point <= 180*units.Degree) {
		return units.Length{}, bad("point angle", point.String(), "", "30 to 180 degrees, included", units.ErrOutOfRange)
	}
	return diameter.Scale(1 / (2 * math.Tan(point.Radians()/2))), nil
}

// SlabApproach returns how far a plain cutter of diameter d must travel before
// it cuts at the full depth a:
//
//	A = sqrt(a (d - a))
//
// A depth above half the diameter is an [*units.ArgumentError]: the arbor is in
// the way. Geometry.
func SlabApproach(diameter, depth units.Length) (units.Length, error) {
	if err := above(arg.Named("cutter", diameter), arg.Named("depth of cut", depth)); err != nil {
		return units.Length{}, err
	}
	if depth.Scale(2).Cmp(diameter) > 0 {
		return units.Length{}, bad("depth of cut", depth.String(), "more than half the cutter", "up to "+diameter.Scale(0.5).String(), units.ErrOutOfRange)
	}
	d, a := diameter.MM(), depth.MM()
	return units.Millimetres.Of(math.Sqrt(a * (d - a)))
}

// FaceApproach returns how far a face cutter or end mill of diameter d, on the
// middle line of the work, must travel before it cuts the full width w:
//
//	A = (d - sqrt(d^2 - w^2)) / 2
//
// which is the radius for a slot as wide as the cutter. Work wider than the
// cutter is an [*units.ArgumentError]. Geometry.
func FaceApproach(diameter, width units.Length) (units.Length, error) {
	if err := above(arg.Named("cutter", diameter), arg.Named("width of cut", width)); err != nil {
		return units.Length{}, err
	}
	if width.Cmp(diameter) > 0 {
		return units.Length{}, bad("width of cut", width.String(), "wider than the cutter", "up to "+diameter.String(), units.ErrOutOfRange)
	}
	d, w := diameter.MM(), width.MM()
	return units.Millimetres.Of((d - math.Sqrt(d*d-w*w)) / 2)
}
