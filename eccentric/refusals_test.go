package eccentric

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// endlessDemo is the demonstration with endless rods, which any stroke and travel suits.
func endlessDemo() Gear {
	g := demo()
	g.ConnectingRod, g.EccentricRod = InfiniteRod(), InfiniteRod()
	return g
}

// lengthsOf are the lengths of a gear by the names that a refusal has for them.
func lengthsOf(g *Gear) map[string]*units.Length {
	return map[string]*units.Length{
		"stroke": &g.Stroke, "valve travel": &g.Travel, "steam port width": &g.Ports.Steam, "bar width": &g.Ports.Bar,
		"exhaust port width": &g.Ports.Exhaust, "valve length": &g.Valve.Length, "valve cavity": &g.Valve.Cavity,
		"port length": &g.Ports.Length, "chest length": &g.Chest, "valve offset": &g.Valve.Offset,
		"steam port width of the crank end": &g.Ports.CrankSteam, "bar width of the crank end": &g.Ports.CrankBar,
		"lost motion": &g.Valve.LostMotion, "cavity offset": &g.Valve.CavityOffset,
	}
}

const kilometre = 1e15 // in picometres

// Every size is accepted up to its limit, and a picometre beyond it refused by its
// name. The limits are of geometry, but for the kilometre, which is our own.
func TestGearAtItsLimits(t *testing.T) {
	const length, cavity, travel = 15.4e9, 9e9, 6.4e9 // of the demonstration
	for _, test := range []struct {
		field   string
		in, out int64 // picometres
		named   string
	}{
		{"stroke", 1, 0, "stroke: missing or zero"}, {"stroke", 1, -1, "stroke -0.000000001 mm"},
		{"stroke", kilometre, kilometre + 1, "beyond 1 km"},
		{"valve travel", 1, 0, "valve travel: missing"}, {"valve travel", 1, -1, "valve travel -"},
		{"valve travel", kilometre, kilometre + 1, "beyond 1 km"},
		{"steam port width", 1, 0, "steam port width: missing"}, {"steam port width", 1, -1, "steam port width -"},
		{"steam port width", kilometre, kilometre + 1, "beyond 1 km"},
		{"bar width", 1, 0, "bar width: missing"}, {"bar width", kilometre, kilometre + 1, "beyond 1 km"},
		{"exhaust port width", 1, 0, "exhaust port width: missing"},
		{"exhaust port width", kilometre, kilometre + 1, "beyond 1 km"},
		{"valve length", cavity + 1, cavity, "valve cavity 9 mm"}, {"valve length", kilometre, kilometre + 1, "beyond 1 km"},
		{"valve cavity", 1, 0, "valve cavity: missing"}, {"valve cavity", length - 1, length, "shorter than the valve, 15.4 mm"},
		{"port length", 0, -1, "port length -"}, {"port length", kilometre, kilometre + 1, "beyond 1 km"},
		{"chest length", 0, -1, "chest length -"}, {"chest length", kilometre, kilometre + 1, "beyond 1 km"},
		{"valve offset", kilometre, kilometre + 1, "beyond 1 km"}, {"valve offset", -kilometre, -kilometre - 1, "beyond 1 km"},
		{"steam port width of the crank end", 0, -1, "steam port width of the crank end -"},
		{"steam port width of the crank end", kilometre, kilometre + 1, "beyond 1 km"},
		{"bar width of the crank end", 0, -1, "bar width of the crank end -"},
		{"bar width of the crank end", kilometre, kilometre + 1, "beyond 1 km"},
		{"lost motion", 0, -1, "lost motion -"}, {"lost motion", travel - 1, travel, "less than the travel, 6.4 mm"},
		{"cavity offset", (length-cavity)/2 - 1, (length - cavity) / 2, "less than 3.2 mm either way"},
		{"cavity offset", 1 - (length-cavity)/2, (cavity - length) / 2, "less than 3.2 mm either way"},
	} {
		g := endlessDemo()
		*lengthsOf(&g)[test.field] = units.Picometres(test.in)
		if _, err := g.Events(); err != nil || g.Validate() != nil {
			t.Errorf("%s of %d: %v", test.field, test.in, err)
		}
		*lengthsOf(&g)[test.field] = units.Picometres(test.out)
		_, fromEvents := g.Events()
		for _, err := range []error{g.Validate(), fromEvents} {
			var bad *units.ArgumentError
			if !errors.As(err, &bad) || !strings.Contains(err.Error(), test.named) || strings.Contains(err.Error(), "\n") {
				t.Errorf("%s of %d: %v", test.field, test.out, err)
			}
		}
	}
}

// A rod turns its crank over where it is longer than half of what it drives, or with a
// lever than that over its ratio; the advance is of half a turn either way, and a lever
// of one to ten.
func TestRodsAndAnglesAtTheirLimits(t *testing.T) {
	above := func(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }
	rod := func(l int64) Rod { return RodOf(units.Picometres(l)) }
	for _, test := range []struct {
		name    string
		in, out func(*Gear)
		named   string
	}{
		{"connecting rod", func(g *Gear) { g.ConnectingRod = rod(12.5e9 + 1) }, func(g *Gear) { g.ConnectingRod = rod(12.5e9) },
			"longer than half the stroke, 12.5 mm"},
		{"connecting rod", func(g *Gear) { g.ConnectingRod = rod(kilometre) }, func(g *Gear) { g.ConnectingRod = rod(kilometre + 1) },
			"beyond 1 km"},
		{"eccentric rod", func(g *Gear) { g.EccentricRod = rod(3.2e9 + 1) }, func(g *Gear) { g.EccentricRod = rod(3.2e9) },
			"longer than the offset of the sheave, 3.2 mm"},
		{"eccentric rod", func(g *Gear) { g.EccentricRod = rod(kilometre) }, func(g *Gear) { g.EccentricRod = rod(kilometre + 1) },
			"beyond 1 km"},
		{"with a lever", func(g *Gear) { g.EccentricRod, g.LeverRatio = rod(1.6e9+1), -2 },
			func(g *Gear) { g.EccentricRod, g.LeverRatio = rod(1.6e9), -2 }, "longer than the offset of the sheave, 1.6 mm"},
		{"no rod", func(*Gear) {}, func(g *Gear) { g.ConnectingRod = Rod{} }, "connecting rod: missing"},
		{"no eccentric rod", func(*Gear) {}, func(g *Gear) { g.EccentricRod = Rod{} }, "eccentric rod: missing"},
		{"advance", func(g *Gear) { g.Advance = math.Pi }, func(g *Gear) { g.Advance = units.Angle(above(math.Pi)) }, "angle of advance"},
		{"advance", func(g *Gear) { g.Advance = -math.Pi }, func(g *Gear) { g.Advance = -units.Angle(above(math.Pi)) }, "angle of advance"},
		{"lever", func(g *Gear) { g.LeverRatio = 10 }, func(g *Gear) { g.LeverRatio = above(10) }, "lever ratio"},
		{"lever", func(g *Gear) { g.LeverRatio = -10 }, func(g *Gear) { g.LeverRatio = -above(10) }, "lever ratio"},
		{"lever", func(g *Gear) { g.LeverRatio = 0.1 }, func(g *Gear) { g.LeverRatio = -above(-0.1) }, "lever ratio"},
		{"lever", func(g *Gear) { g.LeverRatio = -0.1 }, func(g *Gear) { g.LeverRatio = above(-0.1) }, "lever ratio"},
	} {
		g := demo()
		if test.in(&g); g.Validate() != nil {
			t.Errorf("%s: %v", test.name, g.Validate())
		}
		g = demo()
		test.out(&g)
		if err := g.Validate(); err == nil || !strings.Contains(err.Error(), test.named) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", test.name, err)
		}
	}
	// A length that is less than nothing by far is refused, and nothing is worked out with it.
	g := demo()
	g.Valve.Length = units.Picometres(math.MinInt64)
	if err := g.Validate(); err == nil || !strings.Contains(err.Error(), "valve length") || strings.Contains(err.Error(), "\n") {
		t.Error(err)
	}
}

// Whatever the sizes, the sentences of Validate and the one condition of the kernel
// agree on which gear can be.
func TestValidateAgreesWithTheKernel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := endlessDemo()
		sizes := lengthsOf(&g)
		for range rapid.IntRange(0, 3).Draw(t, "other sizes") {
			name := rapid.SampledFrom(slices.Sorted(maps.Keys(sizes))).Draw(t, "size")
			usual := sizes[name].Picometres()
			edges := []int64{max(usual, math.MinInt64+1) - 1, min(usual, math.MaxInt64-1) + 1, 0, 1, -1, kilometre, kilometre + 1, -kilometre - 1, 15.4e9, 6.4e9, 3.2e9, 3.2e9 - 1,
				math.MaxInt64, math.MinInt64}
			*sizes[name] = units.Picometres(rapid.SampledFrom(edges).Draw(t, name))
		}
		if rapid.Bool().Draw(t, "rods") {
			lengths := rapid.SampledFrom([]int64{3.2e9, 3.2e9 + 1, 12.5e9, 12.5e9 + 1, 1, 0, -1, kilometre, kilometre + 1})
			g.ConnectingRod, g.EccentricRod = RodOf(units.Picometres(lengths.Draw(t, "rod"))), RodOf(units.Picometres(lengths.Draw(t, "other")))
		}
		g.LeverRatio = rapid.SampledFrom([]float64{0, 0, 0, 1, -2, 0.1, 11, math.NaN()}).Draw(t, "lever")
		k := g.Kernel()
		want := k.Sound() && g.Ports.Length.Sign() >= 0 && g.Ports.Length.Picometres() <= kilometre
		if err := g.Validate(); (err == nil) != want {
			t.Fatalf("sound %v: %v\n%v", want, err, g)
		}
	})
}

// What is refused of wishes, rooms and alterations, and how it is said.
func TestRefusalsKept(t *testing.T) {
	var text strings.Builder
	say := func(name string, err error) {
		fmt.Fprintf(&text, "%s: %s\n", name, strings.ReplaceAll(fmt.Sprint(err), "\n", "\n  "))
	}
	say("no gear at all", Gear{}.Validate())
	usual := Wish{CutOff: 0.75, Opening: units.MM(2), Gear: Gear{
		Stroke: units.MM(25), ConnectingRod: RodOf(units.MM(63)), EccentricRod: RodOf(units.MM(60)),
	}}
	for _, test := range []struct {
		name string
		wish func(*Wish)
	}{
		{"nothing", func(w *Wish) { *w = Wish{} }}, {"a usual one", func(*Wish) {}},
		{"negative", func(w *Wish) {
			w.Gear.Travel, w.Opening, w.Step, w.Bore, w.Gear.Chest = units.MM(-1), units.MM(-1), units.MM(-1), units.MM(-1), units.MM(-1)
			w.Gear.Valve.LostMotion, w.Gear.Ports = units.MM(-1), Ports{units.MM(-1), units.MM(-1), units.MM(-1), units.MM(-1), units.MM(-1), units.MM(-1)}
		}},
		{"beyond", func(w *Wish) {
			far := units.Picometres(kilometre + 1)
			w.Lead, w.ExhaustLap, w.Gear.Valve.Offset, w.Gear.Valve.CavityOffset = far, far, far.Neg(), far
		}},
		{"as far as may be", func(w *Wish) { w.Lead = units.Picometres(-kilometre) }},
		{"rods", func(w *Wish) { w.Gear.ConnectingRod, w.Gear.EccentricRod = Rod{}, Rod{} }},
		{"short rods", func(w *Wish) {
			w.Opening, w.Gear.Travel = units.Length{}, units.MM(7)
			w.Gear.ConnectingRod, w.Gear.EccentricRod = RodOf(units.MM(12.5)), RodOf(units.MM(3.5))
		}},
		{"lever", func(w *Wish) { w.Gear.LeverRatio = 11 }},
		{"crank end alone", func(w *Wish) { w.Gear.Ports.CrankSteam, w.Gear.Ports.CrankBar = units.MM(2), units.MM(2) }},
		{"cut-off 0", func(w *Wish) { w.CutOff = 0 }}, {"cut-off 1", func(w *Wish) { w.CutOff = 1 }},
		{"cut-off 75", func(w *Wish) { w.CutOff = 75 }}, {"end", func(w *Wish) { w.CutOffAt = 3 }},
		{"compression 1", func(w *Wish) { w.Compression = 1 }}, {"compression -0.1", func(w *Wish) { w.Compression = -0.1 }},
		{"both laps", func(w *Wish) { w.Compression, w.ExhaustLap = 0.08, units.MM(0.2) }},
		{"both sizes", func(w *Wish) { w.Gear.Travel = units.MM(7) }},
		{"both equal", func(w *Wish) { w.EqualLead, w.EqualCutOff = true, true }},
		{"advance", func(w *Wish) { w.Gear.Advance = 1e-9 }}, {"length", func(w *Wish) { w.Gear.Valve.Length = units.MM(1) }},
		{"cavity", func(w *Wish) { w.Gear.Valve.Cavity = units.MM(1) }},
		{"speed", func(w *Wish) { w.Speed = -1 }}, {"speed 1e6", func(w *Wish) { w.Speed = 1e6 }},
		{"speed above", func(w *Wish) { w.Speed = 1.1e6 }}, {"speed none", func(w *Wish) { w.Speed = units.RotationalSpeed(math.NaN()) }},
		{"no opening", func(w *Wish) { w.Opening = units.Length{} }},
		{"no opening, bore", func(w *Wish) { w.Opening, w.Bore = units.Length{}, units.MM(20) }},
		{"no opening, speed", func(w *Wish) { w.Opening, w.Speed = units.Length{}, 30 }},
		{"lead as the opening", func(w *Wish) { w.Lead = units.MM(2) }}, {"lead above it", func(w *Wish) { w.Lead = units.MM(9) }},
		{"early cut-off", func(w *Wish) { w.CutOff = 0.1 }}, {"late cut-off", func(w *Wish) { w.CutOff = 0.9999 }},
		{"late cut-off of a travel", func(w *Wish) { w.Opening, w.Gear.Travel, w.CutOff = units.Length{}, units.MM(7), 0.9999 }},
		{"late, lead", func(w *Wish) { w.CutOff, w.Lead = 0.97, units.MM(0.5) }},
		{"much compression", func(w *Wish) { w.Compression = 0.9 }}, {"little compression", func(w *Wish) { w.Compression = 1e-4 }},
		{"much lap", func(w *Wish) { w.ExhaustLap = units.MM(9) }}, {"much clearance", func(w *Wish) { w.ExhaustLap = units.MM(-9) }},
		{"far off", func(w *Wish) { w.Gear.Valve.CavityOffset = units.MM(9) }},
		{"no cavity", func(w *Wish) {
			w.Gear.Ports = Ports{Steam: units.MM(2), Bar: units.MM(0.5), Exhaust: units.MM(1)}
			w.ExhaustLap = units.MM(1.5)
		}},
		{"no cavity, compression", func(w *Wish) {
			w.Gear.Ports, w.Compression = Ports{Steam: units.MM(2), Bar: units.MM(0.5), Exhaust: units.MM(1)}, 0.3
		}},
		{"step of a metre", func(w *Wish) { w.Step = units.MM(1000) }},
	} {
		w := usual
		test.wish(&w)
		_, _, err := Design(w)
		say("wish: "+test.name, err)
	}
	for _, test := range []struct {
		name  string
		spoil func(*Room)
	}{
		{"nothing", func(r *Room) { *r = Room{} }},
		{"negative", func(r *Room) {
			r.Length, r.Piston, r.Gaskets, r.Wear, r.Least = units.MM(-1), units.MM(-1), units.MM(-1), units.MM(-1), units.MM(-1)
		}},
		{"zero", func(r *Room) {
			r.Gaskets, r.Wear, r.Least, r.Shift = units.Length{}, units.Length{}, units.Length{}, units.Length{}
		}},
		{"a km", func(r *Room) { r.Length, r.Shift = units.Picometres(kilometre), units.Picometres(-kilometre) }},
		{"beyond", func(r *Room) { r.Shift = units.Picometres(-kilometre - 1) }},
		{"piston as long", func(r *Room) { r.Piston = r.Length }},
		{"piston a hair shorter", func(r *Room) { r.Piston = r.Length.Sub(units.Picometres(1)) }},
	} {
		r := room()
		test.spoil(&r)
		say("room: "+test.name, r.Validate())
	}
	for _, a := range []Alteration{
		{}, {Shims: units.Picometres(kilometre + 1)}, {ConnectingRod: units.MM(-63)}, {ConnectingRod: units.MM(-50)},
		{EccentricRod: units.MM(-60)}, {EccentricRod: units.MM(-57)}, {EccentricRod: units.Picometres(-kilometre - 1)},
		{ConnectingRod: units.Picometres(kilometre)}, {EccentricRod: units.MM(-62.3)},
	} {
		_, err := demo().Altered(a)
		say(fmt.Sprintf("alteration: shims %v connecting rod %v eccentric rod %v", a.Shims, a.ConnectingRod, a.EccentricRod), err)
	}
	check.Kept(t, "eccentric/kept/refusals.txt", text.String())
}
