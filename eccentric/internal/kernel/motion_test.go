package kernel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		m := g.Motion()
		at := rapid.Float64Range(-10, 10).Draw(t, "crank")
		near(t, "valve", m.TowardsCrank(m.Valve(at))/g.Travel, stands(&g, at)/g.Travel, 1e-12)
		open, x := m.Openings(at), m.Valve(at)
		if open.Head.Steam > 0 != (x > m.Steam[Head]) || open.Crank.Exhaust > 0 != (x > m.Exhaust[Crank]) ||
			open.Head.Exhaust > m.Port[Head] || open.Crank.Steam > m.Port[Crank] {
			t.Fatalf("openings %+v at %v of %+v", open, x, m)
		}
		share := rapid.Float64Range(0, 1).Draw(t, "share")
		near(t, "piston there and back", m.Piston(m.CrankAt(share))/g.Stroke, share, 1e-10)
		for _, end := range []End{Head, Crank} {
			advance, ok := m.AdvanceFor(0.01*millimetre, end)
			if !ok {
				continue
			}
			set := g
			set.Advance = advance
			_, e := solve(set)
			near(t, "lead in mm", e.At(end).Lead/millimetre, 0.01, 1e-8)
		}
		if advance, ok := m.AdvanceFor(0, Both); ok {
			if m.Late == 0 {
				near(t, "sin d", math.Sin(advance), m.Steam[Both]/m.Reach, 1e-12)
			}
			set := g
			set.Advance = advance
			_, e := solve(set)
			near(t, "mean lead in mm", e.MeanLead()/millimetre, 0, 1e-8)
		}
		set := g
		set.Offset = m.TowardsCrank(m.EqualLeadShift())
		_, e := solve(set)
		near(t, "leads made equal", (e.Head.Lead-e.Crank.Lead)/g.Travel, 0, 1e-12)
		nearest, furthest := g.Sweep()
		near(t, "sweep", (furthest-nearest+g.LostMotion)/g.Travel, 1, 1e-12)
	})
	if _, ok := (&Motion{Reach: 1, Steam: [Ends]float64{0.5, 0.5, 0.5}, EccentricRod: 10}).AdvanceFor(0.6, Head); ok {
		t.Error("a lead beyond the travel")
	}
}

func TestSound(t *testing.T) {
	for name, spoil := range map[string]func(*Gear){
		"no stroke":          func(g *Gear) { g.Stroke = 0 },
		"stroke no number":   func(g *Gear) { g.Stroke = math.NaN() },
		"no rod":             func(g *Gear) { g.ConnectingRod = 0 },
		"rod no number":      func(g *Gear) { g.EccentricRod = math.NaN() },
		"rod beyond 1 km":    func(g *Gear) { g.EccentricRod = 2 * Longest },
		"rod of half stroke": func(g *Gear) { g.ConnectingRod = g.Stroke / 2 },
		"short lever":        func(g *Gear) { g.Lever, g.EccentricRod = 0.5, g.Travel },
		"lever no number":    func(g *Gear) { g.Lever = math.NaN() },
		"long lever":         func(g *Gear) { g.Lever = -11 },
		"cavity":             func(g *Gear) { g.Cavity = g.ValveLength },
		"advance":            func(g *Gear) { g.Advance = 3.2 },
		"offset":             func(g *Gear) { g.Offset = math.Inf(-1) },
		"no port":            func(g *Gear) { g.CrankSteamPort = 0 },
		"no bar":             func(g *Gear) { g.CrankBar = 0 },
		"no land":            func(g *Gear) { g.CavityOffset = -3.2 * millimetre },
		"cavity no number":   func(g *Gear) { g.CavityOffset = math.NaN() },
		"lost backwards":     func(g *Gear) { g.LostMotion = -1 },
		"all lost":           func(g *Gear) { g.LostMotion = g.Travel },
		"lost no number":     func(g *Gear) { g.LostMotion = math.NaN() },
		"chest":              func(g *Gear) { g.Chest = -1 },
	} {
		g := demo()
		if spoil(&g); g.Sound() {
			t.Errorf("%s: %+v", name, g)
		}
	}
	if g := demo(); !g.Sound() {
		t.Error("the demonstration engine is not sound")
	}
}
