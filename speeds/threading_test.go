package speeds_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Small taps and all dies are for the hand, whatever the machine: no speed, no step,
// no talk of a faster one. A larger tap runs slowly, and the plan says why.
func TestThreadsByHand(t *testing.T) {
	for _, tt := range []struct {
		name string
		op   speeds.Operation
		d    float64
		set  float64 // rev/min; 0: by hand
	}{
		{"SP-10 M3", speeds.Tapping, 3, 0},
		{"M4", speeds.Tapping, 4, 0},
		{"M5", speeds.Tapping, 5, 50},
		{"M6", speeds.Tapping, 6, 50},
		{"die M3", speeds.DieCutting, 3, 0},
		{"die M12", speeds.DieCutting, 12, 0},
	} {
		j := speeds.Job{Operation: tt.op, Material: metal("cast iron"), Diameter: units.MM(tt.d),
			Machine: ladder(t, "50 110 200 360 600 1000 2000")}
		plan, err := j.Plan()
		if err != nil || !plan.Findings.OK() || len(plan.Findings) != 1 {
			t.Fatalf("%s: %+v, %v", tt.name, plan.Findings, err)
		}
		n, ok := plan.Set()
		if got := n.In(units.RevPerMinute); math.Abs(got-tt.set) > 1e-9 || ok != (tt.set > 0) {
			t.Errorf("%s: set %v, %v", tt.name, n, ok)
		}
		f := plan.Findings[0]
		switch {
		case tt.set == 0 && (f.Code != speeds.ByHand || plan.Max != 0 || plan.Range.Max != 0 || plan.Choice.Wanted != 0):
			t.Errorf("%s: %+v", tt.name, plan)
		case tt.set == 0 && !strings.Contains(f.Remedies[0], "tailstock"):
			t.Errorf("%s: not guided: %v", tt.name, f)
		case tt.set > 0 && (f.Code != speeds.SpeedLimited || f.Severity != finding.Note || !strings.Contains(f.Text, "not above 100 rev/min: a tap that binds")):
			t.Errorf("%s: no reason: %v", tt.name, f)
		}
		// At a speed at which it runs already.
		for n, code := range map[float64]finding.Code{600: speeds.AboveLimit, 50: ""} {
			if tt.set == 0 {
				code = speeds.ThreadUnderPower
			}
			found, err := j.Check(units.RotationalSpeed(n) * units.RevPerMinute)
			if err != nil {
				t.Fatal(err)
			}
			danger := len(found) > 0 && found[0].Severity == finding.Danger && found[0].Code == code
			if danger != (code != "") {
				t.Errorf("%s at %v: %v", tt.name, n, found)
			}
		}
		j.Min, j.Max = 0.1, 0.1
		var bad *units.ArgumentError
		if err := j.Validate(); errors.As(err, &bad) != (tt.set == 0) {
			t.Errorf("%s with a cutting speed: %v", tt.name, err)
		}
	}
	if _, err := speeds.Recommend(speeds.DieCutting, metal("mild steel"), speeds.HSS); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a cutting speed for a die: %v", err)
	}
	if err := (speeds.Job{Operation: speeds.Tapping, Diameter: units.MM(3)}).Validate(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("a tap in nothing: %v", err)
	}
	if err := (speeds.Job{Operation: speeds.DieCutting, Diameter: units.MM(3), Material: metal("brass"), Tool: speeds.Carbide}).Validate(); err == nil {
		t.Error("a die of carbide")
	}
}

// Screwcutting asks the pitch: M10 x 1.5 at 360 rev/min is 9 mm a second, and the tool
// goes no faster than 2 mm a second, which is 80 rev/min.
func TestScrewcuttingAsksThePitch(t *testing.T) {
	j := speeds.Job{Operation: speeds.Screwcutting, Material: metal("mild steel"), Diameter: units.MM(10),
		Machine: ladder(t, "50 110 200 360 600")}
	if _, err := j.Plan(); !errors.Is(err, units.ErrMissing) || !strings.Contains(err.Error(), "pitch") {
		t.Errorf("without a pitch: %v", err)
	}
	j.Pitch = units.MM(1.5)
	plan, err := j.Plan()
	if n, ok := plan.Set(); err != nil || !ok || math.Abs(n.In(units.RevPerMinute)-50) > 1e-9 {
		t.Errorf("SP-10: set %v: %+v, %v", n, plan.Findings, err)
	}
	if f := plan.Findings[0]; f.Code != speeds.SpeedLimited || !strings.Contains(f.Text, "not above 80 rev/min: the tool then goes 2 mm a second") {
		t.Errorf("%v", f)
	}
	found, err := j.Check(360 * units.RevPerMinute)
	if err != nil || len(found) == 0 || found[0].Severity != finding.Danger || found[0].Code != speeds.AboveLimit ||
		!slices.ContainsFunc(found[0].Remedies, func(s string) bool { return strings.Contains(s, "mandrel handle") }) {
		t.Errorf("at 360 rev/min: %v, %v", found, err)
	}
	j.Machine = ladder(t, "110 200 360")
	plan, err = j.Plan()
	if _, ok := plan.Set(); err != nil || ok || len(plan.Findings) < 1 || plan.Findings[0].Severity != finding.Danger ||
		!strings.Contains(plan.Findings[0].Text, "its slowest, 110 rev/min") {
		t.Errorf("a lathe that is too fast: %+v, %v", plan.Findings, err)
	}
	j.Pitch = units.MM(-1)
	if err := j.Validate(); err == nil {
		t.Error("a negative pitch")
	}
	for _, bad := range []struct {
		p units.Length
		n units.RotationalSpeed
	}{{units.MM(0), 1}, {units.MM(1), 0}, {units.MM(1), units.RotationalSpeed(math.Inf(1))}} {
		if _, err := speeds.ThreadSpeed(bad.p, bad.n); err == nil {
			t.Errorf("%v", bad)
		}
	}
}

// M10 x 1.5 at 360 rev/min.
func ExampleThreadSpeed() {
	v, err := speeds.ThreadSpeed(units.MM(1.5), 360*units.RevPerMinute)
	fmt.Printf("%.1f mm/s %v\n", 1000*v.In(units.MetrePerSecond), err)
	// Output:
	// 9.0 mm/s <nil>
}
