package indicator

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// got is for calls that cannot fail for an engine that is sound.
func got[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// At the dead centres the parts want m*R*w^2*(1 +- R/L), and at the speeds from which
// they knock that is what the pressures push with.
func TestInertia(t *testing.T) {
	r := demo()
	r.Moving, r.PistonRod = 0.2*units.Kilogram, units.MM(5)
	i, err := r.Inertia()
	if err != nil {
		t.Fatal(err)
	}
	const crank, rod = 0.0125, 0.063
	w := 300 * math.Pi / 30
	near(t, "head end", float64(i.Head), 0.2*crank*w*w*(1+crank/rod), 1e-9)
	near(t, "crank end", float64(i.Crank), 0.2*crank*w*w*(1-crank/rod), 1e-9)
	for _, at := range []struct {
		turned units.Angle
		knocks units.RotationalSpeed
	}{{1e-9, i.HeadKnocks}, {math.Pi + 1e-9, i.CrankKnocks}} {
		r.Speed = at.knocks
		f := got(r.Forces(at.turned))
		near(t, "nothing is left for the pin, N", float64(f.Pin), 0, 1e-6*math.Abs(float64(f.Pressure)))
		if at.knocks < 500*units.RevPerMinute {
			t.Errorf("knocks from %v", at.knocks)
		}
	}
	r.Gear.Valve.Length = units.MM(22) // never opens
	if i, err := r.Inertia(); err != nil || i.HeadKnocks < 0 || i.CrankKnocks < 0 {
		t.Errorf("%v, %v", i, err)
	}
}

// The forces of a cylinder fit together at any angle: pin, guide and rod are a right
// triangle, and so are tangential, bearing and rod; the moment is that of the curve.
func TestForcesFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		r.Cranks = nil
		at := units.Angle(rapid.Float64Range(-7, 7).Draw(t, "at"))
		f, p := got(r.Forces(at)), got(r.At(at))
		all := math.Abs(float64(f.Rod)) + math.Abs(float64(f.Pressure)) + 1e-9
		near(t, "rod", math.Hypot(float64(f.Pin), float64(f.Guide)), math.Abs(float64(f.Rod)), 1e-9*all)
		near(t, "crank", math.Hypot(float64(f.Tangential), float64(f.Bearing)), math.Abs(float64(f.Rod)), 1e-9*all)
		radius := r.Gear.Stroke.MM() / 2000
		near(t, "moment", float64(f.Tangential)*radius, float64(f.Moment), 1e-9*all*radius)
		near(t, "moment of the curve", float64(p.Moment), float64(f.Moment), 1e-9*all*radius)
		near(t, "pin", float64(f.Pressure-f.Inertia), float64(f.Pin), 1e-9*all)
	})
}

// Each end has its own clearance, area and pressures.
func TestEnds(t *testing.T) {
	r := demo()
	r.Clearance = Shares{0.05, 0.2}
	c := got(r.Cycle())
	near(t, "area at the head end, mm2", c.Head.Area.In(units.SquareMillimetre), math.Pi*100, 1e-9)
	near(t, "area at the crank end, mm2", c.Crank.Area.In(units.SquareMillimetre), math.Pi*(100-6.25), 1e-9)
	for _, end := range []struct {
		e     EndCycle
		share float64
	}{{c.Head, 0.05}, {c.Crank, 0.2}} {
		near(t, "swept", float64(end.e.Swept), float64(end.e.Area)*0.025, 1e-15)
		near(t, "clearance", float64(end.e.Clearance), end.share*float64(end.e.Swept), 1e-15)
		near(t, "expansion", end.e.Expansion, (end.share+end.e.Release.Stroke)/(end.share+end.e.CutOff.Stroke), 1e-12)
		near(t, "at release", float64(end.e.Release.Before), 3.01325e5*math.Pow(end.e.Expansion, -1.2), 1e-6)
		near(t, "after", float64(end.e.Release.After), 1.01325e5, 0)
		squeezed := (end.share + end.e.Compression.Stroke) / (end.share + end.e.Admission.Stroke)
		near(t, "at admission", float64(end.e.Admission.Before), 1.01325e5*math.Pow(squeezed, 1.2), 1e-6)
	}
	if c.At(eccentric.HeadEnd) != c.Head || c.At(eccentric.CrankEnd) != c.Crank {
		t.Error("At has the wrong end")
	}
	twin := r
	twin.Cranks = []units.Angle{1}
	near(t, "power of two", float64(got(twin.Power()).Indicated), 2*float64(got(r.Power()).Indicated), 1e-12)
	near(t, "power", float64(got(r.Power()).Indicated), float64(c.Work)*5, 1e-12)
	r.Gear.Advance = -90 * units.Degree
	if p := got(r.Power()); p.Min != 0 || p.Max != 0 || p.Indicated >= 0 {
		t.Errorf("a brake gives %v", p)
	}
}

// In and out of ports that open differently, and the way that is told of.
func TestPortFlowOut(t *testing.T) {
	r := demo()
	r.Gear.Valve.Cavity = units.MM(6) // opens 1.5 mm less to exhaust
	r.Speed = 2000 * units.RevPerMinute
	flow, events := got(r.PortFlow()), got(r.Gear.Events())
	for _, end := range []struct {
		flow EndFlow
		e    eccentric.EndEvents
		area float64
	}{{flow.Head, events.Head, 100 * math.Pi}, {flow.Crank, events.Crank, 93.75 * math.Pi}} {
		mean := 2 * 0.025 * 2000 / 60.0
		near(t, "in", float64(end.flow.Steam), mean*end.area/(end.e.Opening.MM()*10), 1e-9)
		near(t, "out", float64(end.flow.Exhaust), mean*end.area/(end.e.ExhaustOpening.MM()*10), 1e-9)
		near(t, "throttles", float64(end.flow.ExhaustThrottles/r.Speed), float64(throttling/end.flow.Exhaust), 1e-12)
	}
	list := got(r.Check())
	if i := slices.IndexFunc(list, func(f finding.Finding) bool { return f.Code == PortsThrottle }); i < 0 || !strings.Contains(list[i].Text, "out by the port") {
		t.Errorf("%v", list)
	}
	if _, err := r.Throttled(flow.Head.Exhaust * 0.92); err == nil || !strings.Contains(err.Error(), "to exhaust") {
		t.Errorf("throttles all the way: %v", err)
	}
}

// The hold is the least that a walk round the turn finds, from the openings and the
// pressures of the public methods.
func TestHold(t *testing.T) {
	governs := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		r := anyRunning(t)
		r.Gear.InsideAdmission = false
		if r.Gear.Validate() != nil {
			t.Skip("no gear")
		}
		width, cavity := r.Gear.Ports.Length.Scale(1.4), r.Gear.Ports.Length.Scale(1.1)
		h, c := got(r.Hold(width, cavity)), got(r.Cycle())
		back := float64(r.Absolute(r.Back))
		under := r.Gear.Valve.Cavity.MM() * cavity.MM() * 1e-6
		most, why := math.Inf(-1), ""
		try := func(at units.Angle, inCavity float64, name string) {
			open, p := got(r.Gear.OpeningsAt(at)), got(r.At(at))
			head, _ := r.Gear.Ports.At(eccentric.HeadEnd)
			crank, _ := r.Gear.Ports.At(eccentric.CrankEnd)
			length := r.Gear.Ports.Length.MM() * 1e-6
			if math.Min(open.Head.Steam.MM(), open.Head.Exhaust.MM()) > 0 || math.Min(open.Crank.Steam.MM(), open.Crank.Exhaust.MM()) > 0 {
				inCavity, name = float64(r.Absolute(r.Chest)), "open to both"
			}
			up := (inCavity-back)*under +
				(float64(p.Head)-back)*math.Max(0, head.MM()-open.Head.Steam.MM()-open.Head.Exhaust.MM())*length +
				(float64(p.Crank)-back)*math.Max(0, crank.MM()-open.Crank.Steam.MM()-open.Crank.Exhaust.MM())*length
			if up > most {
				most, why = up, name
			}
		}
		for i := range 720 {
			try(units.Angle(i)*units.Degree/2, back, "course")
		}
		if c.Head.Release.Occurs {
			try(c.Head.Release.Crank-1e-9, math.Max(back, float64(c.Head.Release.Before)), "head release")
		}
		if c.Crank.Release.Occurs {
			try(c.Crank.Release.Crank+math.Pi-1e-9, math.Max(back, float64(c.Crank.Release.Before)), "crank release")
		}
		if c.Head.Admission.Occurs {
			try(c.Head.Admission.Crank-1e-9, back, "head admission")
		}
		if c.Crank.Admission.Occurs {
			try(c.Crank.Admission.Crank+math.Pi-1e-9, back, "crank admission")
		}
		governs[why]++
		near(t, "up", float64(h.Up), most, 1e-6*(math.Abs(most)+1))
		near(t, "down", float64(h.Down), float64(r.Chest-r.Back)*r.Gear.Valve.Length.MM()*width.MM()*1e-6, 1e-9)
		if h.Lifts != (h.Up > h.Down) {
			t.Errorf("%v", h)
		}
	})
	t.Logf("where the valve is held the least: %v", governs)
}
