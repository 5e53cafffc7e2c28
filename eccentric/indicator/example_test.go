package indicator

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// demo is the invented engine of the demonstration book, at 2 bar and 300 rev/min on
// air.
func demo() Running {
	return Running{
		Gear: eccentric.Gear{
			Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
			Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
			Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
			Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
		},
		Bore: units.MM(20), PistonRod: units.MM(5), Medium: Air, Chest: 2 * units.Bar, Index: 1.2,
		Clearance: Both(0.08), Speed: 300 * units.RevPerMinute,
	}
}

func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g within %.3g", what, got, want, tolerance)
	}
}

// The demonstration engine, invented, on air at 2 bar.
func ExampleRunning_Cycle() {
	c, err := demo().Cycle()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f J a turn\n", c.Work.In(units.Joule))
	fmt.Printf("mean pressure %.2f and %.2f bar\n", c.Head.MeanPressure.In(units.Bar), c.Crank.MeanPressure.In(units.Bar))
	fmt.Printf("expands %.2f times, to %.2f bar absolute\n", c.Head.Expansion, c.Head.Release.Before.In(units.Bar))
	// Output:
	// 2.818 J a turn
	// mean pressure 1.88 and 1.82 bar
	// expands 1.10 times, to 2.69 bar absolute
}

func ExampleRunning_At() {
	r := demo()
	for _, deg := range []units.Angle{0, 45, 90, 145, 160} {
		p, err := r.At(deg * units.Degree)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f degrees: %.2f and %.2f bar on the gauge, %.3f N m\n", p.Turned.Degrees(),
			r.Gauge(p.Head).In(units.Bar), r.Gauge(p.Crank).In(units.Bar), p.Moment.In(units.NewtonMetre))
	}
	// Output:
	// 0 degrees: 2.00 and 0.00 bar on the gauge, 0.000 N m
	// 45 degrees: 2.00 and 0.00 bar on the gauge, 0.634 N m
	// 90 degrees: 2.00 and 0.00 bar on the gauge, 0.785 N m
	// 145 degrees: 1.80 and 0.00 bar on the gauge, 0.339 N m
	// 160 degrees: 0.00 and 0.14 bar on the gauge, -0.015 N m
}

func ExampleRunning_Turning() {
	t, err := demo().Turning()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f N m, from %.3f at %.0f degrees to %.3f\n", t.Mean.In(units.NewtonMetre),
		t.Least.Torque.In(units.NewtonMetre), t.Least.Turned.Degrees(), t.Greatest.Torque.In(units.NewtonMetre))
	for _, arc := range t.Negative {
		fmt.Printf("the wheel turns the engine from %.1f to %.1f degrees\n", arc.From.Degrees(), arc.To.Degrees())
	}
	// Output:
	// 0.449 N m, from -0.089 at 355 degrees to 0.801
	// the wheel turns the engine from 155.5 to 180.0 degrees
	// the wheel turns the engine from 332.5 to 360.0 degrees
}

// One cylinder, against 0.05 N m of friction; and two of them.
func ExampleRunning_Starting() {
	r := demo()
	one, err := r.Starting(0.05)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, arc := range one.Starts {
		fmt.Printf("starts by itself from %.1f to %.1f degrees\n", arc.From.Degrees(), arc.To.Degrees())
	}
	fmt.Printf("must be turned on by up to %.1f degrees\n", one.Kick.Degrees())
	r.Cranks = []units.Angle{90 * units.Degree}
	two, err := r.Starting(0.05)
	fmt.Println(len(two.Blind), err)
	// Output:
	// starts by itself from 3.0 to 133.4 degrees
	// starts by itself from 184.9 to 310.6 degrees
	// must be turned on by up to 52.5 degrees
	// 0 <nil>
}

func ExampleRunning_Forces() {
	r := demo()
	r.Moving = 40 * units.Gram
	f, err := r.Forces(45 * units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f N of pressure, %.2f N to speed up the parts\n", f.Pressure.In(units.Newton), f.Inertia.In(units.Newton))
	fmt.Printf("%.1f N in the rod, %.1f N on the guides\n", f.Rod.In(units.Newton), f.Guide.In(units.Newton))
	// Output:
	// 62.8 N of pressure, 0.35 N to speed up the parts
	// 63.1 N in the rod, 8.9 N on the guides
}

func ExampleRunning_Inertia() {
	r := demo()
	r.Moving = 40 * units.Gram
	i, err := r.Inertia()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean piston speed %.2f m/s, %.2f N to turn back at the head end\n", i.PistonSpeed.In(units.MetrePerSecond), i.Head.In(units.Newton))
	fmt.Printf("pushed all the way up to %.0f rev/min\n", i.HeadKnocks.In(units.RevPerMinute))
	// Output:
	// mean piston speed 0.25 m/s, 0.59 N to turn back at the head end
	// pushed all the way up to 3092 rev/min
}

func ExampleRunning_Power() {
	p, err := demo().Power()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f W in the ideal cycle, %.0f to %.0f W at the shaft of an engine of industry\n",
		p.Indicated.In(units.Watt), p.Min.In(units.Watt), p.Max.In(units.Watt))
	// Output:
	// 14.1 W in the ideal cycle, 8 to 11 W at the shaft of an engine of industry
}

func ExampleRunning_PortFlow() {
	f, err := demo().PortFlow()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m/s into the head end, throttles from %.0f rev/min\n",
		f.Head.Steam.In(units.MetrePerSecond), f.Head.SteamThrottles.In(units.RevPerMinute))
	for _, limit := range f.Limits {
		fmt.Printf("%s: %.0f ft/min\n", limit.Name, limit.Speed.In(units.FootPerMinute))
	}
	// Output:
	// 3.9 m/s into the head end, throttles from 2329 rev/min
	// Bourne: 4000 ft/min
	// Rankine: 6000 ft/min
	// Burris: 8000 ft/min
}

// The valve of the demonstration engine, 13 mm wide over a cavity of 10.
func ExampleRunning_Hold() {
	h, err := demo().Hold(units.MM(13), units.MM(10))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f N down, at the most %.1f N up, at %.0f degrees\n", h.Down.In(units.Newton), h.Up.In(units.Newton), h.Turned.Degrees())
	// Output:
	// 40.0 N down, at the most 18.5 N up, at 156 degrees
}

// A sheave in line with the crank.
func ExampleRunning_Check() {
	r := demo()
	r.Gear.Advance = 90 * units.Degree
	list, err := r.Check()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(list[0].Code, list[0].Text)
	// Output:
	// gear-does-not-run The gear does not run the engine (little work), whatever the pressure. With 3.01 bar absolute (2.00 on the gauge) in the chest the ideal cycle of a cylinder gives 0.312 J a turn.
}

// What the ports take at five times the speed, by Rankine's limit.
func ExampleRunning_Throttled() {
	r := demo()
	r.Speed = 1500 * units.RevPerMinute
	c, err := r.Throttled(6000 * units.FootPerMinute)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f J a turn; cuts off at %.0f %% of the stroke\n", c.Work.In(units.Joule), 100*c.Head.CutOff.Stroke)
	// Output:
	// 2.32 J a turn; cuts off at 67 % of the stroke
}

// The invented flywheel of the demonstration engine, of cast iron.
func ExampleFlywheel_Wheel() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		fmt.Println(err)
		return
	}
	f := Flywheel{
		Diameter: units.MM(100), RimWidth: units.MM(12), RimDepth: units.MM(10), Web: units.MM(4),
		Boss: units.MM(16), BossWidth: units.MM(15), Bore: units.MM(6), Metal: iron,
	}
	w, err := f.Wheel()
	if err != nil {
		fmt.Println(err)
		return
	}
	r := demo()
	r.Speed = 600 * units.RevPerMinute
	even, err := r.Evenness(w)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f g, radius of gyration %.1f mm\n", w.Mass.In(units.Gram), w.Gyration.MM())
	fmt.Printf("%.0f to %.0f rev/min, %.1f %%\n", even.Min.In(units.RevPerMinute), even.Max.In(units.RevPerMinute), 100*even.Share)
	// Output:
	// 408 g, radius of gyration 39.2 mm
	// 547 to 653 rev/min, 17.5 %
}

func ExampleRunning_Excess() {
	e, err := demo().Excess()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f J, %.0f %% of a turn's work\n", e.Energy.In(units.Joule), 100*e.Share)
	fmt.Printf("slowest at %.0f degrees, fastest at %.0f\n", e.Slowest.Degrees(), e.Fastest.Degrees())
	w, err := demo().WheelFor(0.05, units.MM(42))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f g at 42 mm for 5 %%\n", w.Mass.In(units.Gram))
	// Output:
	// 0.433 J, 15 % of a turn's work
	// slowest at 29 degrees, fastest at 136
	// 4979 g at 42 mm for 5 %
}

func ExampleRunning_CheckPressure() {
	list, err := demo().CheckPressure(1.5 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range list {
		fmt.Println(f.Severity, f.Code)
	}
	// Output:
	// danger above-declared-pressure
}

// Dry saturated steam by Zeuner's rule and by another work, the Encyclopaedia Britannica
// (1910, volume 14, Hydraulics, work of expansion): 1.135.
func ExampleWetSteam_britannica() {
	dry, err := WetSteam(1)
	fmt.Printf("%.3f %v\n", dry.Index, err)
	// Output: 1.135 <nil>
}

// Steam with a tenth of water in it by Zeuner's rule, 1.035 + 0.1*0.9, beside the
// indices that books take for steam and for air.
func ExampleWetSteam() {
	wet, err := WetSteam(0.9)
	fmt.Printf("%.3f %s %v\n", wet.Index, wet.Of, err)
	for _, m := range []Medium{Steam, Air} {
		for _, e := range m.Expansions() {
			fmt.Printf("%v: %g %s\n", m, e.Index, e.Of)
		}
	}
	// Output:
	// 1.125 steam that is 90 % dry <nil>
	// steam: 1 steam as the old books have it, a hyperbola
	// steam: 1.135 dry saturated steam
	// steam: 1.3 superheated steam
	// air: 1 air at one temperature
	// air: 1.25 air in a motor
	// air: 1.4 air without heat
}

// The demonstration engine, invented, at four crank angles, with its pressures as a
// gauge would show them.
func ExampleRunning_Points() {
	r := demo()
	points, err := r.Points(4)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range points {
		fmt.Printf("%3.0f deg: piston %.3f, head %.2f bar, %.3f N m\n", p.Turned.Degrees(), p.Piston, r.Gauge(p.Head).In(units.Bar), p.Moment.In(units.NewtonMetre))
	}
	fmt.Printf("%d cylinder, chest %.2f bar absolute\n", r.Cylinders(), r.Absolute(r.Chest).In(units.Bar))
	// Output:
	// 0 deg: piston 0.000, head 2.00 bar, 0.000 N m
	//  90 deg: piston 0.550, head 2.00 bar, 0.785 N m
	// 180 deg: piston 1.000, head 0.00 bar, 0.000 N m
	// 270 deg: piston 0.550, head 0.00 bar, 0.736 N m
	// 1 cylinder, chest 3.01 bar absolute
}
