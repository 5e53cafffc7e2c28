package eccentric

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func TestCheckLongCavityComesFirst(t *testing.T) {
	g := demo()
	g.Valve.Cavity = units.MM(11.8)
	first := findings(t, g)[0]
	if first.Code != NarrowLand || !strings.Contains(first.Text, "cavity") ||
		!strings.Contains(first.told(), "Shortening the valve does not cure it") {
		t.Errorf("first finding %v", first)
	}
	// The same scan and bisection as for the demonstration engine.
	e := events(t, g)
	near(t, "head release", e.Head.Release.Crank.Degrees(), 129.4541, 0.00005)
	near(t, "exhaust lap", g.Laps().Exhaust.MM(), -1.4, 0)
	// Shortening the valve makes it worse.
	g.Valve.Length = units.MM(15)
	if worse, _ := find(findings(t, g), NarrowLand, BothEnds); worse.Amount.Cmp(first.Amount) <= 0 {
		t.Errorf("shortened: %v, was %v", worse.Amount, first.Amount)
	}
}

func TestCheckInsideAdmission(t *testing.T) {
	// A piston valve with the laps of the demonstration engine has the same
	// faults at the other edges.
	g := demo()
	g.InsideAdmission, g.Advance = true, 26*units.Degree
	g.Valve = Valve{Length: units.MM(13), Cavity: units.MM(6.6)} // exhaust lap 0, steam lap 1.2
	if laps := g.Laps(); laps != (Laps{units.MM(1.2), units.Length{}}) {
		t.Fatalf("laps %v", laps)
	}
	for _, f := range findings(t, g) {
		if f.Severity == finding.Fails {
			t.Errorf("sound piston valve: %v", f)
		}
	}
	g.Valve.Length = units.MM(10.2) // exhaust lap -1.4
	f, ok := find(findings(t, g), NarrowLand, BothEnds)
	if !ok || !strings.Contains(f.Text, "valve, 10.2 mm") || !strings.Contains(f.told(), "at least 13 mm") {
		t.Errorf("%v", f)
	}
}
