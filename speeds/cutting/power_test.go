package cutting_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A cut of 10 cm3/min in cast iron, by a constant that is from memory.
func ExampleUnitPower_Power() {
	iron, _ := material.Lookup("cast iron")
	u, _ := cutting.UnitPowerFor(iron)
	p, err := u.Power(10 * units.CubicCentimetrePerMinute)
	fmt.Printf("%.0f W, recalled: %v %v\n", float64(p), u.Refs.Recalled(), err)
	// Output: 273 W, recalled: true <nil>
}

// One horsepower per cubic inch a minute is 2.7303 kW per cm3/s: the two printed
// columns agree to the last place of the metric one.
func TestUnitPowerRows(t *testing.T) {
	// Machinery's Handbook, 31st edition, Table 1b: 2.73 kW per cm3/s.
	if got := float64(units.Horsepower) / float64(units.CubicInchPerMinute) / 1e9; math.Abs(got-2.73) > 0.005 {
		t.Errorf("1 hp min/in3 is %v kW per cm3/s", got)
	}
	f := check.Open(t, "speeds/cutting/unit_power.csv")
	printed := map[string]float64{} // hp per in3/min
	for r := range f.Rows() {
		name := r.Text("material")
		if r.Has("condition") {
			name += ", " + r.Text("condition")
		}
		rows := cutting.PowersOf(name)
		if len(rows) != 1 {
			t.Errorf("%s: %d rows of %s", r.ID, len(rows), name)
			continue
		}
		row := rows[0]
		r.Compare("kp_hp", row.PerFlow*float64(units.CubicInchPerMinute)/float64(units.Horsepower))
		r.Within("kp_metric", row.PerFlow/1e9, 0.0053) // kW per cm3/s; the recalled rows were converted to two places
		printed[name] = r.Float("kp_hp")
	}
	// What is answered for a material of ours is one of these.
	for _, name := range []string{"mild steel", "cast iron", "brass", "aluminium"} {
		of, err := cutting.UnitPowerFor(metal(name))
		kp, ok := printed[of.Material]
		got := of.PerFlow * float64(units.CubicInchPerMinute) / float64(units.Horsepower)
		if err != nil || !ok || math.Abs(got-kp) > 0.005 {
			t.Errorf("%s: %v hp per in3/min of %q, %v; printed %v", name, got, of.Material, err, kp)
		}
	}
}
