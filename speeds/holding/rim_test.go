package holding_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
		fmt.Println(c.Findings[0].Severity, c.Findings[0].Text)
	}
	// Output:
	// note The rim runs at 7.9 m/s (1546 ft/min), within the lowest limit we have of 5000 ft/min (engine owners); hoop stress 0.44 MPa.
	// danger The wheel may fly apart: its rim runs at 35.9 m/s (7069 ft/min), above the lowest limit we have of 5000 ft/min (engine owners), not over 707 rev/min with this wheel; hoop stress 9.28 MPa.
}

func TestTables(t *testing.T) {
	check.Tables(t, holding.Tables, "tables/*.csv")
	limits := holding.RimLimits()
	if len(limits) != 4 || math.Abs(float64(limits[0].Speed/units.FootPerMinute)-5000) > 1e-9 ||
		math.Abs(float64(limits[3].Speed/units.FootPerMinute)-6000) > 1e-9 {
		t.Errorf("%+v", limits)
	}
	c, err := holding.CheckRim(units.MM(100), 100*units.RevPerMinute)
	if err != nil || c.Limit.Name != limits[0].Name || c.Limit.Speed != limits[0].Speed || !c.Refs.Recalled() ||
		len(c.Precautions) != 2 {
		t.Errorf("CheckRim goes by %+v, the lowest is %+v; %v", c.Limit, limits[0], err)
	}
}

func TestFlywheel(t *testing.T) {
	rho := holding.CastIronDensity
	f := check.Open(t, "speeds/holding/flywheel.csv")
	for r := range f.Rows() {
		switch kind := r.Text("kind"); kind {
		case "ring":
			c, err := holding.CheckRim(units.MM(r.Float("a")), units.RotationalSpeed(r.Float("b"))*units.RevPerMinute)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", float64(c.Stress/units.Megapascal))
		case "coefficient":
			r.Compare("value", float64(stress(t)(holding.RingStress(0.26*units.PoundPerCubicInch,
				units.FootPerSecond))/units.PSI))
		case "stress":
			v := units.Speed(r.Float("a")) * units.FootPerSecond
			// 0.097 is rounded by 0.1 %, the density by 0.04 %
			r.Within("value", float64(stress(t)(holding.RingStress(rho, v))/units.PSI), 3)
		case "disc":
			r.Compare("value", float64(stress(t)(holding.DiscStress(rho, units.Speed(r.Float("a")),
				r.Float("b")))/units.Megapascal))
		case "energy":
			e, err := holding.Wheel{Mass: units.Mass(r.Float("a")),
				Gyration: units.MM(1000 * r.Float("b"))}.Energy(units.RotationalSpeed(r.Float("c")) * units.RevPerMinute)
			if err != nil {
				t.Fatal(err)
			}
			r.Compare("value", float64(e/units.Kilojoule))
		case "swing":
			n, err := holding.Wheel{Mass: units.Mass(r.Float("a")),
				Gyration: units.MM(1000 * r.Float("b"))}.SpeedSwing(56*units.Kilojoule,
				units.RotationalSpeed(r.Float("c"))*units.RevPerMinute)
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

func stress(t *testing.T) func(units.Pressure, error) units.Pressure {
	return func(p units.Pressure, err error) units.Pressure {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return p
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
	check.Errata(t, "speeds/holding", map[string]float64{
		"chuck-speed":  float64(limit.Speed / units.RevPerMinute),
		"forum-excess": 100 * (float64(c.Speed/c.Limit.Speed) - 1),
		"iron-density": float64(holding.CastIronDensity / units.PoundPerCubicInch),
		"ring-square":  float64(model.Stress / units.Megapascal),
	})
}

// Just at the limit the rim is within it; a hair above it can hurt somebody.
func TestRimAtTheLimit(t *testing.T) {
	c, err := holding.CheckRim(units.MM(300), 100)
	if err != nil {
		t.Fatal(err)
	}
	for share, want := range map[float64]finding.Code{1 - 1e-9: holding.RimWithinLimit, 1 + 1e-9: holding.RimTooFast} {
		at, err := holding.CheckRim(units.MM(300), c.Max*units.RotationalSpeed(share))
		if err != nil || len(at.Findings) != 1 || at.Findings[0].Code != want ||
			at.Findings.OK() != (want == holding.RimWithinLimit) {
			t.Errorf("%v: %v, %v", share, at.Findings, err)
		}
	}
}
