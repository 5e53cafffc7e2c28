package holding_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// A 150 mm flywheel of a model is far from its limit at 1000 rev/min; a 27 in one
// of a stationary engine at the same speed is 41 % above it.
func ExampleCheckRim() {
	for _, d := range []units.Length{units.MM(150), units.Inch(27)} {
		c, err := holding.CheckRim(d, 1000*units.RevPerMinute)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(c.Safe, c.Text)
	}
	// Output:
	// true rim at 7.9 m/s (1546 ft/min), within the lowest published limit of 5000 ft/min (engine owners); hoop stress 0.44 MPa
	// false rim at 35.9 m/s (7069 ft/min), above the lowest published limit of 5000 ft/min (engine owners), not over 707 rev/min with this wheel; hoop stress 9.28 MPa
}

// A 2 kg casting whose weight sits 20 mm off the axis.
func ExampleWork() {
	w := holding.Work{Mass: 2, Offset: units.MM(20)}
	for _, n := range []units.RotationalSpeed{60, 200, 600} {
		f, _ := w.Force(n * units.RevPerMinute)
		fmt.Printf("%.0f rev/min: %.0f N\n", float64(n), float64(f))
	}
	m, _ := w.Counterweight(units.MM(80))
	fmt.Printf("balanced by %.2f kg at 80 mm\n", float64(m))
	// Output:
	// 60 rev/min: 2 N
	// 200 rev/min: 18 N
	// 600 rev/min: 158 N
	// balanced by 0.50 kg at 80 mm
}

func TestTables(t *testing.T) {
	check.Tables(t, holding.Tables, "tables/*.csv")
	limits := holding.RimLimits()
	if len(limits) != 4 || math.Abs(float64(limits[0].Speed/units.FootPerMinute)-5000) > 1e-9 || math.Abs(float64(limits[3].Speed/units.FootPerMinute)-6000) > 1e-9 {
		t.Errorf("%+v", limits)
	}
	c, err := holding.CheckRim(units.MM(100), 100*units.RevPerMinute)
	if err != nil || c.Limit != limits[0] {
		t.Errorf("CheckRim goes by %+v, the lowest is %+v; %v", c.Limit, limits[0], err)
	}
}

func stress(t *testing.T) func(units.Pressure, error) units.Pressure {
	return func(p units.Pressure, err error) units.Pressure {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
}

func TestFlywheel(t *testing.T) {
	rho := holding.CastIronDensity
	f := check.Open(t, "speeds/flywheel.csv")
	for r := range f.Rows() {
		switch kind := r.Text("kind"); kind {
		case "ring":
			c, err := holding.CheckRim(units.MM(r.Float("a")), units.RotationalSpeed(r.Float("b"))*units.RevPerMinute)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", float64(c.Stress/units.Megapascal))
		case "coefficient":
			r.Compare("value", float64(stress(t)(holding.RingStress(0.26*units.PoundPerCubicInch, units.FootPerSecond))/units.PSI))
		case "stress":
			v := units.Speed(r.Float("a")) * units.FootPerSecond
			r.Within("value", float64(stress(t)(holding.RingStress(rho, v))/units.PSI), 3) // 0.097 is rounded by 0.1 %, the density by 0.04 %
		case "disc":
			r.Compare("value", float64(stress(t)(holding.DiscStress(rho, units.Speed(r.Float("a")), r.Float("b")))/units.Megapascal))
		case "energy":
			e, err := holding.Wheel{Mass: units.Mass(r.Float("a")), Gyration: units.MM(1000 * r.Float("b"))}.Energy(units.RotationalSpeed(r.Float("c")) * units.RevPerMinute)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", float64(e/units.Kilojoule))
		case "swing":
			n, err := holding.Wheel{Mass: units.Mass(r.Float("a")), Gyration: units.MM(1000 * r.Float("b"))}.SpeedSwing(56*units.Kilojoule, units.RotationalSpeed(r.Float("c"))*units.RevPerMinute)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", float64(n/units.RevPerMinute))
		case "limit":
			want := r.Float("a") * 60 // ft/s to ft/min
			r.Within("value", want, 0)
			found := false
			for _, l := range holding.RimLimits() {
				found = found || math.Abs(float64(l.Speed/units.FootPerMinute)-want) < 1e-9
			}
			if !found {
				t.Errorf("%s: not among the limits", r.ID)
			}
		default:
			t.Fatalf("%s: kind %q", r.ID, kind)
		}
	}
}

func TestErrata(t *testing.T) {
	c, err := holding.CheckRim(units.Inch(27), 1000*units.RevPerMinute)
	if err != nil {
		t.Fatal(err)
	}
	model, err := holding.CheckRim(units.MM(150), 3000*units.RevPerMinute)
	if err != nil {
		t.Fatal(err)
	}
	limit, err := holding.Chuck{Marked: 3000 * units.RevPerMinute, Grip: 17723, Moment: 2.668}.Speed(3000, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "holding", map[string]float64{
		"chuck-speed":  float64(limit.Speed / units.RevPerMinute),
		"forum-excess": 100 * (float64(c.Speed/c.Limit.Speed) - 1),
		"iron-density": float64(holding.CastIronDensity / units.PoundPerCubicInch),
		"ring-square":  float64(model.Stress / units.Megapascal),
	})
}

func TestChuckNeverAboveItsMark(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := holding.Chuck{
			Marked: units.RotationalSpeed(rapid.Float64Range(100, 5000).Draw(t, "marked")) * units.RevPerMinute,
			Grip:   units.Force(rapid.Float64Range(100, 50_000).Draw(t, "grip")),
			Moment: rapid.Float64Range(0.001, 10).Draw(t, "moment"),
		}
		needed := units.Force(rapid.Float64Range(1, 10_000).Draw(t, "needed"))
		l, err := c.Speed(needed, 1.5)
		if err != nil {
			if c.Grip > 1.5*needed {
				t.Fatal(err)
			}
			return
		}
		left := float64(c.Grip) - c.Moment*float64(l.Speed)*float64(l.Speed)
		if l.Speed > c.Marked || left < 1.5*float64(needed)*(1-1e-9) || l.Reason == "" {
			t.Fatalf("%+v: %+v leaves %v N", c, l, left)
		}
	})
}

// An unmarked chuck is held well below the rim of a flywheel of its size.
func TestUnmarkedChuck(t *testing.T) {
	for _, d := range []units.Length{units.MM(80), units.MM(125), units.MM(200)} {
		l, err := holding.UnmarkedChuck(d)
		if err != nil {
			t.Fatal(err)
		}
		rim, err := holding.CheckRim(d, l.Speed)
		if err != nil || !rim.Safe || math.Abs(float64(rim.Speed)-15) > 1e-9 || l.Speed > rim.Most*0.6 {
			t.Errorf("%v: %v, %+v, %v", d, l, rim, err)
		}
	}
	for _, d := range []units.Length{units.MM(39), units.MM(1001)} {
		if _, err := holding.UnmarkedChuck(d); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", d, err)
		}
	}
}

func TestWorkInverse(t *testing.T) {
	w := holding.Work{Mass: 3, Offset: units.MM(12)}
	f, err := w.Force(250 * units.RevPerMinute)
	if err != nil {
		t.Fatal(err)
	}
	n, err := w.Speed(f)
	if err != nil || math.Abs(float64(n/units.RevPerMinute)-250) > 1e-9 {
		t.Errorf("%v, %v", n, err)
	}
}

func TestRefuses(t *testing.T) {
	good := holding.Chuck{Marked: 200, Grip: 5000, Moment: 0.5}
	w := holding.Work{Mass: 1, Offset: units.MM(1)}
	wheel := holding.Wheel{Mass: 2, Gyration: units.MM(60)}
	nan := math.NaN()
	for name, call := range map[string]func() error{
		"no wheel":            func() error { _, err := holding.CheckRim(units.MM(0), 1); return err },
		"wheel stands still":  func() error { _, err := holding.CheckRim(units.MM(10), 0); return err },
		"speed not a number":  func() error { _, err := holding.CheckRim(units.MM(10), units.RotationalSpeed(nan)); return err },
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
		"speed of no wheel":   func() error { _, err := holding.CheckRim(units.MM(10), 1e308); return err },
		"swing of everything": func() error { _, err := wheel.SpeedSwing(100, 10); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
