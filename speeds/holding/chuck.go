package holding

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Chuck is a chuck with its jaws as they are set.
type Chuck struct {
	Marked units.RotationalSpeed // the speed marked on it
	Grip   units.Force           // all jaws together, at rest
	Moment float64               // of the jaws, mass times radius of its centre, all together, kg m
}

// Validate returns an error for a chuck without a mark, a grip or jaws.
func (c Chuck) Validate() error {
	if err := fault.Positive(fail, "speed marked on the chuck", c.Marked); err != nil {
		return err
	}
	if err := fault.Positive(fail, "grip at rest", c.Grip); err != nil {
		return err
	}
	if !(c.Moment > 0 && c.Moment < 1000) {
		return fail.OutOfRange("moment of the jaws", fmt.Sprintf("%g kg m", c.Moment), "above zero, below 1000 kg m")
	}
	return nil
}

// Speed returns the highest speed at which jaws that grip from outside still hold
// with the needed force (from inside, their flying outwards grips harder, until
// thin work gives):
//
//	n = 30/pi * sqrt((F0 - S * Fz) / M)
//
//	F0  grip at rest, above S * Fz
//	Fz  grip that the cut needs
//	S   safety factor, 1.5 to 10
//	M   moment of the jaws
//
// Method of VDI 3106, as two chuck makers' manuals print it. The answer is never
// above the speed marked on the chuck. A lathe maker's manual adds that at the
// reference speed of DIN 6386 a third of the grip is left. See the Example.
func (c Chuck) Speed(needed units.Force, safety float64) (speeds.Limit, error) {
	if err := c.Validate(); err != nil {
		return speeds.Limit{}, err
	}
	if err := fault.Positive(fail, "grip needed", needed); err != nil {
		return speeds.Limit{}, err
	}
	if !(safety >= 1.5 && safety <= 10) {
		return speeds.Limit{}, fail.OutOfRange("safety factor", safety, "1.5 to 10")
	}
	left := float64(c.Grip) - safety*float64(needed)
	if left <= 0 {
		return speeds.Limit{}, fail.OutOfRange("grip at rest", c.Grip,
			fmt.Sprintf("more than %.0f N, what the cut needs with its safety factor", safety*float64(needed)))
	}
	n := units.RotationalSpeed(math.Sqrt(left / c.Moment)) // VDI 3106, in rad/s: w = sqrt((F0 - S Fz)/M)
	if n >= c.Marked {
		return MarkedChuck(c.Marked)
	}
	return speeds.Limit{Speed: n, Reason: "the jaws fly outwards and let go of the work", Ref: source.Ref{
		Kind: source.Published, Title: "Two chuck makers' operating manuals", Locator: "permitted speed section", Note: "method of VDI 3106",
	}}, nil
}

// MarkedChuck returns the limit of a chuck by the speed that is marked on it,
// which is never exceeded whatever a calculation allows. A speed above zero. See
// the Example of [Chuck.Speed].
func MarkedChuck(mark units.RotationalSpeed) (speeds.Limit, error) {
	if err := fault.Positive(fail, "speed marked on the chuck", mark); err != nil {
		return speeds.Limit{}, err
	}
	return speeds.Limit{Speed: mark, Reason: "the speed marked on the chuck", Ref: source.Ref{
		Kind: source.Published, Title: "Lathe manufacturer's manual, chuck section", Locator: "reference speed note",
	}}, nil
}

// UnmarkedChuck returns a cautious limit for an iron-bodied chuck or faceplate
// that has no speed marked on it, by its diameter: 15 m/s at the rim, about what
// such chucks are marked for, from memory, as the reason of the limit says.
//
//	n = v / (pi * d)
//
// Work that stands out of the jaws or is out of balance wants much less.
// Diameters from 40 mm to 1 m. See the Example.
func UnmarkedChuck(diameter units.Length) (speeds.Limit, error) {
	if diameter.Cmp(units.MM(40)) < 0 || diameter.Cmp(units.MM(1000)) > 0 {
		return speeds.Limit{}, fail.OutOfRange("chuck", diameter, "a diameter from 40 mm to 1 m")
	}
	n, err := speeds.SpindleSpeed(15*units.MetrePerSecond, diameter) // n = v/(pi d)
	return speeds.Limit{
		Speed: n, Reason: "an iron chuck with no speed marked on it is held to 15 m/s at the rim, a figure from memory",
		Ref: source.Ref{Kind: source.FromMemory, Title: "marks on iron-bodied chucks"},
	}, err
}
