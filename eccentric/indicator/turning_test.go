package indicator

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// anyGear is a gear that can be, sound or not in what it does.
func anyGear(t *rapid.T) eccentric.Gear {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	g := demo().Gear
	g.Travel, g.Advance = units.MM(f("travel", 1.5, 12)), units.Angle(f("advance", -3.14, 3.14))
	g.ConnectingRod, g.EccentricRod = eccentric.RodOf(units.MM(f("rod", 13, 120))), eccentric.RodOf(units.MM(f("eccentric rod", 8, 90)))
	switch rapid.IntRange(0, 6).Draw(t, "infinite") {
	case 0:
		g.ConnectingRod = eccentric.InfiniteRod()
	case 1:
		g.EccentricRod = eccentric.InfiniteRod()
	}
	g.Ports.Length = units.MM(f("port length", 5, 15))
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: units.MM(f("steam lap", -1.5, 5)), Exhaust: units.MM(f("exhaust lap", -2, 4))})
	g.Valve.Offset = units.MM(f("offset", -0.5, 0.5))
	g.InsideAdmission = rapid.Bool().Draw(t, "inside")
	g.LeverRatio = rapid.SampledFrom([]float64{0, -1, 1.2, -0.8}).Draw(t, "lever")
	if rapid.Bool().Draw(t, "as built") {
		g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(f("crank port", 0.5, 4)), units.MM(f("crank bar", 0.5, 4))
		g.Valve.CavityOffset, g.Valve.LostMotion = units.MM(f("cavity offset", -0.5, 0.5)), units.MM(f("lost motion", 0, 1.4))
	}
	if g.Validate() != nil {
		t.Skip("no gear")
	}
	return g
}

// anyRunning is an engine at work, of one to three cylinders.
func anyRunning(t *rapid.T) Running {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	r := demo()
	r.Gear = anyGear(t)
	r.Bore, r.PistonRod = units.MM(f("bore", 8, 60)), units.MM(f("piston rod", 0, 7))
	r.Chest, r.Back = units.Pressure(f("chest", 0.5, 12))*units.Bar, units.Pressure(f("back", -0.9, 0.4))*units.Bar
	r.Clearance = Shares{f("head clearance", 0.01, 0.4), f("crank clearance", 0.01, 0.4)}
	r.Index = rapid.SampledFrom([]float64{1, 1.0000001, 1.135, 1.3, 1.4}).Draw(t, "index")
	r.Medium = rapid.SampledFrom(Media()).Draw(t, "medium")
	if rapid.Bool().Draw(t, "moving") {
		r.Moving, r.Speed = units.Mass(f("mass", 0.01, 0.5)), units.RotationalSpeed(f("speed", 10, 3000))*units.RevPerMinute
	}
	for range rapid.IntRange(0, 2).Draw(t, "more cylinders") {
		r.Cranks = append(r.Cranks, units.Angle(f("crank", -180, 360))*units.Degree)
	}
	if err := r.Validate(); err != nil {
		t.Fatal(err)
	}
	return r
}

// The energy of the moment curve is the work of the cycle, to 1e-9 of the greatest
// that the pressures could do, and so is the closed form of the same from one angle
// to another.
func TestEnergyOfTheMoment(t *testing.T) {
	worst := 0.0
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		m := r.model()
		c, err := r.Cycle()
		if err != nil {
			t.Fatal(err)
		}
		energy, closed := 0.0, 0.0
		all := float64(r.Absolute(r.Chest)) * float64(c.Head.Swept) * float64(r.Cylinders())
		all += m.mass * m.omega * m.omega * m.stroke * m.stroke // what goes in and out of the moving parts
		pieces := m.pieces()
		for i := range pieces {
			p := &pieces[i]
			before := energy
			const parts = 8
			for j := range parts {
				low, high := p.from+(p.to-p.from)*float64(j)/parts, p.from+(p.to-p.from)*float64(j+1)/parts
				energy += quad.Fixed(func(t float64) float64 {
					var at Point
					sin, cos := math.Sincos(t)
					m.at(&at, t, sin, cos)
					return float64(at.Moment)
				}, low, high, 24, quad.Legendre{}, 0)
			}
			given := m.given(p, p.from, p.to)
			near(t, "energy of a piece", (energy-before)/all, given/all, 1e-9)
			closed += given
		}
		work := float64(c.Work) * float64(r.Cylinders())
		near(t, "energy", energy/all, work/all, 1e-9)
		near(t, "energy in closed form", closed/all, work/all, 1e-9)
		worst = max(worst, math.Abs(energy-work)/all)
		turning, err := r.Turning()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean moment", float64(turning.Mean)*2*math.Pi, work, 1e-12*all)
	})
	t.Logf("energy of the moment curve and work are %.2g of ps*V apart at most", worst)
}

// Nothing of the curve at every half degree is above the greatest or below the least,
// and its sign is that of the arcs.
func TestTurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		turning, err := r.Turning()
		if err != nil {
			t.Fatal(err)
		}
		points, err := r.Points(720)
		if err != nil {
			t.Fatal(err)
		}
		span := float64(turning.Greatest.Torque - turning.Least.Torque)
		for _, p := range points {
			if v := float64(p.Moment); v > float64(turning.Greatest.Torque)+1e-9*span || v < float64(turning.Least.Torque)-1e-9*span {
				t.Fatalf("%v at %v is beyond %v and %v", p.Moment, p.Turned, turning.Least, turning.Greatest)
			}
			if math.Abs(float64(p.Moment)) > max(1e-3*span, 1e-12*float64(r.Absolute(r.Chest))) && (p.Moment < 0) != in(turning.Negative, p.Turned) && !edge(turning.Negative, p.Turned) {
				t.Fatalf("%v at %v, negative in %v", p.Moment, p.Turned, turning.Negative)
			}
		}
		ordered(t, turning.Negative)
	})
}

// in reports whether an angle of 0 to 360 degrees is in one of the arcs.
func in(arcs []Arc, at units.Angle) bool {
	for _, a := range arcs {
		if at >= a.From && at <= a.To || at+2*math.Pi >= a.From && at+2*math.Pi <= a.To {
			return true
		}
	}
	return false
}

// edge reports whether an angle is where an arc begins or ends, within a hundredth of
// a degree.
func edge(arcs []Arc, at units.Angle) bool {
	for _, a := range arcs {
		for _, e := range []units.Angle{a.From, a.To} {
			if math.Abs(math.Remainder(float64(e-at), 2*math.Pi)) < 0.01*degree {
				return true
			}
		}
	}
	return false
}

// ordered checks that arcs follow each other within a turn.
func ordered(t *rapid.T, arcs []Arc) {
	t.Helper()
	for i, a := range arcs {
		if !(a.From >= 0 && a.From < 2*math.Pi && a.To > a.From && a.Angle() <= 2*math.Pi+1e-12) || i > 0 && a.From < arcs[i-1].To {
			t.Fatalf("%v", arcs)
		}
	}
}

// Of any engine all answers are numbers, and no pressure is below nothing.
func TestNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		numbers(t, r)
	})
}

func numbers(t interface{ Fatalf(string, ...any) }, r Running) {
	finite := func(what string, all ...float64) {
		for _, v := range all {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: %v of %v", what, all, r)
			}
		}
	}
	c, err := r.Cycle()
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, e := range []EndCycle{c.Head, c.Crank} {
		finite("end", float64(e.Work), float64(e.MeanPressure), e.Expansion, float64(e.Swept), float64(e.Clearance))
		if !(e.Lowest > 0 && e.Lowest <= e.Highest && !math.IsInf(float64(e.Highest), 0)) || e.Expansion < 0 {
			t.Fatalf("%v to %v of %v", e.Lowest, e.Highest, r)
		}
		for _, s := range []State{e.Admission, e.CutOff, e.Release, e.Compression} {
			finite("state", float64(s.Crank), s.Stroke, float64(s.Volume))
			if s.Occurs != (s.Before > 0 && s.After > 0 && s.Volume > 0) || s.Before > e.Highest*(1+1e-9) || s.Before < e.Lowest*(1-1e-9) && s.Occurs {
				t.Fatalf("%v of %v", s, r)
			}
		}
	}
	points, err := r.Points(90)
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, p := range points {
		finite("point", float64(p.Moment), p.Piston)
		for _, end := range []struct {
			p units.Pressure
			e EndCycle
		}{{p.Head, c.Head}, {p.Crank, c.Crank}} {
			if !(end.p >= end.e.Lowest*(1-1e-9) && end.p <= end.e.Highest*(1+1e-9)) {
				t.Fatalf("%v at %v is not within %v to %v of %v", end.p, p.Turned, end.e.Lowest, end.e.Highest, r)
			}
		}
	}
	turning, err := r.Turning()
	finite("turning", float64(turning.Mean), float64(turning.Greatest.Torque), float64(turning.Least.Torque))
	starting, err2 := r.Starting(0)
	finite("starting", float64(starting.Greatest.Torque), float64(starting.Kick))
	forces, err3 := r.Forces(1)
	finite("forces", float64(forces.Rod), float64(forces.Guide), float64(forces.Bearing), float64(forces.Moment))
	if err := errors.Join(err, err2, err3); err != nil {
		t.Fatalf("%v", err)
	}
	list, err := r.Check()
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, f := range list {
		if text := fmt.Sprint(f); text == "" || containsAny(text, "NaN", "Inf", "%!", "-0.00 ", "-0.000") {
			t.Fatalf("%v of %v", f, r)
		}
	}
	if r.Gear.Ports.Length.Sign() > 0 && !r.Gear.InsideAdmission {
		h, err := r.Hold(r.Gear.Ports.Length.Scale(1.5), r.Gear.Ports.Length)
		finite("hold", float64(h.Up), float64(h.Down), float64(h.Turned))
		if err != nil || !(h.Down > 0) || h.Turned < 0 || h.Turned >= 2*math.Pi {
			t.Fatalf("%v, %v", h, err)
		}
	}
	if r.Speed > 0 {
		flow, err := r.PortFlow()
		power, err2 := r.Power()
		finite("flow", float64(flow.Head.Steam), float64(flow.Crank.Exhaust), float64(flow.Head.SteamThrottles), float64(power.Indicated), float64(power.Min))
		if err := errors.Join(err, err2); err != nil {
			t.Fatalf("%v", err)
		}
	}
}

// Two cylinders whose moments cancel, whatever they are, have none: rounding is not told
// as arcs in which the wheel turns the engine, nor as places from which it starts.
func TestMomentsThatCancel(t *testing.T) {
	r := demo()
	r.PistonRod, r.Gear.Valve.Length, r.Gear.Valve.Cavity = units.Length{}, units.MM(24), units.MM(22) // open to exhaust alone
	r.Cranks = []units.Angle{180 * units.Degree}
	turning, starting := got(r.Turning()), got(r.Starting(0))
	if len(turning.Negative) != 0 || len(starting.Starts) != 0 || len(starting.Backwards) != 0 || starting.Kick != 2*math.Pi {
		t.Errorf("%v; %v", turning, starting)
	}
}
