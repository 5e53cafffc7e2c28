package kernel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const millimetre = 1e9

// demo is an invented engine; its events were worked out beforehand by scanning
// and bisecting the mechanism.
func demo() Gear {
	return Gear{
		Stroke: 25 * millimetre, ConnectingRod: 63 * millimetre,
		Travel: 6.4 * millimetre, EccentricRod: 60 * millimetre, Advance: 26 * math.Pi / 180,
		SteamPort: 2 * millimetre, Bar: 2.5 * millimetre, MiddlePort: 4 * millimetre,
		CrankSteamPort: 2 * millimetre, CrankBar: 2.5 * millimetre,
		ValveLength: 15.4 * millimetre, Cavity: 9 * millimetre,
	}
}

func solve(g Gear) (Motion, Events) {
	var e Events
	m := g.Motion()
	m.Events(&e)
	return m, e
}

func near(t interface{ Errorf(string, ...any) }, what string, got, want, tolerance float64) {
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g within %.3g", what, got, want, tolerance)
	}
}

func TestDemo(t *testing.T) {
	_, e := solve(demo())
	for _, test := range []struct {
		name      string
		got       Event
		deg, done float64
	}{
		{"head admission", e.Head.Admission, -5.4138, 0.002672},
		{"head cut-off", e.Head.CutOff, 133.4138, 0.869943},
		{"head release", e.Head.Release, 155.5281, 0.963609},
		{"head compression", e.Head.Compression, 332.4719, 0.067226},
		{"crank admission", e.Crank.Admission, -2.5801, 0.000406},
		{"crank cut-off", e.Crank.CutOff, 130.5801, 0.796478},
		{"crank release", e.Crank.Release, 152.4719, 0.932774},
		{"crank compression", e.Crank.Compression, 335.5281, 0.036391},
	} {
		near(t, test.name, test.got.Crank*180/math.Pi, test.deg, 0.00005)
		near(t, test.name+" stroke", test.got.Stroke, test.done, 0.0000005)
	}
	near(t, "head lead", e.Head.Lead/millimetre, 0.27176, 0.000005)
	near(t, "crank lead", e.Crank.Lead/millimetre, 0.13381, 0.000005)
}

func anyGear(t *rapid.T) Gear {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	g := demo()
	g.Travel, g.Advance = f("travel", 2, 12)*millimetre, f("advance", -3.1, 3.1)
	g.ConnectingRod, g.EccentricRod = g.Stroke*f("rod", 0.8, 5), g.Travel*f("eccentric rod", 1, 15)
	switch rapid.IntRange(0, 5).Draw(t, "infinite") {
	case 0:
		g.ConnectingRod = math.Inf(1)
	case 1:
		g.EccentricRod = math.Inf(1)
	}
	g.ValveLength = 2*g.SteamPort + 2*g.Bar + g.MiddlePort + g.Travel*f("steam lap", -0.2, 0.95)
	g.Cavity = 2*g.Bar + g.MiddlePort - g.Travel*f("exhaust lap", -0.2, 0.6)
	if !(g.Cavity > 0 && g.Cavity < g.ValveLength) {
		g.Cavity = 0.9 * g.ValveLength
	}
	g.Offset = g.Travel * f("offset", -0.1, 0.1)
	g.Inside = rapid.Bool().Draw(t, "inside")
	g.Lever = rapid.SampledFrom([]float64{0, -1, 1.2, -0.8}).Draw(t, "lever")
	if rapid.Bool().Draw(t, "as built") {
		g.CrankSteamPort, g.CrankBar = f("crank port", 0.5, 4)*millimetre, f("crank bar", 0.5, 4)*millimetre
		g.CavityOffset = (g.ValveLength - g.Cavity) / 2 * f("cavity offset", -0.9, 0.9)
		g.LostMotion = g.Travel * f("lost motion", 0, 0.9)
	}
	return g
}

// stands returns how far the valve stands from mid-travel towards the crank: of
// what drives it behind by half the lost motion, away from the way in which that
// moves, and no further than the turn that is behind it has taken it.
func stands(g *Gear, t float64) float64 {
	late, reach := g.LostMotion/2, (g.Travel-g.LostMotion)/2
	x := drives(g, t)
	if drives(g, t+1e-9) > drives(g, t-1e-9) {
		return max(x-late, -reach) + g.Offset
	}
	return min(x+late, reach) + g.Offset
}

// drives returns how far a valve that follows without lost motion stands from
// mid-travel towards the crank, by complex numbers and Pythagoras literally: it
// shares no code with the package.
func drives(g *Gear, t float64) float64 {
	ratio := 1.0
	if g.Lever != 0 {
		ratio = g.Lever
	}
	lead := g.Advance + math.Pi/2
	if (g.Lever < 0) != g.Inside {
		lead -= math.Pi
	}
	r := g.Travel / 2 / math.Abs(ratio)
	along, aside := -r*math.Cos(t+lead), r*math.Sin(t+lead)
	slant := 0.0
	if !math.IsInf(g.EccentricRod, 1) {
		slant = g.EccentricRod - math.Sqrt(g.EccentricRod*g.EccentricRod-aside*aside)
	}
	return ratio * (along + slant)
}

// At the angle of each event the edge stands on the edge of the port, on its way
// to the right side, and the piston where the crank and the rod put it.
func TestEventsOfMechanism(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		if !g.Sound() {
			t.Fatalf("%+v is not sound", g)
		}
		m, e := solve(g)
		for _, end := range []End{Head, Crank} {
			way, centre := 1.0, 0.0 // towards opening this end to steam, and its dead centre
			if (end == Crank) != g.Inside {
				way = -1
			}
			if end == Crank {
				centre = math.Pi
			}
			at := e.At(end)
			steam, exhaust := m.Steam[end], m.Exhaust[end]
			for _, event := range []struct {
				Event
				passes float64 // the displacement at the edge
				out    bool    // on the way out
			}{
				{at.Admission, steam, true}, {at.CutOff, steam, false},
				{at.Release, -exhaust, false}, {at.Compression, -exhaust, true},
			} {
				if !event.Occurs {
					if event.Event != (Event{}) || math.Abs(event.passes-way*g.Offset) < (g.Travel-g.LostMotion)/2*(1-1e-9) {
						t.Fatalf("%v end: no event at %v of %+v", end, event.passes, g)
					}
					continue
				}
				seen++
				x := func(turned float64) float64 { return way*stands(&g, centre+event.Crank+turned) - event.passes }
				near(t, "valve at the edge", x(0)/g.Travel, 0, 1e-12)
				rising := x(1e-6) > x(-1e-6)
				if rising != event.out && math.Abs(math.Abs(event.passes)-g.Travel/2) > 1e-6*g.Travel && g.LostMotion == 0 {
					t.Fatalf("%v end: %+v goes the wrong way", end, event)
				}
				share := (1 - math.Cos(event.Crank)) / 2
				if n := g.ConnectingRod / g.Stroke; !math.IsInf(n, 1) {
					slant := n - math.Sqrt(n*n-math.Pow(math.Sin(event.Crank)/2, 2))
					if end == Crank {
						slant = -slant
					}
					share += slant
				}
				near(t, "share of the stroke", event.Stroke, share, 1e-13)
			}
			near(t, "lead", at.Lead/g.Travel, (way*stands(&g, centre)-steam)/g.Travel, 1e-12)
			if a := at.Admission; a.Occurs && !(a.Crank >= -math.Pi && a.Crank < math.Pi && at.CutOff.Crank > a.Crank) {
				t.Fatalf("%v end: admission %v, cut-off %v", end, a.Crank, at.CutOff.Crank)
			}
		}
	})
	if seen == 0 {
		t.Error("no event was seen")
	}
}

// What a former gear left behind is gone.
func TestEventsFillsIn(t *testing.T) {
	m, e := solve(demo())
	want := e
	g := demo()
	g.Travel = 0.2 * millimetre
	other := g.Motion()
	other.Events(&e)
	if e.Head.Steam != NeverOpens || e.Head.Admission != (Event{}) || e.Crank.CutOff != (Event{}) || e.Head.Opening != 0 {
		t.Errorf("%+v", e)
	}
	m.Events(&e)
	if e != want {
		t.Errorf("%+v, want %+v", e, want)
	}
}

func TestEventsDoesNotAllocate(t *testing.T) {
	g := demo()
	var m Motion
	var e Events
	var v Verdicts
	if n := testing.AllocsPerRun(100, func() {
		m.Set(&g)
		m.Events(&e)
		v = g.Judge(&m, &e)
	}); n != 0 || v[BlindArc][Both] != Worth {
		t.Errorf("%v allocations, verdicts %v", n, v)
	}
}

func BenchmarkEvents(b *testing.B) {
	g := demo()
	var m Motion
	var e Events
	b.ReportAllocs()
	for b.Loop() {
		m.Set(&g)
		m.Events(&e)
	}
}
