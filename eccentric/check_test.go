package eccentric

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
)

func findings(t tester, g Gear) []Finding {
	t.Helper()
	f := g.Check()
	if len(f) > 0 && f[0].Kind == NotAGear {
		t.Fatal(f[0].Text)
	}
	return f
}

func find(all []Finding, kind FindingKind, end End) (Finding, bool) {
	for _, f := range all {
		if f.Kind == kind && f.End == end {
			return f, true
		}
	}
	return Finding{}, false
}

// Each case spoils the sound demonstration engine in one way; amounts follow
// from the dimensions by the formulas of the package comment.
func TestCheck(t *testing.T) {
	for _, test := range []struct {
		name     string
		spoil    func(*Gear)
		kind     FindingKind
		end      End
		severity Severity
		amountMM float64
		text     string
		remedy   string
		cure     func(*Gear)
	}{
		{
			"cavity too long", func(g *Gear) { g.Valve.Cavity = units.MM(11.8) },
			NarrowLand, BothEnds, StopsEngine, 0.2, "11.8 mm", "9 mm (0.354 in)", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"cavity too long, kept at the limit", func(g *Gear) { g.Valve.Cavity = units.MM(11.8) },
			NarrowLand, BothEnds, StopsEngine, 0.2, "129.5 deg to 133.4 deg", "At 11.4 mm", func(g *Gear) { g.Valve.Cavity = units.MM(11.4) },
		}, {
			"valve too short", func(g *Gear) { g.Valve.Length = units.MM(12.8) },
			NarrowLand, BothEnds, StopsEngine, 0.1, "too short", "at least 13 mm", func(g *Gear) { g.Valve.Length = units.MM(13) },
		}, {
			// Short by two laps and the lead of the crank end with the right hand, 2 x 1.2 +
			// 0.133813 mm; 12.5 (1 - cos 46.6) + 63 - sqrt(63^2 - (12.5 sin 46.6)^2) = 4.57 mm of 25
			"advance of the wrong hand", func(g *Gear) { g.Advance = -g.Advance },
			LateSteam, HeadEnd, CostsPower, 2.533813, "opens 46.6 deg after it, when the piston has gone 18.3 % of its stroke without steam.", "wrong hand: at 26.0 deg the mean lead is 0.2 mm", func(g *Gear) { g.Advance = -g.Advance },
		}, {
			"clearance", func(g *Gear) { g.Valve.Cavity = units.MM(10) },
			OpenAtMidTravel, BothEnds, CostsPower, 0.5, "0.5 mm", "cavity 9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"a little clearance", func(g *Gear) { g.Valve.Cavity = units.MM(9.2) },
			OpenAtMidTravel, BothEnds, WorthKnowing, 0.1, "on purpose", "", nil,
		}, {
			"no steam lap", func(g *Gear) { g.Valve.Length = units.MM(12.9) },
			NoSteamLap, BothEnds, CostsPower, 0.05, "both sides of the piston", "13 mm", func(g *Gear) { g.Valve.Length = units.MM(13) },
		}, {
			"too little travel", func(g *Gear) { g.Travel = units.MM(2.4) },
			SteamNeverOpens, HeadEnd, StopsEngine, 0, "never opens", "travel of 6.4 mm (0.252 in), a sheave offset by 3.2 mm (0.126 in)", func(g *Gear) { g.Travel = units.MM(6.4) },
		}, {
			"steam never shut", func(g *Gear) { g.Valve.Length, g.Travel = units.MM(10.4), units.MM(2) },
			SteamNeverCloses, CrankEnd, StopsEngine, 0.3, "never shut to steam", "13 mm", func(g *Gear) { g.Valve.Length = units.MM(13) },
		}, {
			"half the opening", func(g *Gear) { g.Travel = units.MM(4) },
			SteamPartOpen, HeadEnd, CostsPower, 1.2, "40 %", "6.4 mm", func(g *Gear) { g.Travel = units.MM(6.4) },
		}, {
			"most of the opening", func(g *Gear) { g.Travel = units.MM(6) },
			SteamPartOpen, CrankEnd, WorthKnowing, 0.2, "90 %", "", nil,
		}, {
			"exhaust shut in", func(g *Gear) { g.Valve.Cavity = units.MM(2.2) },
			ExhaustNeverOpens, HeadEnd, StopsEngine, 0.2, "never opens to exhaust", "9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"exhaust never shut", func(g *Gear) { g.Valve.Cavity, g.Travel = units.MM(15.3), units.MM(6) },
			ExhaustNeverCloses, HeadEnd, StopsEngine, 0.15, "never shut to exhaust", "9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"exhaust half open", func(g *Gear) { g.Valve.Cavity = units.MM(4.2) },
			ExhaustPartOpen, HeadEnd, CostsPower, 1.2, "40 %", "9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"narrow exhaust port", func(g *Gear) {
				g.Ports.Exhaust = units.MM(2)
				g.Valve = g.Ports.ValveWith(Laps{units.MM(1.2), units.Length{}})
			},
			MiddleThrottled, CrankEnd, CostsPower, 0.7, "1.3 mm", "2.7 mm", func(g *Gear) {
				g.Ports.Exhaust = units.MM(2.7)
				g.Valve = g.Ports.ValveWith(Laps{units.MM(1.2), units.Length{}})
			},
		}, {
			"valve off the bar", func(g *Gear) { g.Travel = units.MM(12) },
			SteamPastValve, HeadEnd, StopsEngine, 0.3, "straight to exhaust", "travel to 10.15 mm (0.399 in)", func(g *Gear) { g.Travel = units.MM(10.15) },
		}, {
			"valve hardly on the bar", func(g *Gear) { g.Travel = units.MM(11) },
			SteamPastValve, CrankEnd, CostsPower, 0.2, "0.2 mm", "10.15 mm", func(g *Gear) { g.Travel = units.MM(10.15) },
		}, {
			"short chest", func(g *Gear) { g.Chest = units.MM(21) },
			FoulsChest, BothEnds, StopsEngine, 0.4, "0.4 mm", "22.8 mm", func(g *Gear) { g.Chest = units.MM(22.8) },
		}, {
			"tight chest", func(g *Gear) { g.Chest = units.MM(22) },
			FoulsChest, BothEnds, WorthKnowing, 0.1, "0.1 mm", "22.8 mm", func(g *Gear) { g.Chest = units.MM(22.8) },
		}, {
			"late", func(g *Gear) { g.Advance = 10 * units.Degree },
			LateSteam, CrankEnd, CostsPower, 1.2 - 3.2*math.Sin(10*math.Pi/180) + 60 - math.Sqrt(3600-math.Pow(3.2*math.Cos(10*math.Pi/180), 2)), "still shut", "22.0 deg", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"no lead", func(g *Gear) { g.EccentricRod = units.Length{}; *g = withLead(t, *g, units.Length{}) },
			NoLead, HeadEnd, WorthKnowing, 0, "just cracks", "", nil,
		}, {
			"large lead", func(g *Gear) { g.Advance = 40 * units.Degree },
			LargeLead, HeadEnd, CostsPower, 3.2*math.Sin(40*math.Pi/180) - 1.2 + 60 - math.Sqrt(3600-math.Pow(3.2*math.Cos(40*math.Pi/180), 2)), "before dead centre", "22.0 deg", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"wrong hand", func(g *Gear) { g.Advance = -154 * units.Degree },
			RunsBackwards, BothEnds, StopsEngine, 0, "other way", "", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"off centre", func(g *Gear) { g.Valve.Offset = units.MM(0.3) },
			OffCentre, BothEnds, WorthKnowing, 0.3, "0.6 mm", "away from the crank", func(g *Gear) { g.Valve.Offset = units.Length{} },
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			if all := findings(t, demo()); len(all) > 0 && all[0].Severity != WorthKnowing {
				t.Fatalf("the sound engine has %v", all[0])
			}
			g := demo()
			test.spoil(&g)
			all := findings(t, g)
			f, ok := find(all, test.kind, test.end)
			if !ok {
				t.Fatalf("not found; findings: %v", all)
			}
			if f.Severity != test.severity {
				t.Errorf("severity %v, want %v", f.Severity, test.severity)
			}
			near(t, "amount in mm", f.Amount.MM(), test.amountMM, 1e-6)
			if !strings.Contains(f.Text, test.text) || !strings.Contains(f.Remedy, test.remedy) {
				t.Errorf("text %q\nremedy %q\nwant %q and %q", f.Text, f.Remedy, test.text, test.remedy)
			}
			if test.remedy == "" && test.cure == nil && f.Remedy != "" {
				t.Errorf("remedy %q for something that needs none", f.Remedy)
			}
			if test.cure != nil { // what the remedy says must help
				test.cure(&g)
				if f, ok := find(findings(t, g), test.kind, test.end); ok {
					t.Errorf("after the remedy: %v", f)
				}
			}
		})
	}
}

func withLead(t testing.TB, g Gear, lead units.Length) Gear {
	t.Helper()
	g, err := g.WithLead(lead, BothEnds)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// An advance below zero is of the wrong hand only where the other is sound: 64
// degrees are not, with a mean lead of 3.2 sin 64 - 1.2 = 1.68 mm over ports of 2.
func TestCheckOtherHand(t *testing.T) {
	for advance, want := range map[units.Angle]bool{-26: true, -64: false, -10: false} {
		g := demo()
		g.Advance = advance * units.Degree
		f, ok := find(findings(t, g), LateSteam, HeadEnd)
		if !ok || strings.Contains(f.Remedy, "wrong hand") != want {
			t.Errorf("%v degrees: %+v", float64(advance), f)
		}
	}
}

func TestCheckLongCavityComesFirst(t *testing.T) {
	g := demo()
	g.Valve.Cavity = units.MM(11.8)
	first := findings(t, g)[0]
	if first.Kind != NarrowLand || !strings.Contains(first.Text, "cavity") || !strings.Contains(first.Remedy, "Shortening the valve does not cure it") {
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

func TestCheckPrintedEngineContradictsItself(t *testing.T) {
	// A. Williams, Things To Make, ch. XV: stroke 2 1/4, rod 5, eccentricity
	// 9/32, ports 3/32, bars 1/8, exhaust port 3/32 in. The lap is not printed;
	// ports just fully opened at full travel give 3/16. At full travel the
	// valve then covers the exhaust port and 1/16 in more.
	p := Ports{Steam: units.InchFraction(3, 32), Bar: units.InchFraction(1, 8), Exhaust: units.InchFraction(3, 32), Length: units.InchFraction(7, 8)}
	g := Gear{
		Stroke: units.Inch(2.25), ConnectingRod: units.Inch(5), Travel: units.InchFraction(9, 16),
		Ports: p, Valve: p.ValveWith(Laps{Steam: units.InchFraction(3, 16)}),
	}
	g = withLead(t, g, units.Length{})
	for _, end := range []End{HeadEnd, CrankEnd} {
		f, ok := find(findings(t, g), MiddleThrottled, end)
		if !ok || f.Amount != units.InchFraction(5, 32) || !strings.Contains(f.Text, "shuts the exhaust port altogether") {
			t.Errorf("%v: %v", end, f)
		}
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
		if f.Severity == StopsEngine {
			t.Errorf("sound piston valve: %v", f)
		}
	}
	g.Valve.Length = units.MM(10.2) // exhaust lap -1.4
	f, ok := find(findings(t, g), NarrowLand, BothEnds)
	if !ok || !strings.Contains(f.Text, "valve, 10.2 mm") || !strings.Contains(f.Remedy, "at least 13 mm") {
		t.Errorf("%v", f)
	}
}

// A valve that admits past its inner edges and stands off centre runs its outer
// edge at the crank end off the bar, and closes the middle port most while that
// feeds the head end: seen by sliding the valve over the port face.
func TestCheckInsideAdmissionOffCentre(t *testing.T) {
	g := demo()
	g.InsideAdmission, g.Travel = true, units.MM(7.4)
	g.Valve = Valve{Length: units.MM(13), Cavity: units.MM(6.6), Offset: units.MM(-1)}
	// At full travel away from the crank the valve stands 4.7 that way: its
	// outer edge at 6.5 - 4.7 = 1.8 from the middle, the bar ends at 2.
	f, ok := find(findings(t, g), SteamPastValve, CrankEnd)
	if !ok || f.Severity != StopsEngine || f.Amount != units.MM(0.2) {
		t.Errorf("crank end: %v", f)
	}
	if f, ok := find(findings(t, g), SteamPastValve, HeadEnd); ok {
		t.Errorf("head end: %v", f)
	}
	// Its inner edge stands at 3.3 - 4.7 = -1.4, so of the middle port, from
	// -2 to 2, there are 0.6 open.
	if f, ok := find(findings(t, g), MiddleThrottled, HeadEnd); !ok || !strings.Contains(f.Text, "0.6 mm") {
		t.Errorf("middle port: %v", f)
	}
	if f, ok := find(findings(t, g), MiddleThrottled, CrankEnd); ok {
		t.Errorf("middle port, other way: %v", f)
	}
}

func TestCheckUnequalCutOff(t *testing.T) {
	f, ok := find(findings(t, demo()), UnequalCutOff, BothEnds)
	if !ok || f.Severity != WorthKnowing || f.Remedy != "" || !strings.Contains(f.Text, "normal, not a fault") {
		t.Errorf("%v", f)
	}
	near(t, "amount in mm", f.Amount.MM(), 25*(0.869943-0.796478), 0.00003)
	long := demo()
	long.ConnectingRod, long.EccentricRod = units.MM(3000), units.MM(3000)
	if f, ok := find(findings(t, long), UnequalCutOff, BothEnds); ok {
		t.Errorf("long rods: %v", f)
	}
}

func TestCheckWords(t *testing.T) {
	text := func(kind FindingKind, spoil func(*Gear)) string {
		g := demo()
		spoil(&g)
		all := findings(t, g)
		for _, f := range all {
			if f.Kind == kind {
				return f.Text
			}
		}
		t.Fatalf("no %v in %v", kind, all)
		return ""
	}
	// A part opening is excused by the exhaust only where that opens fully.
	full := func(g *Gear) { g.Travel = units.MM(6) }
	if got := text(SteamPartOpen, full); !strings.HasSuffix(got, "often so; the full width still serves the exhaust.") {
		t.Error(got)
	}
	if got := text(SteamPartOpen, func(g *Gear) { full(g); g.Valve.Cavity = units.MM(5.4) }); !strings.HasSuffix(got, "often so.") {
		t.Error(got)
	}
	// A middle port too narrow by a hair costs nothing.
	hair := demo()
	hair.Ports.Exhaust = units.MM(2.65)
	hair.Valve = hair.Ports.ValveWith(Laps{Steam: units.MM(1.2)})
	if f, ok := find(findings(t, hair), MiddleThrottled, HeadEnd); !ok || f.Severity != WorthKnowing {
		t.Errorf("%v", f)
	}
	// A cavity shorter than the middle port lets no more through than its length.
	if got := text(MiddleThrottled, func(g *Gear) {
		g.Ports.Exhaust, g.Travel = units.MM(9), units.MM(3)
		g.Valve = Valve{Length: units.MM(19), Cavity: units.MM(1.5)}
	}); !strings.Contains(got, "leaves 1.5 mm (59.1 thou) of the exhaust port open") {
		t.Error(got)
	}
	// Below a tenth of an inch in thou, above it in inches.
	if got := text(NarrowLand, func(g *Gear) { g.Valve.Cavity = units.MM(11.8) }); !strings.Contains(got, "11.8 mm (0.465 in)") || !strings.Contains(got, "0.2 mm (7.9 thou)") {
		t.Error(got)
	}
	if got := text(SteamPastValve, func(g *Gear) { g.Travel = units.MM(11.4) }); !strings.Contains(got, "nothing of the bar at the head end") {
		t.Error(got)
	}
	// The blind arcs of a late valve begin at the dead centres.
	if got := text(BlindArc, func(g *Gear) {
		g.Valve, g.Advance = g.Ports.ValveWith(Laps{Steam: units.MM(0.1)}), -10*units.Degree
	}); !strings.Contains(got, "from 180.0 deg to 193.3 deg and from 0.0 deg to 10.3 deg") {
		t.Error(got)
	}
}

func TestBlindArc(t *testing.T) {
	// Common practice: a single cylinder is helpless from cut-off to the next
	// dead centre. 133.41 and 130.58 deg of 180 at the two ends leave 96.0.
	f, ok := find(findings(t, demo()), BlindArc, BothEnds)
	if !ok {
		t.Fatal("no blind arc")
	}
	near(t, "blind arc", f.Arc.Degrees(), 360-133.4138-130.5801, 0.0002)
}

// Whatever the gear, Check answers, in order, with a text, and never with
// something that is not a number.
func TestCheckAlwaysAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		all := findings(t, g)
		laps := g.Laps()
		if _, ok := find(all, NarrowLand, BothEnds); ok != (laps.Steam.Add(laps.Exhaust).Sign() < 0) {
			t.Fatalf("narrow land %v with laps %v", ok, laps)
		}
		for i, f := range all {
			if f.Text == "" || strings.Contains(f.Text+f.Remedy, "NaN") || strings.Contains(f.Text+f.Remedy, "Inf") || strings.Contains(f.Text+f.Remedy, "%!") {
				t.Fatalf("%+v", f)
			}
			if i > 0 && all[i-1].Severity > f.Severity {
				t.Fatalf("%v after %v", f.Severity, all[i-1].Severity)
			}
			if f.Severity != WorthKnowing && f.Remedy == "" {
				t.Fatalf("%v without a remedy", f)
			}
			if f.Amount.Sign() < 0 {
				t.Fatalf("amount %v", f.Amount)
			}
		}
	})
}

func TestFindingText(t *testing.T) {
	f := Finding{Severity: CostsPower, Text: "The lead is nothing.", Remedy: "Advance the eccentric."}
	if got, want := f.String(), "costs power: The lead is nothing. Advance the eccentric."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	f.Remedy = ""
	if got, want := f.String(), "costs power: The lead is nothing."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestNames(t *testing.T) {
	for i := range findingKindNames.Texts {
		text, _ := FindingKind(i).MarshalText()
		var back FindingKind
		if err := back.UnmarshalText(text); err != nil || back != FindingKind(i) {
			t.Errorf("%s: %v %v", text, back, err)
		}
	}
	if BlindArc != FindingKind(len(findingKindNames.Texts)-1) {
		t.Error("a kind of finding has no name")
	}
	for _, e := range []End{BothEnds, HeadEnd, CrankEnd} {
		if back, err := ParseEnd(strings.ToUpper(e.String())); err != nil || back != e {
			t.Errorf("%v: %v %v", e, back, err)
		}
	}
	for _, set := range []interface{ UnmarshalText([]byte) error }{new(FindingKind), new(Severity), new(End), new(PortState)} {
		if err := set.UnmarshalText([]byte("sideways")); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "accepted: ") {
			t.Errorf("%T: %v", set, err)
		}
	}
}
