package holding

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Wheel is a flywheel as far as it stores energy.
type Wheel struct {
	Mass     units.Mass
	Gyration units.Length // radius of gyration: nearly the mean radius of a rim, 0.71 of the radius of a disc
}

// Energy returns what the wheel holds at a speed:
//
//	E = m * k^2 * w^2 / 2
//
//	m  mass
//	k  radius of gyration
//	w  angular speed
//
// Mechanics. See the Example.
func (w Wheel) Energy(n units.RotationalSpeed) (units.Energy, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "speed", n); err != nil {
		return 0, err
	}
	return units.Energy(w.inertia() * float64(n) * float64(n) / 2), nil // E = m k^2 w^2/2
}

// SpeedSwing returns the difference between highest and lowest speed in a turn
// while an energy goes in and out:
//
//	w1 - w2 = dE / (m * k^2 * w)
//
// which is 900 dE / (pi^2 m k^2 N) in rev/min, for swings that are small beside
// the mean speed w: up to a third of it. Other symbols as for [Wheel.Energy].
// Mechanics. See the Example.
func (w Wheel) SpeedSwing(fluctuation units.Energy, n units.RotationalSpeed) (units.RotationalSpeed, error) {
	if err := w.Validate(); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "fluctuation of energy", fluctuation); err != nil {
		return 0, err
	}
	if err := fault.Positive(fail, "speed", n); err != nil {
		return 0, err
	}
	swing := units.RotationalSpeed(float64(fluctuation) / (w.inertia() * float64(n))) // dw = dE/(m k^2 w)
	if swing > n/3 {
		return 0, fail.OutOfRange("fluctuation of energy", fluctuation, "a swing up to a third of the mean speed: a heavier wheel")
	}
	return swing, nil
}

func (w Wheel) inertia() float64 {
	return float64(w.Mass) * w.Gyration.Metres() * w.Gyration.Metres()
}

// Validate returns an error for a wheel without a mass or a radius.
func (w Wheel) Validate() error {
	if err := fault.Positive(fail, "mass", w.Mass); err != nil {
		return err
	}
	if w.Gyration.Sign() <= 0 {
		return fail.OutOfRange("radius of gyration", w.Gyration, "above zero")
	}
	return nil
}
