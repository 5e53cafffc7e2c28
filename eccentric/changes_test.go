package eccentric

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// sizesOf writes lengths in millimetres to a picometre.
func sizesOf(all []units.Length) string {
	var texts []string
	for _, l := range all {
		texts = append(texts, trim(l.Decimal(units.Millimetres, 9)))
	}
	return strings.Join(texts, " ")
}

// Laps and travels that are worth trying, by hand: half the travel 3.2, its sine at 26
// degrees 1.402787670, ports 2, bars 2.5, a middle port of 4, S 1.2 and E 0. A quarter of
// the bar is just covered at a travel of 10.15, and the middle port just open by 2 mm at
// 9; from a picometre more on there is one thing more to try.
func TestWorthTrying(t *testing.T) {
	pm := units.Picometres(1)
	for _, test := range []struct {
		name                    string
		gear                    func(*Gear)
		steam, exhaust, travels string
	}{
		{"as it is", func(*Gear) {}, "1.20278767 1.40278767 0 1.2 2.19", "0 1.2", "6.4 4.42 6.4 4.42"},
		{"bars just covered", func(g *Gear) { g.Travel = units.MM(10.15) }, "2.02473357 2.22473357 0 3.075 4.065", "0 3.075 -0.575",
			"6.4 4.42 6.4 4.42 9"},
		{"bars not quite", func(g *Gear) { g.Travel = units.MM(10.15).Add(pm.Scale(2)) },
			"2.02473357 2.22473357 0 3.075000001 4.065000001 1.200000001", "0 3.075000001 -0.575000001", "6.4 4.42 6.4 4.42 9"},
		{"middle just open", func(g *Gear) { g.Travel = units.MM(9) }, "1.772670161 1.972670161 0 2.5 3.49", "0 2.5", "6.4 4.42 6.4 4.42"},
		{"middle not quite", func(g *Gear) { g.Travel = units.MM(9).Add(pm.Scale(2)) },
			"1.772670161 1.972670161 0 2.500000001 3.490000001", "0 2.500000001 -0.000000001", "6.4 4.42 6.4 4.42 9"},
		{"ports just opened", func(g *Gear) { g.Travel = units.MM(4) }, "0.676742294 0.876742294 0 0.99", "0", "6.4 4.42 6.4 4.42"},
		{"no lap, play, off centre", func(g *Gear) {
			g.Valve.Length, g.Valve.Offset, g.Valve.LostMotion = units.MM(12.8), units.MM(0.2), units.MM(0.4)
		}, "1.00278767 1.20278767 0 1 1.99", "0 0.1 1", "4.8 2.82 4.8 2.82"},
		{"the other way", func(g *Gear) { g.Advance = -g.Advance }, "0 1.2 2.19", "0 1.2", "6.4 4.42 6.4 4.42"},
		{"inside", func(g *Gear) {
			g.InsideAdmission, g.Valve.Length, g.Valve.Cavity, g.Travel = true, units.MM(13), units.MM(6.6), units.MM(9)
		}, "1.772670161 1.972670161 0 2.5 3.49", "0 2.5 0.625", "6.4 4.42 6.4 4.42 6.6"},
	} {
		g := endlessDemo()
		test.gear(&g)
		if got := sizesOf(steamLaps(g)); got != test.steam {
			t.Errorf("%s: steam laps %s, want %s", test.name, got, test.steam)
		}
		if got := sizesOf(exhaustLaps(g)); got != test.exhaust {
			t.Errorf("%s: exhaust laps %s, want %s", test.name, got, test.exhaust)
		}
		if got := sizesOf(travels(g)); got != test.travels {
			t.Errorf("%s: travels %s, want %s", test.name, got, test.travels)
		}
	}
	if !(Alteration{}).IsZero() || (Alteration{Shims: pm}).IsZero() || (Alteration{ConnectingRod: pm}).IsZero() || (Alteration{EccentricRod: pm}).IsZero() {
		t.Error("an alteration of nothing")
	}
}

// A valve of other laps has them: at both ends where they are alike, and where the ends
// differ at both, at each, or as their mean.
func TestLapped(t *testing.T) {
	steam, exhaust := units.MM(1.5), units.MM(0.3)
	for _, inside := range []bool{false, true} {
		g := demo()
		if g.InsideAdmission = inside; inside {
			g.Valve = Valve{Length: units.MM(13), Cavity: units.MM(6.6)}
		}
		for _, one := range []struct{ steam, exhaust *units.Length }{{&steam, nil}, {nil, &exhaust}, {&steam, &exhaust}} {
			all := lapped(g, one.steam, one.exhaust)
			want := g.Laps()
			if one.steam != nil {
				want.Steam = steam
			}
			if one.exhaust != nil {
				want.Exhaust = exhaust
			}
			if len(all) != 1 || all[0].LapsAt(HeadEnd) != want || all[0].LapsAt(CrankEnd) != want {
				t.Errorf("inside %v: %v of %v", inside, all, want)
			}
			differ := g
			differ.Ports.CrankSteam, differ.Ports.CrankBar = units.MM(2.2), units.MM(2.4)
			head, crank := differ.LapsAt(HeadEnd), differ.LapsAt(CrankEnd)
			set := func(l Laps) Laps {
				if one.steam != nil {
					l.Steam = steam
				}
				if one.exhaust != nil {
					l.Exhaust = exhaust
				}
				return l
			}
			all = lapped(differ, one.steam, one.exhaust)
			if len(all) != 4 {
				t.Fatalf("%d gears", len(all))
			}
			for i, want := range [][2]Laps{{set(head), set(crank)}, {set(head), crank}, {head, set(crank)}} {
				// The laps of a valve as it stands: LapsAt has them of one in the middle.
				if got := [2]Laps{lapsThere(all[i], HeadEnd), lapsThere(all[i], CrankEnd)}; got != want {
					t.Errorf("inside %v, ends that differ, %d: %v, want %v", inside, i, got, want)
				}
			}
		}
	}
}

// lapsThere returns the laps of one end with the valve as it stands, without what it is off.
func lapsThere(g Gear, end End) Laps {
	e, p := g.valveEdges(), g.portEdges()
	outer, inner := p[outerHead].Sub(e[outerHead]), e[innerHead].Sub(p[innerHead])
	if end == CrankEnd {
		outer, inner = e[outerCrank].Sub(p[outerCrank]), p[innerCrank].Sub(e[innerCrank])
	}
	if g.InsideAdmission {
		return Laps{Steam: inner, Exhaust: outer}
	}
	return Laps{Steam: outer, Exhaust: inner}
}
