package holding

import (
	"fmt"
	"math"

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

// Speed returns the highest speed at which jaws that grip from outside still hold
// with the needed force (from inside, their flying outwards grips harder, until
// thin work gives):
//
//	n = 30/pi sqrt((F0 - S Fz) / M)
//
// F0 is the grip at rest, Fz the grip that the cut needs, S a safety factor of
// 1.5 or more, M the moment of the jaws. Method of VDI 3106, as two chuck
// makers' manuals print it. The answer is never above the speed marked on the
// chuck, which must be given. A lathe maker's manual adds that at the reference
// speed of DIN 6386 a third of the grip is left. A force or a moment that is
// not above zero, another safety factor, no marked speed, and a grip that the
// cut needs already at rest are an [*units.ArgumentError].
func (c Chuck) Speed(needed units.Force, safety float64) (speeds.Limit, error) {
	if err := positive("speed marked on the chuck", c.Marked); err != nil {
		return speeds.Limit{}, err
	}
	if err := positive("grip at rest", c.Grip); err != nil {
		return speeds.Limit{}, err
	}
	if err := positive("grip needed", needed); err != nil {
		return speeds.Limit{}, err
	}
	if !(safety >= 1.5 && safety <= 10) {
		return speeds.Limit{}, bad("safety factor", fmt.Sprint(safety), "1.5 to 10", units.ErrOutOfRange)
	}
	if !(c.Moment > 0 && c.Moment < 1000) {
		return speeds.Limit{}, bad("moment of the jaws", fmt.Sprintf("%g kg m", c.Moment), "above zero, below 1000 kg m", units.ErrOutOfRange)
	}
	left := float64(c.Grip) - safety*float64(needed)
	if left <= 0 {
		return speeds.Limit{}, bad("grip at rest", c.Grip.String(), fmt.Sprintf("more than %.4g N, what the cut needs with its safety factor", safety*float64(needed)), units.ErrOutOfRange)
	}
	n := units.RotationalSpeed(math.Sqrt(left / c.Moment)) // rad/s
	ref := source.Ref{Kind: source.Published, Title: "Two chuck makers' operating manuals", Locator: "permitted speed section", Note: "method of VDI 3106"}
	if n >= c.Marked {
		return c.marked(), nil
	}
	return speeds.Limit{Speed: n, Reason: "the jaws fly outwards and let go of the work", Ref: ref}, nil
}

func (c Chuck) marked() speeds.Limit {
	return speeds.Limit{Speed: c.Marked, Reason: "the speed marked on the chuck", Ref: source.Ref{Kind: source.Published, Title: "Lathe manufacturer's manual, chuck section", Locator: "reference speed note"}}
}

// UnmarkedChuck returns a cautious limit for an iron-bodied chuck or faceplate
// that has no speed marked on it, by its diameter: 15 m/s at the rim, about what
// such chucks are marked for, from memory.
//
//	n = v / (pi d)
//
// Work that stands out of the jaws or is out of balance wants much less.
// Diameters from 40 mm to 1 m; others are an [*units.ArgumentError].
func UnmarkedChuck(diameter units.Length) (speeds.Limit, error) {
	if diameter.Cmp(units.MM(40)) < 0 || diameter.Cmp(units.MM(1000)) > 0 {
		return speeds.Limit{}, bad("chuck", diameter.String(), "a diameter from 40 mm to 1 m", units.ErrOutOfRange)
	}
	n, err := speeds.SpindleSpeed(15*units.MetrePerSecond, diameter)
	return speeds.Limit{
		Speed: n, Reason: "an iron chuck with no speed marked on it is held to 15 m/s at the rim",
		Ref: source.Ref{Kind: source.FromMemory, Title: "marks on iron-bodied chucks"},
	}, err
}

// Work is work set over on a faceplate or in a chuck.
type Work struct {
	Mass   units.Mass
	Offset units.Length // of its centre of mass from the axis
}

// Force returns the force that goes round with the work:
//
//	F = m e w^2
//
// m is the mass, e the offset, w the angular speed. It shakes the lathe once a
// turn; what a lathe stands, nobody prints. Common practice: balance the
// faceplate by hand with the belt off, start at the lowest speed, and stop at
// the first tremble. Mechanics. A mass, offset or speed that is not above zero
// is an [*units.ArgumentError].
func (w Work) Force(n units.RotationalSpeed) (units.Force, error) {
	if err := w.check(); err != nil {
		return 0, err
	}
	if err := positive("speed", n); err != nil {
		return 0, err
	}
	return units.Force(float64(w.Mass) * w.Offset.Metres() * float64(n) * float64(n)), nil
}

// Speed returns the speed at which the force that goes round reaches the given
// one:
//
//	n = sqrt(F / (m e))
//
// Mechanics. A mass, offset or force that is not above zero is an
// [*units.ArgumentError].
func (w Work) Speed(most units.Force) (units.RotationalSpeed, error) {
	if err := w.check(); err != nil {
		return 0, err
	}
	if err := positive("force", most); err != nil {
		return 0, err
	}
	return units.RotationalSpeed(math.Sqrt(float64(most) / (float64(w.Mass) * w.Offset.Metres()))), nil
}

// Counterweight returns the mass that balances the work at a radius on the
// other side. It is mass times offset over radius. A mass, offset or radius
// that is not above zero is an [*units.ArgumentError].
func (w Work) Counterweight(radius units.Length) (units.Mass, error) {
	if err := w.check(); err != nil {
		return 0, err
	}
	if radius.Sign() <= 0 {
		return 0, bad("radius of the counterweight", radius.String(), "above zero", units.ErrOutOfRange)
	}
	return w.Mass * units.Mass(w.Offset.Ratio(radius)), nil
}

func (w Work) check() error {
	if err := positive("mass", w.Mass); err != nil {
		return err
	}
	if w.Offset.Sign() <= 0 {
		return bad("offset", w.Offset.String(), "above zero", units.ErrOutOfRange)
	}
	return nil
}
