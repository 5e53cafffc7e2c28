package eccentric

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// follow does to a gear what the sentences of a remedy say, with the sizes that
// they print.
func follow(t tester, g Gear, remedy string) Gear {
	t.Helper()
	size := func(pattern string, set func(units.Length)) {
		if m := regexp.MustCompile(pattern).FindStringSubmatch(remedy); m != nil {
			l, err := units.ParseLength(m[1] + " mm")
			if err != nil {
				t.Fatal(err)
			}
			set(l)
		}
	}
	if m := regexp.MustCompile(`ove the valve ([\d.]+) mm \([^)]*\) (towards|away from) the crank`).FindStringSubmatch(remedy); m != nil {
		l, err := units.ParseLength(m[1] + " mm")
		if err != nil {
			t.Fatal(err)
		}
		if m[2] != "towards" {
			l = l.Neg()
		}
		g.Valve.Offset = g.Valve.Offset.Add(l)
	}
	if m := regexp.MustCompile(`(?:\(advance|an advance of|state the advance as) (-?[\d.]+) deg`).FindStringSubmatch(remedy); m != nil {
		a, err := units.ParseAngle(m[1] + " deg")
		if err != nil {
			t.Fatal(err)
		}
		g.Advance = a
	}
	if m := regexp.MustCompile(`give its place as (-?[\d.]+) deg`).FindStringSubmatch(remedy); m != nil {
		a, err := units.ParseAngle(m[1] + " deg")
		if err != nil {
			t.Fatal(err)
		}
		if g, err = g.WithEccentricAt(a); err != nil {
			t.Fatal(err)
		}
	}
	if strings.Contains(remedy, "cavity in the middle") || strings.Contains(remedy, " in its middle") {
		g.Valve.CavityOffset = units.Length{}
	}
	if strings.Contains(remedy, "ake up the play") {
		g.Valve.LostMotion = units.Length{}
	}
	if strings.HasPrefix(remedy, "Or run the engine the other way") {
		g.Advance = inTurn(halfTurn - g.Advance)
	}
	size(`if it is ([\d.]+) mm .* state the travel so`, func(l units.Length) { g.Travel = l })
	size(`which is then ([\d.]+) mm \([^)]*\) long over`, func(l units.Length) { g.Valve.Length = l })
	size(`(?:which is then|[Mm]ake a valve) ([\d.]+) mm \([^)]*\) between its inner edges`, func(l units.Length) { g.Valve.Cavity = l })
	size(`cavity (?:of )?([\d.]+) mm`, func(l units.Length) { g.Valve.Cavity = l })
	size(`between its inner edges ([\d.]+) mm`, func(l units.Length) { g.Valve.Cavity = l })
	size(`the valve ([\d.]+) mm \([^)]*\) between its inner edges`, func(l units.Length) { g.Valve.Cavity = l })
	size(`valve (?:at least )?([\d.]+) mm \([^)]*\) long over`, func(l units.Length) { g.Valve.Length = l })
	size(`over its outer edges at least ([\d.]+) mm`, func(l units.Length) { g.Valve.Length = l })
	size(`ake the valve ([\d.]+) mm \([^)]*\) longer`, func(l units.Length) { g.Valve.Length = g.Valve.Length.Add(l) })
	size(`(?:Keep the travel to|needs a travel of) ([\d.]+) mm`, func(l units.Length) { g.Travel = l })
	lengthen := func(more units.Length) {
		g.Valve.Length, g.Valve.Cavity = g.Valve.Length.Add(more), g.Valve.Cavity.Add(more)
	}
	size(`(?:exhaust|middle) port ([\d.]+) mm`, func(l units.Length) {
		lengthen(l.Sub(g.Ports.Exhaust))
		g.Ports.Exhaust = l
	})
	wider := func(l units.Length) {
		lengthen(l.Scale(2))
		g.Ports.Bar = g.Ports.Bar.Add(l)
		if !g.Ports.CrankBar.IsZero() {
			g.Ports.CrankBar = g.Ports.CrankBar.Add(l)
		}
	}
	size(`both bars ([\d.]+) mm \([^)]*\) wider`, wider)
	size(`bars wider by ([\d.]+) mm`, wider)
	size(`bars ([\d.]+) mm \([^)]*\) wide\b`, func(l units.Length) {
		wider(l.Sub(g.Ports.Bar))
	})
	size(`eccentric rod longer than ([\d.]+) mm`, func(l units.Length) { g.EccentricRod = RodOf(l.Scale(4)) })
	size(`the travel ([\d.]+) mm \([^)]*\) less`, func(l units.Length) { g.Travel = g.Travel.Sub(l) })
	size(`Make the chest ([\d.]+) mm`, func(l units.Length) { g.Chest = l })
	if strings.Contains(remedy, "together, until both ports just open") {
		g = withLead(t, g, units.Length{})
		g.Valve.Offset, _ = g.OffsetForEqualLead()
	}
	return g
}

// What a remedy says, done to the sizes it prints, puts the finding right: it is
// gone, or no longer costs anything; and it brings on no other fault but those
// that it names.
func TestRemediesHelp(t *testing.T) {
	followed := map[finding.Code]int{}
	missed := func() (kinds []finding.Code) {
		for k := range kernel.UnequalCutOff {
			if code := known[k].code; code != NoLead && followed[code] == 0 {
				kinds = append(kinds, code)
			}
		}
		return kinds
	}
	for round := 0; round < 200 && len(missed()) > 0; round++ { // some kinds are rare
		remediesHelp(t, followed)
	}
	if kinds := missed(); len(kinds) > 0 {
		t.Errorf("no remedy was followed for %v", kinds)
	}
}

func remediesHelp(t *testing.T, followed map[finding.Code]int) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		if rapid.IntRange(0, 3).Draw(t, "as built") == 0 {
			g = anyBuilt(t)
		}
		// One engine in three has its valve far off centre.
		g.Valve.Offset = g.Travel.Scale(rapid.SampledFrom([]float64{0, 0.05, -0.7}).Draw(t, "far off"))
		// And one in two a chest, often too short.
		g.Chest = g.Valve.Length.Add(g.Travel).Scale(rapid.SampledFrom([]float64{0, 0, 0.9, 1.1}).Draw(t, "chest"))
		// And one in three was sound before it was stated amiss.
		if stated := rapid.IntRange(0, 10).Draw(t, "stated"); stated < 5 {
			g.Valve.Offset, g.LeverRatio, g.InsideAdmission = units.Length{}, 0, false
			if set, err := g.WithLead(g.Ports.Steam.Scale(0.1), BothEnds); err == nil {
				g = set
			}
			switch stated {
			case 0:
				g.Advance = inTurn(g.Advance + halfTurn/2)
			case 1:
				g.Travel = g.Travel.Scale(0.5)
			case 2:
				g.Travel = g.Travel.Scale(2)
			case 3:
				g, _ = g.WithEccentricAt(g.Advance)
			case 4:
				g, _ = g.WithEccentricAt(-g.EccentricLead())
			}
			if g.Validate() != nil {
				return
			}
		}
		all := findings(t, g)
		if rapid.Bool().Draw(t, "placed") {
			all = g.CheckPlaced()
		}
		for _, f := range all {
			for _, remedy := range f.Remedies {
				if remedy == designAnew && (!g.alike() || !g.Valve.LostMotion.IsZero()) {
					continue // it is said of sizes that go wrong at one end in one way and at the other in another
				}
				followed[f.Code]++
				remedyHelps(t, g, f, remedy)
			}
		}
	})
}

func remedyHelps(t *rapid.T, g Gear, f Finding, remedy string) {
	better := follow(t, g, remedy)
	if better == g {
		t.Fatalf("%v: nothing to follow in %q: %v\n%v", f.Code, remedy, g, f.Text)
	}
	anew := strings.Contains(remedy, "set the advance anew")
	if anew {
		set, changed := checking(g).settled(better)
		if !changed { // by less than is printed
			set, _ = better.WithLead(units.Length{}, BothEnds)
		}
		if set != (Gear{}) {
			better = set
		} else if g.leads() && !strings.Contains(remedy, noLeadWords) {
			t.Fatalf("%v: no advance gives a lead after %q", f.Code, remedy)
		}
	}
	ends := anew || strings.Contains(f.Text, "only the valve on its rod left to be set") ||
		strings.Contains(f.Text, "only the lead left to be set") // is what the valve is set for last
	all := better.Check()
	if still, ok := find(all, f.Code, f.End); ok && still.Severity != finding.Note && !onTheEdge(better, still, finding.Note) &&
		!(ends && (f.Code == LateSteam || f.Code == LargeLead)) {
		t.Fatalf("%v\nremedy %q\nleaves %v of %+v", f.Text, remedy, still.Text, better)
	}
	_, named, _ := strings.Cut(remedy, "brings on ")
	had := findings(t, g)
	for _, n := range all {
		old, before := find(had, n.Code, n.End)
		if n.Severity == finding.Note || n.Slip || before && old.Severity >= n.Severity ||
			ends && (n.Code == LateSteam || n.Code == LargeLead) {
			continue
		}
		if n.Code == LittleWork && strings.Contains(named, noLeadWords) {
			continue // with no lead to be had the eccentric ends in line
		}
		if !strings.Contains(named, words(n.Code)) && !onTheEdge(better, n, old.Severity) {
			t.Fatalf("%v\nremedy %q\nbrings on %v of %+v", f.Text, remedy, n.Text, better)
		}
	}
}

// words returns what a remedy that brings on a fault calls it.
func words(code finding.Code) string {
	for _, k := range known {
		if k.code == code {
			return k.words
		}
	}
	return "sizes that make no gear"
}

// onTheEdge reports whether a thou more or less in one size makes the finding go, or no
// graver than it was: a remedy gives its size in millimetres and in inches, and rounds
// both.
func onTheEdge(g Gear, f Finding, was finding.Severity) bool {
	for _, thou := range []units.Length{units.Thou(1), units.Thou(-1)} {
		for _, move := range []func(*Gear){
			func(g *Gear) { g.Valve.Length = g.Valve.Length.Add(thou) },
			func(g *Gear) { g.Valve.Cavity = g.Valve.Cavity.Add(thou) },
			func(g *Gear) { g.Travel = g.Travel.Add(thou) },
			func(g *Gear) { g.Ports.Exhaust = g.Ports.Exhaust.Add(thou) },
		} {
			moved := g
			move(&moved)
			if still, ok := find(moved.Check(), f.Code, f.End); !ok || still.Severity <= was {
				return true
			}
		}
	}
	return false
}

func TestRemediesOfSetting(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*Gear)
		kind  finding.Code
		end   End
		want  string
		cure  func(*Gear)
	}{
		{"eccentric turned half round", func(g *Gear) { g.Advance = -154 * units.Degree }, RunsBackwards, BothEnds,
			"half round on the shaft, until it stands 116.0 deg ahead", func(g *Gear) { g.Advance = 26 * units.Degree }},
		{"eccentric of the other direction", func(g *Gear) { g.Advance = 154 * units.Degree }, RunsBackwards, BothEnds,
			"(advance 26.0 deg, the same lead). Or run the engine the other way.", func(g *Gear) { g.Advance = 26 * units.Degree }},
		{"only the valve is off: late", func(g *Gear) { g.Valve.Offset = units.MM(0.5) }, LateSteam, CrankEnd,
			"Move the valve 0.57 mm (22.4 thou) away from the crank, for equal leads; both ends then have a lead of 0.2 mm (8 thou).", func(g *Gear) { g.Valve.Offset = units.MM(-0.069) }},
		{"only the valve is off: early", func(g *Gear) { g.Valve.Offset = units.MM(0.5) }, LargeLead, HeadEnd,
			"Move the valve 0.57 mm (22.4 thou) away from the crank, for equal leads; both ends", func(g *Gear) { g.Valve.Offset = units.MM(-0.069) }},
		{"infinite rod, off centre", func(g *Gear) { g.EccentricRod, g.Valve.Offset = InfiniteRod(), units.MM(0.5) }, LateSteam, CrankEnd,
			"Move the valve 0.5 mm (19.7 thou) away from the crank, to the centre; both ends then have a lead of 0.2 mm (8 thou).", func(g *Gear) { g.Valve.Offset = units.Length{} }},
		{"no steam lap to lead", func(g *Gear) { g.Valve.Length = units.MM(12) }, LargeLead, HeadEnd,
			"13 mm (0.512 in) long over its outer edges, for no steam lap, and set the advance anew", func(g *Gear) { g.Valve.Length = units.MM(13); *g = withLead(t, *g, units.MM(0.1)) }},
		{"off centre, infinite rod", func(g *Gear) { g.EccentricRod, g.Valve.Offset = InfiniteRod(), units.MM(-0.2) }, OffCentre, BothEnds,
			"Move the valve 0.2 mm (7.9 thou) towards the crank, to the centre.", func(g *Gear) { g.Valve.Offset = units.Length{} }},
	} {
		g := demo()
		test.spoil(&g)
		f, ok := find(findings(t, g), test.kind, test.end)
		if !ok || !strings.Contains(f.told(), test.want) {
			t.Errorf("%s: %v: remedy %q, want %q", test.name, ok, f.told(), test.want)
		}
		test.cure(&g)
		if f, ok := find(findings(t, g), test.kind, test.end); ok {
			t.Errorf("%s: after the remedy: %v", test.name, f)
		}
	}
}

// Full travel asks for all that it needs. With S = 0.2, E = 1.2, ports of 2 and
// bars of 1 the travel is 2 (1.2 + 2); the outer edge would leave nothing of the
// bar covered, which must be a quarter: 1 + 0.25 / 0.75. The middle port must then
// leave 2 open: 2 + 1.2 + 3.2 - 1.34.
func TestFullTravelRemedy(t *testing.T) {
	g := demo()
	g.Ports.Bar, g.Travel = units.MM(1), units.MM(2)
	g.Valve = g.Ports.ValveWith(Laps{units.MM(0.2), units.MM(1.2)})
	g.EccentricRod = RodOf(units.MM(3))
	f, ok := find(findings(t, g), SteamPartOpen, HeadEnd)
	want := "a travel of 6.4 mm (0.252 in), a sheave offset by 3.2 mm (0.126 in), bars 1.34 mm (0.053 in) wide," +
		" an exhaust port 5.06 mm (0.199 in) wide and a valve to suit, and an eccentric rod longer than 3.21 mm (0.126 in)," +
		" best several times as long; then set the advance anew."
	if !ok || !strings.HasSuffix(f.told(), want) {
		t.Errorf("remedy %q, want %q", f.told(), want)
	}
}

// A valve off centre is worse at one end, and the size that is asked for is that
// which serves both.
func TestRemedyServesBothEnds(t *testing.T) {
	g := demo()
	g.Ports.Exhaust = units.MM(2)
	g.Valve = g.Ports.ValveWith(Laps{Steam: units.MM(1.2)})
	g.Valve.Offset = units.MM(0.1)
	all := findings(t, g)
	head, _ := find(all, MiddleThrottled, HeadEnd)
	crank, _ := find(all, MiddleThrottled, CrankEnd)
	if head.Amount == crank.Amount || head.told() != crank.told() ||
		!strings.Contains(head.told(), "exhaust port 2.8 mm") {
		t.Errorf("%q and %q", head.told(), crank.told())
	}
}

func TestCoverBarRemedy(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*Gear)
		want  string
	}{
		{"travel or valve", func(g *Gear) { g.Travel = units.MM(12) },
			"Keep the travel to 10.15 mm (0.399 in), which leaves a quarter of the bar covered, and set the advance anew. Or make the valve 1.85 mm (0.073 in) longer, which leaves a quarter of the bar covered and adds to the lap. Then set the advance anew."},
		{"no room for a longer valve", func(g *Gear) { g.Travel, g.Chest = units.MM(12), units.MM(28.4) },
			"Keep the travel to 10.15 mm (0.399 in), which leaves a quarter of the bar covered, and set the advance anew."},
		{"no opening with less travel", func(g *Gear) {
			g.Ports.Bar = units.MM(0.4)
			g.Valve = g.Ports.ValveWith(Laps{units.MM(0.2), units.MM(2)})
		},
			"longer, which leaves a quarter of the bar covered and adds to the lap. Then set the advance anew."},
	} {
		g := demo()
		test.spoil(&g)
		if f, ok := find(findings(t, g), SteamPastValve, HeadEnd); !ok || !strings.Contains(f.told(), test.want) {
			t.Errorf("%s: %v: remedy %q, want %q", test.name, ok, f.told(), test.want)
		}
	}
}

// With no steam lap the exhaust lap cannot go without the land getting narrower
// than the port.
func TestExhaustLapThatMustStay(t *testing.T) {
	g := demo()
	g.Valve = g.Ports.ValveWith(Laps{units.MM(-0.3), units.MM(2.6)})
	f, ok := find(findings(t, g), ExhaustPartOpen, HeadEnd)
	want := "Make the cavity 8.4 mm (0.330 in) long, for lands just as wide as the ports."
	if !ok || !strings.HasPrefix(f.told(), want) {
		t.Errorf("remedy %q, want %q", f.told(), want)
	}
}

// A remedy that cannot but bring on another fault says which.
func TestRemedyNamesWhatItBringsOn(t *testing.T) {
	g := demo()
	g.Travel, g.Chest = units.MM(2.4), units.MM(20)
	f, ok := find(findings(t, g), SteamNeverOpens, HeadEnd)
	if !ok || !strings.HasSuffix(f.told(), "Check again after it, for it brings on a valve that fouls the chest.") {
		t.Errorf("%v: %q", ok, f.told())
	}
	if f, _ := find(findings(t, g), NarrowLand, BothEnds); strings.Contains(f.told(), "brings on") {
		t.Error(f.told())
	}
}
