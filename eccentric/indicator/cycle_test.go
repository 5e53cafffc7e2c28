package indicator

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
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

// EC-20: cut-off at 25 % and release at 75 % of the stroke with 10 % of clearance,
// 80 psig by pV, the atmosphere taken as 15 psi: expands 2.43 times, to 24.1 psig.
func TestCaseExpansion(t *testing.T) {
	r := demo()
	r.Gear.ConnectingRod, r.Gear.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	// Cut-off at 60 and release at 120 degrees: 180 - asin(S/r) - d and 180 + asin(E/r) - d.
	const travel, lap, advance = 10, 40, 80
	sin := func(deg float64) float64 { return math.Sin(deg * math.Pi / 180) }
	r.Gear.Travel, r.Gear.Advance = units.MM(travel), advance*units.Degree
	r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{Steam: units.MM(travel / 2 * sin(lap)), Exhaust: units.MM(travel / 2 * sin(120-180+advance))})
	r.Clearance, r.Index, r.Chest, r.Atmosphere = Both(0.1), 1, 80*units.PSI, 15*units.PSI
	c, err := r.Cycle()
	if err != nil {
		t.Fatal(err)
	}
	for _, end := range []eccentric.End{eccentric.HeadEnd, eccentric.CrankEnd} {
		e := c.At(end)
		near(t, "EC-20 cut-off", e.CutOff.Stroke, 0.25, 1e-9)
		near(t, "EC-20 release", e.Release.Stroke, 0.75, 1e-9)
		near(t, "EC-20 expansion", e.Expansion, 2.43, 0.005)
		near(t, "EC-20 pressure at release, psig", r.Gauge(e.Release.Before).In(units.PSI), 24.1, 0.1)
	}
}
