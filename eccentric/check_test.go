package eccentric

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

func findings(t tester, g Gear) []Finding {
	t.Helper()
	f := g.Check()
	if len(f) > 0 && f[0].Code == NotAGear {
		t.Fatal(f[0].Text)
	}
	return f
}

// told is all remedies of a finding in one text.
func (f Finding) told() string { return strings.Join(f.Remedies, " ") }

func find(all []Finding, kind finding.Code, end End) (Finding, bool) {
	for _, f := range all {
		if f.Code == kind && f.End == end {
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
		kind     finding.Code
		end      End
		severity finding.Severity
		amountMM float64
		text     string
		remedy   string
		cure     func(*Gear)
	}{
		{
			"cavity too long", func(g *Gear) { g.Valve.Cavity = units.MM(11.8) },
			NarrowLand, BothEnds, finding.Fails, 0.2, "11.8 mm", "9 mm (0.354 in)", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"cavity too long, kept at the limit", func(g *Gear) { g.Valve.Cavity = units.MM(11.8) },
			NarrowLand, BothEnds, finding.Fails, 0.2, "129.5 deg to 133.4 deg", "At 11.4 mm", func(g *Gear) { g.Valve.Cavity = units.MM(11.4) },
		}, {
			"valve too short", func(g *Gear) { g.Valve.Length = units.MM(12.8) },
			NarrowLand, BothEnds, finding.Fails, 0.1, "too short", "at least 13 mm", func(g *Gear) { g.Valve.Length = units.MM(13) },
		}, {
			// Short by two laps and the lead of the crank end with the right hand, 2 x 1.2 +
			// 0.133813 mm; 12.5 (1 - cos 46.6) + 63 - sqrt(63^2 - (12.5 sin 46.6)^2) = 4.57 mm of 25
			"advance of the wrong hand", func(g *Gear) { g.Advance = -g.Advance },
			LateSteam, HeadEnd, finding.Caution, 2.533813, "opens 46.6 deg after it, when the piston has gone 18.3 % of its stroke without steam.", "an advance of 22.0 deg", func(g *Gear) { g.Advance = -g.Advance },
		}, {
			"advance of the wrong hand, told first", func(g *Gear) { g.Advance = -g.Advance },
			AdvanceOfOtherSign, BothEnds, finding.Caution, 0, "wrong hand: at 26.0 deg the mean lead is 0.2 mm", "state the advance as 26.0 deg", func(g *Gear) { g.Advance = -g.Advance },
		}, {
			"thin bars", func(g *Gear) { // with a valve of the same laps
				g.Ports.Bar = units.MM(0.79)
				g.Valve = g.Ports.ValveWith(Laps{Steam: units.MM(1.2)})
			},
			ThinBars, BothEnds, finding.Note, 0.21, "0.79 mm (31.1 thou) wide, 40 % of the port's width", "1 mm (0.040 in)", func(g *Gear) { g.Ports.Bar = units.MM(1.02) },
		}, {
			"in line with the crank", func(g *Gear) { g.Advance = 90 * units.Degree },
			LittleWork, BothEnds, finding.Fails, 0, "stands 180.0 deg ahead of the crank", "an advance of 22.0 deg", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"in line the other way, a brake", func(g *Gear) { g.Advance = -90 * units.Degree },
			LittleWork, BothEnds, finding.Fails, 0, "a brake, whichever way it is turned", "an advance of 22.0 deg", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"clearance", func(g *Gear) { g.Valve.Cavity = units.MM(10) },
			OpenAtMidTravel, BothEnds, finding.Caution, 0.5, "0.5 mm", "cavity 9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"a little clearance", func(g *Gear) { g.Valve.Cavity = units.MM(9.2) },
			OpenAtMidTravel, BothEnds, finding.Note, 0.1, "on purpose", "", nil,
		}, {
			"no steam lap", func(g *Gear) { g.Valve.Length = units.MM(12.9) },
			NoSteamLap, BothEnds, finding.Caution, 0.05, "both sides of the piston", "13 mm", func(g *Gear) { g.Valve.Length = units.MM(13) },
		}, {
			"too little travel", func(g *Gear) { g.Travel = units.MM(2.4) },
			SteamNeverOpens, HeadEnd, finding.Fails, 0, "never opens", "travel of 6.4 mm (0.252 in), a sheave offset by 3.2 mm (0.126 in)", func(g *Gear) { g.Travel = units.MM(6.4) },
		}, {
			"steam never shut", func(g *Gear) { g.Valve.Length, g.Travel = units.MM(10.4), units.MM(2) },
			SteamNeverCloses, CrankEnd, finding.Fails, 0.3, "never shut to steam", "13 mm", func(g *Gear) { g.Valve.Length = units.MM(13) },
		}, {
			"half the opening", func(g *Gear) { g.Travel = units.MM(4) },
			SteamPartOpen, HeadEnd, finding.Caution, 1.2, "40 %", "6.4 mm", func(g *Gear) { g.Travel = units.MM(6.4) },
		}, {
			"most of the opening", func(g *Gear) { g.Travel = units.MM(6) },
			SteamPartOpen, CrankEnd, finding.Note, 0.2, "90 %", "", nil,
		}, {
			"exhaust shut in", func(g *Gear) { g.Valve.Cavity = units.MM(2.2) },
			ExhaustNeverOpens, HeadEnd, finding.Fails, 0.2, "never opens to exhaust", "9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"exhaust never shut", func(g *Gear) { g.Valve.Cavity, g.Travel = units.MM(15.3), units.MM(6) },
			ExhaustNeverCloses, HeadEnd, finding.Fails, 0.15, "never shut to exhaust", "9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"exhaust half open", func(g *Gear) { g.Valve.Cavity = units.MM(4.2) },
			ExhaustPartOpen, HeadEnd, finding.Caution, 1.2, "40 %", "9 mm", func(g *Gear) { g.Valve.Cavity = units.MM(9) },
		}, {
			"narrow exhaust port", func(g *Gear) {
				g.Ports.Exhaust = units.MM(2)
				g.Valve = g.Ports.ValveWith(Laps{units.MM(1.2), units.Length{}})
			},
			MiddleThrottled, CrankEnd, finding.Caution, 0.7, "1.3 mm", "2.7 mm", func(g *Gear) {
				g.Ports.Exhaust = units.MM(2.7)
				g.Valve = g.Ports.ValveWith(Laps{units.MM(1.2), units.Length{}})
			},
		}, {
			"valve off the bar", func(g *Gear) { g.Travel = units.MM(12) },
			SteamPastValve, HeadEnd, finding.Fails, 0.3, "straight to exhaust", "travel to 10.15 mm (0.399 in)", func(g *Gear) { g.Travel = units.MM(10.15) },
		}, {
			"valve hardly on the bar", func(g *Gear) { g.Travel = units.MM(11) },
			SteamPastValve, CrankEnd, finding.Caution, 0.2, "0.2 mm", "10.15 mm", func(g *Gear) { g.Travel = units.MM(10.15) },
		}, {
			"short chest", func(g *Gear) { g.Chest = units.MM(21) },
			FoulsChest, BothEnds, finding.Fails, 0.4, "0.4 mm", "22.8 mm", func(g *Gear) { g.Chest = units.MM(22.8) },
		}, {
			"tight chest", func(g *Gear) { g.Chest = units.MM(22) },
			FoulsChest, BothEnds, finding.Note, 0.1, "0.1 mm", "22.8 mm", func(g *Gear) { g.Chest = units.MM(22.8) },
		}, {
			"late", func(g *Gear) { g.Advance = 10 * units.Degree },
			LateSteam, CrankEnd, finding.Caution, 1.2 - 3.2*math.Sin(10*math.Pi/180) + 60 - math.Sqrt(3600-math.Pow(3.2*math.Cos(10*math.Pi/180), 2)), "still shut", "22.0 deg", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"no lead", func(g *Gear) { g.EccentricRod = InfiniteRod(); *g = withLead(t, *g, units.Length{}) },
			NoLead, HeadEnd, finding.Note, 0, "just cracks", "", nil,
		}, {
			"large lead", func(g *Gear) { g.Advance = 40 * units.Degree },
			LargeLead, HeadEnd, finding.Caution, 3.2*math.Sin(40*math.Pi/180) - 1.2 + 60 - math.Sqrt(3600-math.Pow(3.2*math.Cos(40*math.Pi/180), 2)), "before dead centre", "22.0 deg", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"wrong hand", func(g *Gear) { g.Advance = -154 * units.Degree },
			RunsBackwards, BothEnds, finding.Fails, 0, "other way", "", func(g *Gear) { g.Advance = 26 * units.Degree },
		}, {
			"off centre", func(g *Gear) { g.Valve.Offset = units.MM(0.2) },
			OffCentre, BothEnds, finding.Note, 0.2, "0.4 mm", "away from the crank", func(g *Gear) { g.Valve.Offset = units.Length{} },
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			if all := findings(t, demo()); len(all) > 0 && all[0].Severity != finding.Note {
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
			if !strings.Contains(f.Text, test.text) || !strings.Contains(f.told(), test.remedy) {
				t.Errorf("text %q\nremedy %q\nwant %q and %q", f.Text, f.told(), test.text, test.remedy)
			}
			if test.remedy == "" && test.cure == nil && f.told() != "" {
				t.Errorf("remedy %q for something that needs none", f.told())
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

func TestCheckWords(t *testing.T) {
	text := func(kind finding.Code, spoil func(*Gear)) string {
		g := demo()
		spoil(&g)
		all := findings(t, g)
		for _, f := range all {
			if f.Code == kind {
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
	less := func(g *Gear) { full(g); g.Valve.Cavity = units.MM(5.4) }
	if got := text(SteamPartOpen, less); !strings.HasSuffix(got, "often so.") {
		t.Error(got)
	}
	// A middle port too narrow by a hair costs nothing.
	hair := demo()
	hair.Ports.Exhaust = units.MM(2.65)
	hair.Valve = hair.Ports.ValveWith(Laps{Steam: units.MM(1.2)})
	if f, ok := find(findings(t, hair), MiddleThrottled, HeadEnd); !ok || f.Severity != finding.Note {
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
	got := text(NarrowLand, func(g *Gear) { g.Valve.Cavity = units.MM(11.8) })
	if !strings.Contains(got, "11.8 mm (0.465 in)") || !strings.Contains(got, "0.2 mm (7.9 thou)") {
		t.Error(got)
	}
	got = text(SteamPastValve, func(g *Gear) { g.Travel = units.MM(11.4) })
	if !strings.Contains(got, "nothing of the bar at the head end") {
		t.Error(got)
	}
	// The blind arcs of a late valve begin at the dead centres.
	if got := text(BlindArc, func(g *Gear) {
		g.Valve, g.Advance = g.Ports.ValveWith(Laps{Steam: units.MM(0.1)}), -10*units.Degree
	}); !strings.Contains(got, "from 180.0 deg to 193.3 deg and from 0.0 deg to 10.3 deg") {
		t.Error(got)
	}
}

// Whatever the gear, Check answers, in order, with a text, and never with
// something that is not a number.
func TestCheckAlwaysAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		all := findings(t, g)
		laps := g.Laps()
		if _, ok := find(all, NarrowLand, BothEnds); ok != (laps.Steam.Add(laps.Exhaust).Picometres() < -1000) {
			t.Fatalf("narrow land %v with laps %v", ok, laps)
		}
		for i, f := range all {
			said := f.Text + f.told()
			if f.Text == "" || strings.Contains(said, "NaN") || strings.Contains(said, "Inf") || strings.Contains(said, "%!") {
				t.Fatalf("%+v", f)
			}
			for _, sentence := range append(slices.Clone(f.Remedies), f.Text) {
				if sentence == "" || strings.ToUpper(sentence[:1]) != sentence[:1] || !strings.HasSuffix(sentence, ".") {
					t.Fatalf("%v: no full sentence: %q", f.Code, sentence)
				}
			}
			if f.Severity == finding.Fails && !f.Refs.IsZero() || f.Code == LargeLead && f.Refs.First() != source.Practice() {
				t.Fatalf("%v: %v: sources %v", f.Code, f.Severity, f.Refs)
			}
			if i > 0 && all[i-1].Severity < f.Severity {
				t.Fatalf("%v after %v", f.Severity, all[i-1].Severity)
			}
			if f.Severity != finding.Note && f.told() == "" {
				t.Fatalf("%v without a remedy", f)
			}
			if f.Amount.Sign() < 0 {
				t.Fatalf("amount %v", f.Amount)
			}
		}
	})
}

func BenchmarkCheck(b *testing.B) {
	g := demo()
	for b.Loop() {
		if f := g.Check(); f[0].Code == NotAGear {
			b.Fatal(f)
		}
	}
}

// Within one severity the part at fault comes before what follows from it: the
// valve off centre opens the port of the crank end by 3 - 0.3 - 1.2 = 1.5 mm only.
func TestCheckOrder(t *testing.T) {
	g := demo()
	g.Valve.Offset, g.Travel = units.MM(0.3), units.MM(6)
	var codes []finding.Code
	for _, f := range findings(t, g) {
		codes = append(codes, f.Code)
	}
	want := []finding.Code{LateSteam, OffCentre, SteamPartOpen, UnequalCutOff, BlindArc}
	if !slices.Equal(codes, want) {
		t.Errorf("got %v, want %v", codes, want)
	}
}

// says reports whether the text or a remedy of a finding has some words.
func says(f Finding, words string) bool { return strings.Contains(f.Text+" "+f.told(), words) }
