package holding

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Work is work set over on a faceplate or in a chuck.
type Work struct {
	Mass   units.Mass
	Offset units.Length // of its centre of mass from the axis
}

// Force returns the force that goes round with the work:
//
//	F = m * e * w^2
//
//	m  mass
//	e  offset
//	w  angular speed
//
// It shakes the lathe once a turn; what a lathe stands, nobody prints:
// [Work.Precautions] has what is common practice. Mechanics. See the Example.
func (w Work) Force(n units.RotationalSpeed) (units.Force, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "speed", n); err != nil {
		return 0, err
	}
	return units.Force(float64(w.Mass) * w.Offset.Metres() * float64(n) * float64(n)), nil // F = m e w^2
}

// Speed returns the speed at which the force that goes round reaches the given
// one:
//
//	w = sqrt(F / (m * e))
//
// Symbols as for [Work.Force]. Mechanics. See the Example.
func (w Work) Speed(most units.Force) (units.RotationalSpeed, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "force", most); err != nil {
		return 0, err
	}
	moment := float64(w.Mass) * w.Offset.Metres()
	return units.RotationalSpeed(math.Sqrt(float64(most) / moment)), nil // w = sqrt(F/(m e))
}

// Counterweight returns the mass that balances the work at a radius on the
// other side: mass times offset over radius. See the Example of [Work].
func (w Work) Counterweight(radius units.Length) (units.Mass, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if radius.Sign() <= 0 {
		return 0, fail.OutOfRange("radius of the counterweight", radius, "above zero")
	}
	return w.Mass * units.Mass(w.Offset.Ratio(radius)), nil
}

// Validate returns an error for work without a mass or an offset.
func (w Work) Validate() error {
	if err := fault.Positive(fail, "mass", w.Mass); err != nil {
		return err
	}
	if w.Offset.Sign() <= 0 {
		return fail.OutOfRange("offset", w.Offset, "above zero")
	}
	return nil
}

// Precautions returns what keeps work that is set over on the faceplate.
func (w Work) Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: "balance-by-hand",
		Text: "What a lathe stands nobody prints: balance by hand with the belt off, start at the lowest speed, stop at the first tremble.",
		Ref:  source.Practice(),
	}, {
		Code: "bolted-and-driven",
		Text: "Bolt the casting down in three places and drive it by a pin, a guard round it; turn it round once by hand with the" +
			" motor isolated, and stand out of its plane when it starts: a casting off its faceplate is what flies.",
		Ref: source.Practice(),
	}}
}
