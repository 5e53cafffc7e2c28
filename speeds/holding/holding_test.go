package holding_test

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

func TestRefuses(t *testing.T) {
	good := holding.Chuck{Marked: 200, Grip: 5000, Moment: 0.5}
	w := holding.Work{Mass: 1, Offset: units.MM(1)}
	wheel := holding.Wheel{Mass: 2, Gyration: units.MM(60)}
	nan := math.NaN()
	for name, call := range map[string]func() error{
		"no wheel":           func() error { _, err := holding.CheckRim(metal("cast iron"), units.MM(0), 1); return err },
		"wheel stands still": func() error { _, err := holding.CheckRim(metal("cast iron"), units.MM(10), 0); return err },
		"speed not a number": func() error {
			_, err := holding.CheckRim(metal("cast iron"), units.MM(10), units.RotationalSpeed(nan))
			return err
		},
		"unmarked chuck":      func() error { c := good; c.Marked = 0; _, err := c.Speed(100, 1.5); return err },
		"no grip":             func() error { c := good; c.Grip = 0; _, err := c.Speed(100, 1.5); return err },
		"no jaws":             func() error { c := good; c.Moment = 0; _, err := c.Speed(100, 1.5); return err },
		"jaws not a number":   func() error { c := good; c.Moment = nan; _, err := c.Speed(100, 1.5); return err },
		"no safety":           func() error { _, err := good.Speed(100, 1); return err },
		"nothing to hold":     func() error { _, err := good.Speed(0, 1.5); return err },
		"grip too small":      func() error { _, err := good.Speed(4000, 1.5); return err },
		"no mass":             func() error { _, err := holding.Work{Offset: units.MM(1)}.Force(1); return err },
		"no offset":           func() error { _, err := holding.Work{Mass: 1}.Force(1); return err },
		"work stands still":   func() error { _, err := w.Force(0); return err },
		"no force":            func() error { _, err := w.Speed(0); return err },
		"weight on the axis":  func() error { _, err := w.Counterweight(units.MM(0)); return err },
		"wheel without mass":  func() error { _, err := holding.Wheel{Gyration: units.MM(1)}.Energy(1); return err },
		"wheel without size":  func() error { _, err := holding.Wheel{Mass: 1}.Energy(1); return err },
		"energy at rest":      func() error { _, err := wheel.Energy(0); return err },
		"swing of no energy":  func() error { _, err := wheel.SpeedSwing(0, 10); return err },
		"swing at rest":       func() error { _, err := wheel.SpeedSwing(1, 0); return err },
		"ring of nothing":     func() error { _, err := holding.RingStress(0, 1); return err },
		"ring at rest":        func() error { _, err := holding.RingStress(7200, 0); return err },
		"disc at rest":        func() error { _, err := holding.DiscStress(7200, 0, 0.3); return err },
		"disc of no metal":    func() error { _, err := holding.DiscStress(7200, 1, 0.6); return err },
		"ratio not a number":  func() error { _, err := holding.DiscStress(7200, 1, nan); return err },
		"speed of no wheel":   func() error { _, err := holding.CheckRim(metal("cast iron"), units.MM(10), 1e308); return err },
		"swing of everything": func() error { _, err := wheel.SpeedSwing(100, 10); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
