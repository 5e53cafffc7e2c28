package cutting_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// Fundamentals of Machining, p. 189: a cut 4 mm deep and 30 mm wide at 120 mm/min
// and 1000 N/mm2 takes 0.24 kW.
func ExampleMillingLoad() {
	printed := cutting.Kienzle{KC11: 1000 * units.Megapascal}
	load, err := cutting.MillingLoad(printed, units.MM(30), units.MM(4), units.MM(30), units.MM(0.1), 8,
		150*units.RevPerMinute)
	fmt.Printf("%.2f kW %v\n", load.Power.In(units.Kilowatt), err)
	// Output: 0.24 kW <nil>
}

// A 10 mm drill in mild steel at 0.1 mm a turn and 800 rev/min.
func ExampleDrillingLoad() {
	steel, _ := material.Lookup("mild steel")
	k, _ := cutting.KienzleFor(steel)
	load, err := cutting.DrillingLoad(k, units.MM(10), units.MM(0.1), 118*units.Degree, 800*units.RevPerMinute)
	fmt.Printf("%.1f N m, %.0f W %v\n", float64(load.Torque), float64(load.Power), err)
	// Output: 3.3 N m, 274 W <nil>
}

// A tool maker's problem: 3 mm deep, 0.2 mm/rev, 120 m/min, kc 3100 N/mm2, drive
// 0.8: 4.65 kW. Kienzle for the same steel gives two thirds of that.
func ExampleTurningLoad() {
	d := units.MM(100)
	n, _ := speeds.SpindleSpeed(120*units.MetrePerMinute, d)
	printed := cutting.Kienzle{KC11: 3100 * units.Megapascal}
	load, _ := cutting.TurningLoad(printed, d, units.MM(3), units.MM(0.2), 90*units.Degree, n)
	motor, err := cutting.CheckMotor(load, 5*units.Kilowatt, 0.8)
	fmt.Printf("%.2f kW %v\n", motor.Needed/units.Kilowatt, err)

	steel, _ := material.Lookup("mild steel")
	k, _ := cutting.KienzleFor(steel)
	load, _ = cutting.TurningLoad(k, d, units.MM(3), units.MM(0.2), 90*units.Degree, n)
	motor, err = cutting.CheckMotor(load, 5*units.Kilowatt, 0.8)
	fmt.Printf("%.2f kW %v\n", motor.Needed/units.Kilowatt, err)
	// Output:
	// 4.65 kW <nil>
	// 2.84 kW <nil>
}

func TestTurningLoad(t *testing.T) {
	f := check.Open(t, "speeds/cutting/turning_load.csv")
	for r := range f.Rows() {
		m, err := material.Lookup(r.Text("material"))
		if err != nil {
			t.Fatal(err)
		}
		k, err := cutting.KienzleFor(m)
		if err != nil {
			t.Fatal(err)
		}
		feed, depth := units.MM(r.Float("feed_mm")), units.MM(r.Float("depth_mm"))
		kc, err := k.At(feed)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("kc", float64(kc/units.Megapascal))
		d := units.MM(50)
		n, err := speeds.SpindleSpeed(units.Speed(r.Float("speed_m_min"))*units.MetrePerMinute, d)
		if err != nil {
			t.Fatal(err)
		}
		load, err := cutting.TurningLoad(k, d, depth, feed, 90*units.Degree, n)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("watts", float64(load.Power))
		cut := cutting.Cut{
			Operation: speeds.Turning, Material: m, Diameter: d, Deep: depth, Spindle: n,
			Feed: speeds.Feed{Min: feed, Max: feed},
		}
		of, err := cut.Load()
		if err != nil {
			t.Fatal(r.ID, err)
		}
		r.Compare("watts", float64(of.Power))
		if got := float64(load.Force) * d.Metres() / 2; math.Abs(got/float64(load.Torque)-1) > 1e-12 {
			t.Errorf("%s: force %v, torque %v", r.ID, load.Force, load.Torque)
		}
	}
}

// Fundamentals of Machining, p. 189: 4 mm deep, 30 mm wide, 120 mm/min, 1000 N/mm2.
func ExampleMillingLoad_fundamentals() {
	k := cutting.Kienzle{KC11: 1000 * units.Megapascal}
	load, err := cutting.MillingLoad(k, units.MM(30), units.MM(4), units.MM(30), units.MM(0.1), 8, 150*units.RevPerMinute)
	fmt.Printf("%.2f kW %v\n", load.Power.In(units.Kilowatt), err)
	// Output: 0.24 kW <nil>
}

// The motor of the same page, with an efficiency of 0.9.
func ExampleCheckMotor_fundamentals() {
	c, err := cutting.CheckMotor(cutting.Load{Power: 0.24 * units.Kilowatt}, 400*units.Watt, 0.9)
	fmt.Printf("%.2f kW %v\n", c.Needed.In(units.Kilowatt), err)
	// Output: 0.27 kW <nil>
}

// Fundamentals of Machining, p. 189: 4 mm deep, 30 mm wide, 120 mm/min, 1000
// N/mm2: 0.24 kW; 0.27 kW at the motor with an efficiency of 0.9.
func TestMillingLoad(t *testing.T) {
	k := cutting.Kienzle{KC11: 1000 * units.Megapascal}
	load, err := cutting.MillingLoad(k, units.MM(30), units.MM(4), units.MM(30), units.MM(0.1), 8, 150*units.RevPerMinute)
	if err != nil || math.Abs(float64(load.Power)-240) > 1e-6 {
		t.Errorf("%v, %v", load, err)
	}
	// 0.24 kW at 150 rev/min is 15.28 N m, and 1019 N at the rim of 30 mm.
	if math.Abs(float64(load.Torque)-15.279) > 0.001 || math.Abs(float64(load.Force)-1018.6) > 0.1 {
		t.Errorf("%v N m, %v N", float64(load.Torque), float64(load.Force))
	}
	// 266.7 W for a motor of 300 W is 89 %, and with 30 % on top too much.
	if c, err := cutting.CheckMotor(load, 300, 0.9); err != nil || len(c.Findings) != 1 ||
		c.Findings[0].Code != cutting.MotorMayStall || c.Findings[0].Severity != finding.Caution {
		t.Errorf("%+v, %v", c, err)
	}
	c, err := cutting.CheckMotor(load, 400, 0.9)
	if err != nil || math.Abs(float64(c.Needed)-266.7) > 0.1 || c.Findings[0].Code != cutting.MotorCarries ||
		!c.Findings.OK() {
		t.Errorf("%+v, %v", c, err)
	}
}

// A drill takes out pi d^2/4 f n at kc: torque times speed is the power of that
// removal rate.
func TestDrillingLoad(t *testing.T) {
	k, err := cutting.KienzleFor(metal("mild steel"))
	if err != nil {
		t.Fatal(err)
	}
	d, feed, n := units.MM(8), units.MM(0.12), 900*units.RevPerMinute
	load, err := cutting.DrillingLoad(k, d, feed, 118*units.Degree, n)
	if err != nil {
		t.Fatal(err)
	}
	q, err := cutting.DrillingRemoval(d, feed, n)
	if err != nil {
		t.Fatal(err)
	}
	h, err := cutting.ChipThickness(feed.Scale(0.5), 59*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	kc, err := k.At(h)
	if err != nil {
		t.Fatal(err)
	}
	// Two lips at half the radius carry the torque: T = F d/2.
	if want := float64(load.Force) * d.Metres() / 2; math.Abs(float64(load.Torque)/want-1) > 1e-12 {
		t.Errorf("%v N m, lips of %v N", float64(load.Torque), float64(load.Force))
	}
	if want := float64(kc) * float64(q); math.Abs(float64(load.Power)/want-1) > 1e-12 {
		t.Errorf("%v W, removal asks for %v W", float64(load.Power), want)
	}
}
