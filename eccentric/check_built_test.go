package eccentric

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// What is wrong at one end is said of that end, with its figures. The amounts follow
// from the sizes: ports of 2, bars of 2.5, a middle port of 4, half a valve of 7.7,
// half a cavity of 4.5 and half a travel of 3.2 mm.
func TestCheckOfEndsThatDiffer(t *testing.T) {
	for _, test := range []struct {
		name     string
		spoil    func(*Gear)
		code     finding.Code
		end      End
		severity finding.Severity
		amountMM float64
		text     string
		remedy   string
	}{
		{"cavity off the middle: 7.7 - 4.5 - 1.3 of land", func(g *Gear) { g.Valve.CavityOffset = units.MM(1.3) },
			NarrowLand, CrankEnd, finding.Fails, 0.1, "The cavity is 1.3 mm (51.2 thou) towards the crank off the middle of the" +
				" valve: the land at the crank end is 1.9 mm wide over a port of 2 mm, 0.1 mm", "its cavity in the middle"},
		{"lands of two widths over two ports", func(g *Gear) {
			g.Valve.Cavity, g.Ports.CrankSteam = units.MM(11.6), units.MM(2.2)
		}, NarrowLand, BothEnds, finding.Fails, 0.3, "the lands are 1.9 mm wide at the head end and 1.9 mm at the crank end over" +
			" ports of 2 mm and 2.2 mm, up to 0.3 mm", "with a cavity of 9 mm"},
		{"7.7 - (2 + 2.5 + 3.3)", func(g *Gear) { g.Ports.CrankSteam = units.MM(3.3) },
			NoSteamLap, CrankEnd, finding.Caution, 0.1, "In mid-travel the crank port is open to steam by 0.1 mm",
			"Make the valve 15.6 mm (0.615 in) long"},
		{"one thin bar", func(g *Gear) { g.Ports.CrankBar = units.MM(0.8) },
			ThinBars, CrankEnd, finding.Note, 0.2, "The bar of the crank end is 0.8 mm (31.5 thou) wide, 40 % of the port's width.",
			"Make both bars 0.2 mm (0.008 in) wider or more"},
		{"two thin bars", func(g *Gear) { g.Ports.Bar, g.Ports.CrankBar = units.MM(0.9), units.MM(0.7) },
			ThinBars, BothEnds, finding.Note, 0.3, "Both bars are thin, that of the crank end the more: 0.7 mm", "Make both bars 0.3 mm"},
		{"4.5 - 4.5 - 0.2", func(g *Gear) { g.Valve.CavityOffset = units.MM(-0.2) },
			OpenAtMidTravel, HeadEnd, finding.Caution, 0.2, "In mid-travel the head port is open to exhaust by 0.2 mm (7.9 thou)." +
				" Release at the head end", "its cavity in the middle"},
		{"4 + 2.5 - 1.5 - 3.2 of passage", func(g *Gear) { g.Valve.CavityOffset = units.MM(1.5) },
			MiddleThrottled, CrankEnd, finding.Caution, 0.2, "leaves 1.8 mm (70.9 thou) of the exhaust port open while it takes the" +
				" exhaust of the crank end, less than the cylinder port's 2 mm", ""},
		{"and its port is another", func(g *Gear) { g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(3.4), units.MM(1.1) },
			MiddleThrottled, CrankEnd, finding.Note, 0.1, "less than the cylinder port's 3.4 mm", ""},
		{"a port of another width, partly open", func(g *Gear) { g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(2.2), units.MM(2.3) },
			SteamPartOpen, CrankEnd, finding.Note, 0.2, "opens 2 mm (78.7 thou) of its 2.2 mm to steam, 91 %", ""},
		{"late in mid-travel by asin(0.1 / 3.2)", func(g *Gear) { g.Valve.LostMotion = units.MM(0.2) },
			LostMotion, BothEnds, finding.Note, 0.2, "0.2 mm (7.9 thou) of lost motion: it is half of that late each way, 1.8 deg of" +
				" crank in mid-travel, and goes 0.1 mm (3.9 thou) less far.", "Take up the play between sheave and valve"},
		{"late by asin(0.4 / 3.2)", func(g *Gear) { g.Valve.LostMotion = units.MM(0.8) },
			LostMotion, BothEnds, finding.Caution, 0.8, "7.2 deg of crank in mid-travel", "Take up the play"},
		{"the valve goes 1.1 mm, its lap is 1.2", func(g *Gear) { g.Valve.LostMotion = units.MM(4.2) },
			LostMotion, BothEnds, finding.Fails, 4.2, "It alone keeps a port shut.", "Take up the play"},
		{"and so is the port", func(g *Gear) { g.Valve.LostMotion = units.MM(4.2) },
			SteamNeverOpens, HeadEnd, finding.Fails, 0.1, "the valve goes only 1.1 mm", "Take up the play"},
		{"no bar left at full travel, one end", func(g *Gear) { g.Valve.Length, g.Valve.Offset = units.MM(10.4), units.MM(0.1) },
			SteamPastValve, HeadEnd, finding.Fails, 0.1, "runs 0.1 mm (3.9 thou) past the bar", ""},
	} {
		g := demo()
		test.spoil(&g)
		f, ok := find(findings(t, g), test.code, test.end)
		if !ok || f.Severity != test.severity || !strings.Contains(f.Text, test.text) ||
			!strings.Contains(strings.Join(f.Remedies, "\n"), test.remedy) {
			t.Errorf("%s: %v\n%q of %v", test.name, f, f.Remedies, g)
		}
		near(t, test.name+": amount", f.Amount.MM(), test.amountMM, 1e-9)
	}
	g := demo()
	g.Valve.CavityOffset = units.MM(1.3)
	if f, _ := find(findings(t, g), NarrowLand, CrankEnd); !strings.Contains(f.Text, "(at the crank end from 128.7 deg to 130.6 deg") {
		t.Errorf("at %v", f) // 180 - asin(1.3/3.2) - 26 is 130.0, and the slant of the rod at this end makes it earlier
	}
	// Of a gear that moves less far there is more passage, and more room in the chest.
	g = demo()
	g.Valve.CavityOffset, g.Valve.LostMotion = units.MM(1.2), units.MM(0.4)
	near(t, "passage", g.passage(HeadEnd).MM(), 4+2.5-1.2-3.0, 1e-9)
	near(t, "passage of the other way", g.passage(CrankEnd).MM(), 4, 0)
	for _, code := range []finding.Code{MiddleThrottled, SteamPastValve} {
		if f, ok := find(findings(t, g), code, CrankEnd); ok {
			t.Error(f)
		}
	}
	g.Chest = units.MM(15.4 + 6.4 - 0.4)
	if f, ok := find(findings(t, g), FoulsChest, BothEnds); !ok || f.Severity != finding.Note || !f.Amount.IsZero() {
		t.Errorf("a chest that the valve just clears: %v", f)
	}
	if f, ok := find(findings(t, demo()), LostMotion, BothEnds); ok {
		t.Error(f)
	}
	hair := demo()
	hair.Valve.LostMotion = units.MM(0.1) // asin(0.05 / 3.2) is 0.9 degrees
	if f, ok := find(findings(t, hair), LostMotion, BothEnds); ok {
		t.Error(f)
	}
}

// With endless rods the unequal cut-offs of unequal laps are theirs alone.
func TestUnequalCutOffOfLaps(t *testing.T) {
	g := demo()
	g.ConnectingRod, g.EccentricRod, g.Ports.CrankSteam = InfiniteRod(), InfiniteRod(), units.MM(2.3)
	f, ok := find(findings(t, g), UnequalCutOff, BothEnds)
	if !ok || !strings.HasSuffix(f.Text, "That is the steam laps that differ.") {
		t.Error(f)
	}
	g = demo()
	g.Ports.CrankSteam = units.MM(2.3)
	f, ok = find(findings(t, g), UnequalCutOff, BothEnds)
	if !ok || !strings.Contains(f.Text, "With the valve where both steam laps are the same it would come at") {
		t.Error(f)
	}
}

// A slip in where the eccentric stands is looked for where that was given, and the
// others are not; what was meant is sound.
func TestSlipsOfPlace(t *testing.T) {
	for _, test := range []struct {
		stands float64
		lever  float64
		inside bool
		code   finding.Code
		meant  float64
	}{
		{26, 0, false, AdvanceForPlace, 116},
		{26, -1, false, AdvanceForPlace, -64},
		{-26, -1, false, AdvanceForPlace, -64},
		{116, -1, false, AdvanceForPlace, -64}, // as in direct drive
		{26, 0, true, AdvanceForPlace, -64},
		{26, -1, true, AdvanceForPlace, 116},
		{-116, 0, false, PlaceOfOtherSign, 116},
		{64, -1, false, PlaceOfOtherSign, -64},
		{64, 0, true, PlaceOfOtherSign, -64},
	} {
		g := demo()
		g.LeverRatio, g.InsideAdmission = test.lever, test.inside
		if test.inside {
			g.Valve = Valve{Length: units.MM(13), Cavity: units.MM(6.6)}
		}
		sound, err := g.WithEccentricAt(units.Angle(test.meant) * units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "what is meant", sound.Advance.Degrees(), 26, 1e-12)
		if g, err = g.WithEccentricAt(units.Angle(test.stands) * units.Degree); err != nil {
			t.Fatal(err)
		}
		all := g.CheckPlaced()
		worst := finding.Note
		for _, f := range all {
			worst = max(worst, f.Severity)
		}
		if f := all[0]; f.Code != test.code || !f.Slip || f.Severity != worst ||
			!strings.Contains(f.Text, fromCrank(sound)) || !strings.Contains(f.Remedies[0], "give its place as "+deg(sound.EccentricLead())) {
			t.Errorf("%v: %v", test, f)
		}
		for _, f := range all[1:] {
			if f.Slip {
				t.Errorf("%v: %v too", test, f)
			}
		}
		for _, f := range g.Check() {
			if f.Code == AdvanceForPlace || f.Code == PlaceOfOtherSign {
				t.Errorf("%v of a gear that was given by its advance", f)
			}
		}
		for _, f := range sound.CheckPlaced() {
			if f.Slip {
				t.Errorf("%v of a sound gear", f)
			}
		}
	}
	g := demo()
	g.Travel = g.Travel.Scale(2)
	if f, ok := find(g.CheckPlaced(), TravelForOffset, BothEnds); !ok || !f.Slip {
		t.Error("a travel that was doubled is not told")
	}
	if f := (Gear{}).CheckPlaced(); len(f) != 1 || f[0].Code != NotAGear {
		t.Error(f)
	}
}

// What lost motion makes of the lead depends on which way the valve goes there: with
// an endless rod it is r sin d less half of it on the way out and more by half of it on
// the way back, and near a turn the valve rests.
func TestLeadOfLostMotion(t *testing.T) {
	g := demo()
	g.EccentricRod, g.Valve.LostMotion = InfiniteRod(), units.MM(0.8)
	for _, test := range []struct{ advance, valve float64 }{
		{30, 1.6 - 0.4}, {0, -0.4}, {-30, -1.6 - 0.4}, {90, 2.8}, {-90, -2.8},
		{-85, -2.8}, {95, 2.8}, {110, 2.8}, {150, 1.6 + 0.4}, {-150, -1.6 + 0.4}, {180, 0.4},
	} {
		g.Advance = units.Angle(test.advance) * units.Degree
		e := events(t, g)
		near(t, "head", e.Head.Lead.MM(), test.valve-1.2, 1e-9)
		near(t, "crank", e.Crank.Lead.MM(), test.valve-1.2, 1e-9)
	}
	// WithLead finds the advance of what can be, and says what cannot.
	for _, lead := range []float64{0.2, 0, -1, -2.5, 1.5} {
		set := withLead(t, g, units.MM(lead))
		near(t, "mean lead", events(t, set).MeanLead().MM(), lead, 1e-9)
	}
	if _, err := g.WithLead(units.MM(1.7), BothEnds); err == nil || !strings.Contains(err.Error(), "between -4 mm and 1.6 mm") {
		t.Error(err)
	}
	// Of a short rod one end rests at its dead centre while the other end's lead still changes.
	g.EccentricRod, g.Valve.LostMotion = RodOf(units.MM(4)), units.MM(3)
	for _, lead := range []float64{-2.85, -2.7, -2.4} {
		set := withLead(t, g, units.MM(lead))
		near(t, "mean lead, short rod", events(t, set).MeanLead().MM(), lead, 1e-9)
	}
}
