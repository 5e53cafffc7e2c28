package eccentric

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
)

// Whatever a gear is out of its drawing by, its cures, done with the sizes that their
// sentences print, bring every edge back to where it is drawn to cut, and the sheave
// to its place, to what can be set.
func TestRestored(t *testing.T) {
	cures, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		drawn := anyGear(t)
		if drawn.Validate() != nil {
			return
		}
		g, made := outOf(t, drawn), anyMade(t)
		if g.Validate() != nil {
			return
		}
		list, err := g.Restored(drawn, made)
		if err != nil {
			t.Fatal(err)
		}
		if len(list) == 0 {
			none++
		}
		for i, c := range list {
			cures++
			isAsDrawn(t, carryOut(t, g, c), drawn, c)
			for _, s := range c.Steps {
				canBeDone(t, g, made, s)
			}
			if i > 0 && compareCosts(list[i-1].cost, c.cost) > 0 {
				t.Fatalf("%v\nbefore the cheaper\n%v", list[i-1], c)
			}
		}
	})
	if !testing.Short() && (cures == 0 || none*3 > cures) {
		t.Errorf("%d cures, and none for %d gears", cures, none)
	}
}

// outOf is a gear with one thing out of its drawing.
func outOf(t *rapid.T, g Gear) Gear {
	by := units.Micron(10 * float64(rapid.SampledFrom([]int{-1, 1}).Draw(t, "way")*rapid.IntRange(7, 60).Draw(t, "by")))
	switch rapid.IntRange(0, 7).Draw(t, "what") {
	case 0:
		g.Advance += units.Angle(rapid.IntRange(-170, 170).Draw(t, "turned")) * units.Degree
	case 1:
		g.Valve.Offset = g.Valve.Offset.Add(by)
	case 2:
		g.Travel = g.Travel.Add(by)
	case 3:
		g.Valve.Length = g.Valve.Length.Add(by.Scale(2))
	case 4:
		g.Valve.Cavity = g.Valve.Cavity.Add(by.Scale(2))
	case 5:
		g.Ports.Steam = g.Ports.Steam.Add(by) // its outer edge, of the head end alone
		if g.Ports.CrankSteam.IsZero() {
			g.Ports.CrankSteam = g.Ports.Steam.Sub(by)
		}
	case 6:
		if g.Ports.CrankBar.IsZero() {
			g.Ports.CrankBar = g.Ports.Bar
		}
		if g.Ports.CrankSteam.IsZero() {
			g.Ports.CrankSteam = g.Ports.Steam
		}
		g.Ports.CrankBar, g.Ports.CrankSteam = g.Ports.CrankBar.Add(by), g.Ports.CrankSteam.Sub(by)
	case 7:
		g.Valve.LostMotion = g.Valve.LostMotion.Add(by.Abs())
	}
	return g
}

func isAsDrawn(t *rapid.T, g, drawn Gear, c Cure) {
	t.Helper()
	const cut, set = 0.051, 1.06 // mm, which is what can be set and a rounding; degrees
	if by := inTurn(g.Advance - drawn.Advance).Degrees(); math.Abs(by) > set {
		t.Fatalf("%v\nleaves the sheave %.2f deg out", c, by)
	}
	ports, valve, portsDrawn, valveDrawn := g.portEdges(), g.valveEdges(), drawn.portEdges(), drawn.valveEdges()
	for i := range valve {
		laps := valve[i].Sub(ports[i]).Sub(valveDrawn[i].Sub(portsDrawn[i]))
		if math.Abs(laps.MM()) > 2*cut {
			t.Fatalf("%v\nleaves edge %d %v out of\n%+v", c, i, laps, drawn)
		}
	}
	for name, by := range map[string]units.Length{
		"offset of the sheave": g.EccentricOffset().Sub(drawn.EccentricOffset()), "lost motion": g.Valve.LostMotion.Sub(drawn.Valve.LostMotion),
	} {
		if math.Abs(by.MM()) > cut && !(name == "lost motion" && g.Valve.LostMotion.IsZero()) {
			t.Fatalf("%v\nleaves the %s %v out", c, name, by)
		}
	}
}

// The faults of the demonstration engine, each with its cheapest cure.
func TestRestoredDemo(t *testing.T) {
	made := Made{true, true, true, true}
	for _, test := range []struct {
		name  string
		spoil func(*Gear)
		want  string
		cures int
	}{
		{"slipped back 10 degrees (EC-17)", func(g *Gear) { g.Advance -= 10 * units.Degree },
			"Turn the eccentric on the shaft 10.0 deg forwards, an arc of 0.52 mm", 1},
		{"mirrored", func(g *Gear) { g.Advance = 154 * units.Degree }, "Turn the eccentric on the shaft 128.0 deg backwards", 1},
		{"half a turn out", func(g *Gear) { g.Advance = -154 * units.Degree }, "half round", 1},
		{"off centre", func(g *Gear) { g.Valve.Offset = units.MM(0.3) }, "Move the valve 0.3 mm (11.8 thou) away from the crank", 2},
		{"too long", func(g *Gear) { g.Valve.Length = units.MM(16) }, "Take 0.3 mm (11.8 thou) off each end of the valve", 1},
		{"too short", func(g *Gear) { g.Valve.Length = units.MM(14.8) }, "Let strips into this valve, 0.3 mm (11.8 thou) at each end", 2},
		{"cavity too short", func(g *Gear) { g.Valve.Cavity = units.MM(8.4) }, "Take 0.3 mm (11.8 thou) out of each end of the valve's cavity", 1},
		{"small sheave", func(g *Gear) { g.Travel = units.MM(5.8) }, "Make a new sheave, offset by 3.2 mm", 1},
		{"port too narrow", func(g *Gear) { g.Ports.Steam, g.Ports.CrankSteam = units.MM(1.7), units.MM(2) },
			"Take 0.3 mm (11.8 thou) off the head end of the valve", 2},
		{"port too wide", func(g *Gear) { g.Ports.Steam, g.Ports.CrankSteam = units.MM(2.3), units.MM(2) },
			"Let strips into this valve, 0.3 mm (11.8 thou) at the head end", 2},
		{"lost motion", func(g *Gear) { g.Valve.LostMotion = units.MM(0.3) }, "Take up the lost motion", 1},
		{"as drawn", func(g *Gear) {}, "", 0},
		{"less than can be set", func(g *Gear) { g.Valve.Offset = units.MM(0.04) }, "", 0},
	} {
		g := demo()
		test.spoil(&g)
		list, err := g.Restored(demo(), made)
		if err != nil {
			t.Fatal(err)
		}
		text := ""
		if len(list) > 0 {
			text = list[0].String()
		}
		if len(list) != test.cures || !strings.Contains(text, test.want) {
			t.Errorf("%s: %d cures\n%v\nwant %s", test.name, len(list), list, test.want)
		}
	}
	if _, err := (Gear{}).Restored(demo(), made); err == nil {
		t.Error("no gear is put back")
	}
	if _, err := demo().Restored(Gear{}, made); err == nil {
		t.Error("a gear is put back to no drawing")
	}
}
