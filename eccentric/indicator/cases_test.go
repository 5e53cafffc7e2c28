package indicator

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// lapped is an engine whose ports crack open at the dead centres and shut to steam at
// the given crank angle after them, with a connecting rod of n cranks: the advance is
// half of what the cut-off leaves of half a turn, and no lead.
func lapped(cutOff, n float64) Running {
	r := demo()
	r.PistonRod = units.Length{}
	g := &r.Gear
	g.EccentricRod, g.ConnectingRod = eccentric.InfiniteRod(), eccentric.RodOf(g.Stroke.Scale(n/2))
	g.Advance = units.Angle(180-cutOff) / 2 * units.Degree
	g.Travel = units.MM(10)
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.MM(5).Scale(math.Sin(float64(g.Advance)))})
	return r
}

func starting(t *testing.T, r Running, friction units.Torque) Starting {
	t.Helper()
	s, err := r.Starting(friction)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// EC-13: cranks at half a turn never start at the dead centres; at right angles the
// engine starts from everywhere where both ends have steam for 90 degrees, which in
// shares of the stroke is not the same at the two ends.
func TestCaseTwin(t *testing.T) {
	for _, test := range []struct{ n, head, crank float64 }{{4, 56.4, 43.6}, {5, 55.1, 44.9}, {6, 54.2, 45.8}} {
		r := lapped(90.02, test.n)
		c, err := r.Cycle()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "EC-13 head end, %", 100*c.Head.CutOff.Stroke, test.head, 0.2)
		near(t, "EC-13 crank end, %", 100*c.Crank.CutOff.Stroke, test.crank, 0.2)
		r.Cranks = []units.Angle{90 * units.Degree}
		if s := starting(t, r, 0); len(s.Blind) != 0 || s.Kick != 0 || len(s.Starts) != 1 || math.Abs(s.Starts[0].Angle().Degrees()-360) > 1e-9 {
			t.Errorf("EC-13: cranks at right angles: %v", s)
		}
		r = lapped(88, test.n)
		r.Cranks = []units.Angle{90 * units.Degree}
		s := starting(t, r, 0)
		if len(s.Blind) != 4 {
			t.Errorf("EC-13: cut-off at 88 degrees: %v", s)
		}
		near(t, "EC-13 kick", s.Kick.Degrees(), 2, 1e-6)
		list, err := r.Check()
		if err != nil || list[len(list)-1].Code != StartsNotFromAll {
			t.Errorf("EC-13: %v, %v", list, err)
		}
		for _, ahead := range []units.Angle{180 * units.Degree, 0} {
			r := lapped(130, test.n)
			r.Cranks = []units.Angle{ahead}
			s := starting(t, r, 0)
			near(t, "EC-13 half a turn: kick", s.Kick.Degrees(), 50, 1e-6) // from a cut-off to the next dead centre
			for _, at := range []units.Angle{0, math.Pi} {
				if in(s.Starts, at-1e-6) || in(s.Starts, at+2*math.Pi-1e-6) {
					t.Errorf("EC-13: starts a hair before its dead centres: %v", s)
				}
			}
		}
	}
	// A kick of 50 degrees moves the piston by 20.8 % of its stroke.
	p, err := lapped(130, 5).At(50 * units.Degree)
	near(t, "EC-13 a kick of 50 degrees", 100*p.Piston, 20.8, 0.05)
	if err != nil {
		t.Error(err)
	}
}

// EC-19: a valve of 12 by 10 mm, the chest 2 bar above the exhaust, a cavity of 6 by 8
// at 1.9 bar: 24.0 N down and 9.1 N up.
func TestCaseValveLifts(t *testing.T) {
	f := face{plan: 12e-3 * 10e-3, cavity: 6e-3 * 8e-3} // the port under the valve left out
	r := lapped(150, 5)
	r.Index, r.Clearance = 1, Both(0.08)
	// An exhaust lap at which the release comes at 1.9 bar above the exhaust.
	low, high := -1.0, 5.0
	hold := func(lap float64) Hold {
		r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{Steam: r.Gear.Laps().Steam, Exhaust: units.MM(lap)})
		return r.model().hold(&f)
	}
	for range 50 {
		if lap := (low + high) / 2; hold(lap).Up > 9.12*units.Newton {
			low = lap
		} else {
			high = lap
		}
	}
	h := hold(low)
	near(t, "EC-19 down, N", h.Down.In(units.Newton), 24.0, 0.05)
	near(t, "EC-19 up, N", h.Up.In(units.Newton), 9.1, 0.05)
	c, err := r.Cycle()
	if err != nil || h.Lifts {
		t.Errorf("EC-19: %v, %v", h, err)
	}
	near(t, "EC-19 at release, bar", r.Gauge(max(c.Head.Release.Before, c.Crank.Release.Before)).In(units.Bar), 1.9, 0.01)

	// Compressed above the chest it lifts, and is said to.
	r = demo()
	r.Gear.Valve.Cavity = units.MM(6)
	r.Clearance = Both(0.005)
	h, err = r.Hold(units.MM(12), units.MM(10))
	if err != nil || !h.Lifts || len(h.Check()) != 1 || h.Check()[0].Code != ValveLifts {
		t.Errorf("EC-19: %v, %v", h, err)
	}
	if (Hold{}).Check() != nil {
		t.Error("EC-19: nothing lifts")
	}
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
	r.Gear.Valve = r.Gear.Ports.ValveWith(eccentric.Laps{
		Steam: units.MM(travel / 2 * sin(lap)), Exhaust: units.MM(travel / 2 * sin(120-180+advance))})
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

// One cylinder without friction starts where package eccentric has its ends driven, if
// no port is open while the other end's is, whatever the rod.
func TestStartsWhereDriven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		r.Cranks = nil
		events, err := r.Gear.Events()
		s, err2 := r.Starting(0)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		ordered(t, s.Starts)
		ordered(t, s.Blind)
		ordered(t, s.Backwards)
		sum := 0.0
		for _, a := range append(append([]Arc(nil), s.Starts...), s.Blind...) {
			sum += float64(a.Angle())
		}
		near(t, "starts and does not", sum, 2*math.Pi, 1e-9)
		back := r.Absolute(r.Back)
		if rod := r.PistonRod.Ratio(r.Bore); math.Abs(r.Gear.Advance.Degrees()) > 90 || r.Gear.LapsAt(eccentric.HeadEnd).Steam.Sign() <= 0 ||
			r.Gear.LapsAt(eccentric.CrankEnd).Steam.Sign() <= 0 || math.Abs(float64(r.air()-back))*rod*rod > 0.9*float64(r.Chest+r.air()-back)*(1-rod*rod) {
			return // of the other direction, both ports open to steam at once, or a rod so thick that the exhaust outdoes the steam
		}
		blind := 2 * math.Pi
		for _, end := range []eccentric.EndEvents{events.Head, events.Crank} {
			from, to := end.Driven()
			blind -= float64(to - from)
		}
		got := 0.0
		for _, a := range s.Blind {
			got += float64(a.Angle())
		}
		near(t, "blind arc", got, blind, 1e-6)
	})
}

// Of one cylinder without a piston rod Gear.Check and Starting say the same, without
// friction and with it, of any gear that runs: with both ports open at once too.
func TestStartsAsCheckSays(t *testing.T) {
	told := regexp.MustCompile(`from ([\d.]+) deg to ([\d.]+) deg`)
	rubs := regexp.MustCompile(`about (\d+), (\d+) or (\d+) deg`)
	checked, together := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		r.Cranks, r.PistonRod = nil, units.Length{}
		if rapid.Bool().Draw(t, "one that runs") {
			r.Gear.Advance, r.Gear.LeverRatio = units.Angle(rapid.Float64Range(5, 60).Draw(t, "degrees"))*units.Degree, 0
		}
		if r.Validate() != nil {
			t.Skip("no gear")
		}
		for _, f := range r.Gear.Check() {
			if f.Code != eccentric.BlindArc {
				continue
			}
			checked++
			s, err := r.Starting(0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "blind arc", blind(s), f.Arc.Degrees(), 1e-6)
			friction := rubs.FindStringSubmatch(f.Text)
			if friction == nil {
				t.Fatal(f.Text)
			}
			for i, share := range []float64{0.1, 0.2, 0.3} {
				s, err := r.Starting(units.Torque(share) * s.Greatest.Torque)
				if err != nil {
					t.Fatal(err)
				}
				near(t, "against friction", blind(s), decimal(t, friction[i+1]), 0.51)
			}
			if strings.Contains(f.Text, "against each other") {
				together++
			}
			sum := 0.0
			for _, arc := range told.FindAllStringSubmatch(f.Text, -1) {
				from, to := decimal(t, arc[1]), decimal(t, arc[2])
				if to < from {
					to += 360
				}
				sum += to - from
			}
			near(t, "arcs of the text", sum, f.Arc.Degrees(), 0.5)
		}
	})
	if !testing.Short() && (checked < 10 || together == 0) {
		t.Errorf("%d gears, %d with both ports open", checked, together)
	}
}

// blind returns in how many degrees it does not start.
func blind(s Starting) float64 {
	sum := 0.0
	for _, a := range s.Blind {
		sum += a.Angle().Degrees()
	}
	return sum
}

func decimal(t *rapid.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Friction takes the more of the arcs the greater it is, and more than the greatest
// moment leaves none.
func TestFriction(t *testing.T) {
	r := demo()
	last := 7.0
	for _, part := range []float64{0, 0.01, 0.1, 0.5, 0.9, 0.999} {
		s := starting(t, r, units.Torque(part)*starting(t, r, 0).Greatest.Torque)
		sum := 0.0
		for _, a := range s.Starts {
			sum += float64(a.Angle())
		}
		if sum >= last || len(s.Starts) == 0 {
			t.Errorf("a friction of %v of the greatest: %v", part, s)
		}
		last = sum
	}
	if s := starting(t, r, 1.001*starting(t, r, 0).Greatest.Torque); len(s.Starts) != 0 || s.Kick != 2*math.Pi || len(s.Backwards) != 0 {
		t.Errorf("a friction above the greatest: %v", s)
	}
}
