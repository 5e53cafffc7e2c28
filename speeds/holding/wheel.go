package holding

import (
	"github.com/valvechest/valvechest/units"
)

// A Wheel is a flywheel as far as it stores energy.
type Wheel struct {
	Mass     units.Mass
	Gyration units.Length // radius of gyration: nearly the mean radius of a rim, 0.71 of the radius of a disc
}

// Energy returns what the wheel holds at a speed:
//
//	E = m k^2 w^2 / 2
//
// m is the mass, k the radius of gyration, w the angular speed. Mechanics. What
// is not above zero is an [*units.ArgumentError].
func (w Wheel) Energy(n units.RotationalSpeed) (units.Energy, error) {
	if err := w.check(); err != nil {
		return 0, err
	}
	if err := positive("speed", n); err != nil {
		return 0, err
	}
	return units.Energy(w.inertia() * float64(n) * float64(n) / 2), nil
}

// SpeedSwing returns the difference between highest and lowest speed in a turn
// while an energy goes in and out:
//
//	n1 - n2 = dE / (m k^2 n)      in rad/s; 900 dE / (pi^2 m k^2 N) in rev/min
//
// for swings that are small beside the mean speed n. A swing of more than a
// third of it is an [*units.ArgumentError].
func (w Wheel) SpeedSwing(fluctuation units.Energy, n units.RotationalSpeed) (units.RotationalSpeed, error) {
	if err := w.check(); err != nil {
		return 0, err
	}
	if err := positive("fluctuation of energy", fluctuation); err != nil {
		return 0, err
	}
	if err := positive("speed", n); err != nil {
		return 0, err
	}
	swing := units.RotationalSpeed(float64(fluctuation) / (w.inertia() * float64(n)))
	if swing > n/3 {
		return 0, bad("fluctuation of energy", fluctuation.String(), "a swing up to a third of the mean speed: a heavier wheel", units.ErrOutOfRange)
	}
	return swing, nil
}

func (w Wheel) inertia() float64 {
	return float64(w.Mass) * w.Gyration.Metres() * w.Gyration.Metres()
}

func (w Wheel) check() error {
	if err := positive("mass", w.Mass); err != nil {
		return err
	}
	if w.Gyration.Sign() <= 0 {
		return bad("radius of gyration", w.Gyration.String(), "above zero", units.ErrOutOfRange)
	}
	return nil
}
