package cutting

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// FeedSpeed returns the speed of the tool along the work at a feed per turn:
//
//	vf = f * n
//
//	f  feed per turn
//	n  spindle speed
//
// See the Example.
func FeedSpeed(n units.RotationalSpeed, feed units.Length) (units.Speed, error) {
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return 0, err
	}
	if err := fail.Above(fault.Named("feed", feed)); err != nil {
		return 0, err
	}
	return units.Speed(feed.Metres() * n.In(units.RevPerSecond)), nil // vf = f n
}

// TableFeed returns the speed of a milling table at a feed per tooth:
//
//	vf = fz * z * n
//
//	fz  feed per tooth
//	z   teeth, 1 to 100
//	n   spindle speed
//
// See the Example.
func TableFeed(n units.RotationalSpeed, perTooth units.Length, teeth int) (units.Speed, error) {
	if teeth < 1 || teeth > 100 {
		return 0, fail.OutOfRange("teeth", teeth, "1 to 100")
	}
	vf, err := FeedSpeed(n, perTooth)
	return vf * units.Speed(teeth), err // vf = fz z n
}

// FeedPerTooth returns the feed per tooth that a table speed makes, the inverse
// of [TableFeed]. Limits as there; see its Example.
func FeedPerTooth(vf units.Speed, n units.RotationalSpeed, teeth int) (units.Length, error) {
	if teeth < 1 || teeth > 100 {
		return units.Length{}, fail.OutOfRange("teeth", teeth, "1 to 100")
	}
	if err := fault.Positive(fail, "table feed", vf); err != nil {
		return units.Length{}, err
	}
	if err := fault.Positive(fail, "spindle speed", n); err != nil {
		return units.Length{}, err
	}
	return units.Millimetres.Of(1000 * float64(vf) / n.In(units.RevPerSecond) / float64(teeth)) // fz = vf/(n z)
}
