package cutting_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// 5 mm of stock off a bar of mild steel, in three cuts of (12 + 2) mm at 0.254 mm
// a turn and 210 rev/min.
func ExampleCut() {
	steel, _ := material.Lookup("mild steel")
	cut := cutting.Cut{Operation: speeds.RoughTurning, Material: steel, Diameter: units.MM(30),
		Feed: speeds.Feed{Min: units.MM(0.254)}, Spindle: 210 * units.RevPerMinute,
		Length: units.MM(12), Deep: units.MM(2), Stock: units.MM(5)}
	t, err := cut.Time()
	fmt.Printf("%.2f min, %v\n", t.Minutes(), err)
	load, err := cut.Load()
	fmt.Printf("%.0f W at the spindle, %v\n", load.Power.In(units.Watt), err)
	// Output:
	// 0.79 min, <nil>
	// 302 W at the spindle, <nil>
}

func TestCutPath(t *testing.T) {
	brass, _ := material.Lookup("brass")
	cut := func(op speeds.Operation) cutting.Cut {
		return cutting.Cut{Operation: op, Material: brass, Diameter: units.MM(20), Feed: speeds.Feed{Min: units.MM(0.1)},
			Spindle: 300 * units.RevPerMinute}
	}
	facing, drilling, milling, turning := cut(speeds.Facing), cut(speeds.Drilling), cut(speeds.Milling), cut(speeds.Turning)
	drilling.Depth = units.MM(12)
	milling.Length, milling.Feed.PerTooth = units.MM(40), true
	point, _ := cutting.PointLength(units.MM(20), cutting.UsualPoint)
	for name, test := range map[string]struct {
		cut  cutting.Cut
		want cutting.Path
	}{
		"facing":   {facing, cutting.Path{Length: units.MM(10), Approach: units.MM(2)}},
		"drilling": {drilling, cutting.Path{Length: units.MM(12), Approach: point}},
		"milling":  {milling, cutting.Path{Length: units.MM(40), Approach: units.MM(10)}},
	} {
		if got, err := test.cut.Path(); err != nil || got != test.want {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
	if _, err := turning.Time(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("a cut without a length: %v", err)
	}
	if _, err := milling.Time(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("a cutter without teeth: %v", err)
	}
	milling.Teeth = 2
	if got, err := milling.Time(); err != nil || math.Abs(got.Minutes()-50/(0.1*2*300)) > 1e-9 {
		t.Errorf("milling: %v, %v", got, err)
	}
	if _, err := milling.Load(); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("the load of milling: %v", err)
	}
	facing.Stock = units.MM(3)
	if _, err := facing.Path(); err == nil {
		t.Error("stock without a depth of cut")
	}
}
