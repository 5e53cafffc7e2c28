package eccentric

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// An advance below zero is of the wrong hand only where the other is sound: 64
// degrees are not, with a mean lead of 3.2 sin 64 - 1.2 = 1.68 mm over ports of 2.
func TestCheckOtherHand(t *testing.T) {
	for advance, want := range map[units.Angle]bool{-26: true, -64: false, -10: false} {
		g := demo()
		g.Advance = advance * units.Degree
		f, ok := find(findings(t, g), AdvanceOfOtherSign, BothEnds)
		if ok != want || ok && (!f.Slip || f.Severity != finding.Caution || !strings.Contains(f.Text, "wrong hand")) {
			t.Errorf("%v degrees: %+v", float64(advance), f)
		}
	}
}

func TestCheckUnequalCutOff(t *testing.T) {
	f, ok := find(findings(t, demo()), UnequalCutOff, BothEnds)
	if !ok || f.Severity != finding.Note || f.told() != "" || !strings.Contains(f.Text, "normal, not a fault") {
		t.Errorf("%v", f)
	}
	near(t, "amount in mm", f.Amount.MM(), 25*(0.869943-0.796478), 0.00003)
	long := demo()
	long.ConnectingRod, long.EccentricRod = RodOf(units.MM(3000)), RodOf(units.MM(3000))
	if f, ok := find(findings(t, long), UnequalCutOff, BothEnds); ok {
		t.Errorf("long rods: %v", f)
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
	for _, want := range []string{
		"in at least 96 of the 360 deg, which is without any friction:",
		"from 133.4 deg to 180.0 deg and from 310.6 deg to 360.0 deg of crank", // and not to 0
		"friction of 10, 20 or 30 % of the greatest moment it is about 108, 120 or 133 deg.",
	} {
		if !strings.Contains(f.Text, want) {
			t.Errorf("no %q in %s", want, f.Text)
		}
	}
}

// The valve's edge may stand past the port at dead centre; the port is then open
// by its width, and by no more.
func TestOpeningIsNoWiderThanThePort(t *testing.T) {
	g := demo()
	g.Advance = 60 * units.Degree
	g.Valve = g.Ports.ValveWith(Laps{Steam: units.MM(0.2)}) // 3.2 sin 60 - 0.2 = 2.57, and 0.02 of slant
	f, ok := find(findings(t, g), LargeLead, HeadEnd)
	if !ok || !strings.Contains(f.Text, "is open by 2 mm (78.7 thou) at dead centre, its full width, with the valve's edge 0.59 mm (23.3 thou) past it:") {
		t.Errorf("%v", f)
	}
	share := regexp.MustCompile(`(\d+) %`)
	for advance := -180; advance <= 180; advance += 2 {
		g := demo()
		g.Advance = units.Angle(advance) * units.Degree
		for _, f := range findings(t, g) {
			for _, m := range share.FindAllStringSubmatch(f.Text, -1) {
				if v, err := strconv.Atoi(m[1]); err != nil || v > 100 {
					t.Errorf("%d deg: %s", advance, f.Text)
				}
			}
		}
	}
}

// A move of the valve has one figure wherever it is named, and none that is too
// small to be set is named at all.
func TestOneMoveOneFigure(t *testing.T) {
	move := regexp.MustCompile(`(?i)move the valve ([^)]*\)) (towards|away from) the crank`)
	for _, hundredths := range []int{-90, -57, -30, -12, -11, -7, -3, 0, 3, 7, 57} {
		g := demo()
		g.Valve.Offset = units.Micron(10 * float64(hundredths))
		want, err := g.MoveForEqualLead()
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings(t, g) {
			for _, m := range move.FindAllStringSubmatch(f.told(), -1) {
				if want.IsZero() || m[1] != toBeSet(want.Abs()) || (m[2] == "towards") != (want.Sign() > 0) {
					t.Errorf("offset %v, move %v: %v: %s", g.Valve.Offset, want, f.Code, f.told())
				}
			}
		}
	}
	// The valve 2 mm long: 0.045 mm would make the leads equal. EC-21: it is answered
	// with the valve, and with what it costs to live with it.
	for _, test := range []struct {
		length float64
		want   []string
	}{
		{17.4, []string{"Take 0.8 mm (31.4 thou) off each end of the valve, which is then 15.8 mm (0.622 in) long",
			"Or leave the valve: turn the eccentric", "an advance of 43.4 deg", "58.7 % of the stroke at the head end and 46.8 % at the crank end"}},
		{13.4, []string{"Make a valve 15.8 mm (0.622 in) long over its outer edges, or let strips into this one, 1.2 mm (47.4 thou) at each end",
			"an advance of 3.6 deg", "99.8 % of the stroke at the head end and 99.3 % at the crank end"}},
	} {
		g := demo()
		g.Valve.Length = units.MM(test.length)
		f := findings(t, g)[0]
		for _, want := range test.want {
			if !strings.Contains(f.told(), want) {
				t.Errorf("%v: no %q in %s", test.length, want, f.told())
			}
		}
		if len(f.Remedies) != 2 || strings.Contains(f.told(), "0.04") {
			t.Errorf("%v: %q", test.length, f.Remedies)
		}
	}
}

// A valve rod too long by 0.08: the openings differ by twice that. Half the travel
// of 0.45 less the lap of 0.12 is 0.33 in, more or less 0.08. (Invented figures.)
func TestRodTooLong(t *testing.T) {
	g := simple(units.Inch(0.9), units.Inch(0.12), units.Length{}, units.Inch(1), 30*units.Degree)
	g.Valve.Offset = units.Inch(0.08)
	e := events(t, g)
	near(t, "openings", e.Head.Opening.Inch(), 0.41, 1e-9)
	near(t, "openings", e.Crank.Opening.Inch(), 0.25, 1e-9)
	f, ok := find(findings(t, g), OffCentre, BothEnds)
	if !ok || f.Amount != units.Inch(0.08) {
		t.Errorf("%v", f)
	}
}

// An engine that does not run has no blind arc, and its cut-offs are not said to
// be normal.
func TestCheckSaysNothingNormalOfAnEngineThatStops(t *testing.T) {
	for _, spoil := range []func(*Gear){
		func(g *Gear) { g.Advance = 154 * units.Degree },
		func(g *Gear) { g.Travel = units.MM(2) },
	} {
		g := demo()
		spoil(&g)
		for _, f := range findings(t, g) {
			if f.Code == BlindArc || f.Code == UnequalCutOff {
				t.Errorf("%v: %s", f.Code, f.Text)
			}
		}
	}
}

// Where the travel was stated amiss the angle is not suspected too, and a slip of
// the angle does not claim to cure what the ports have.
func TestSlipsDoNotContradict(t *testing.T) {
	for _, follows := range []bool{false, true} {
		g := demo()
		if g.LeverRatio = 0; follows {
			g.LeverRatio = -1
		}
		half := g
		half.Travel = units.MM(3.2)
		for _, f := range findings(t, half) {
			if f.Slip != (f.Code == OffsetForTravel) {
				t.Errorf("half the travel: %v", f)
			}
		}
		typed := g
		typed.Advance = 116 * units.Degree
		f, ok := find(findings(t, typed), AngleFromCrank, BothEnds)
		if !ok || !says(f, "none of the trouble that is told below") || !strings.Contains(f.Remedies[0], "state the advance as 26.0 deg") {
			t.Errorf("116 for 26 (%v): %v", follows, f)
		}
		typed.Valve = typed.Ports.ValveWith(Laps{Steam: units.MM(1.2), Exhaust: units.MM(2.5)}) // opens by 0.7 of 2 mm
		f, ok = find(findings(t, typed), AngleFromCrank, BothEnds)
		if !ok || says(f, "none of the trouble that is told") || !says(f, "while what is told below of ports and valve stays") {
			t.Errorf("and much exhaust lap (%v): %v", follows, f)
		}
	}
}

// A piston valve whose ports leave no room for a lap of a quarter of the travel: no
// size below nothing is ever named, and what is named makes the engine work.
func TestLittleWorkNamesSizesThatAre(t *testing.T) {
	g := demo()
	g.ConnectingRod, g.EccentricRod = RodOf(units.MM(40)), RodOf(units.MM(16.25))
	g.Travel, g.InsideAdmission, g.LeverRatio = units.MM(6.5), true, -1
	g.Ports = Ports{Steam: units.MM(1), Bar: units.MM(1), Exhaust: units.MM(1)}
	g.Valve = Valve{Length: units.MM(5), Cavity: units.MM(2.59375)}
	g.Advance = 3.5833216984719782 * units.Degree
	for travel := 3.0; travel < 9; travel += 0.05 {
		for advance := 0.; advance < 90; advance += 5 {
			g.Travel, g.Advance = units.MM(travel), units.Angle(advance)*units.Degree
			for _, f := range findings(t, g) {
				for _, r := range f.Remedies {
					if strings.Contains(r, "make no gear") || strings.Contains(r, "valve -") || strings.Contains(r, "cavity -") {
						t.Fatalf("travel %g, advance %g: %v %q", travel, advance, f.Code, r)
					}
				}
			}
		}
	}
}

// Who states his gear amiss need not have a sound lead: an inch engine whose lead is a
// third of its port. One that is right but for its lead is no slip.
func TestSlipOfALeadThatIsLarge(t *testing.T) {
	inch := units.InchFraction
	right := Gear{
		Stroke: inch(7, 8), ConnectingRod: RodOf(inch(9, 4)), Travel: inch(1, 4), EccentricRod: RodOf(units.Inch(2)),
		Advance: 33 * units.Degree, Ports: Ports{Steam: inch(1, 16), Bar: inch(3, 32), Exhaust: inch(1, 8)},
		Valve: Valve{Length: inch(17, 32), Cavity: inch(5, 16)},
	}
	for _, row := range []struct {
		name   string
		stated func(*Gear)
		code   finding.Code
		says   string
	}{
		{"right", func(*Gear) {}, "", ""},
		{"the other direction", func(g *Gear) { g.Advance = 147 * units.Degree }, "", ""},
		{"from the crank", func(g *Gear) { g.Advance = 123 * units.Degree }, AngleFromCrank, "only the lead left to be set"},
		{"minus", func(g *Gear) { g.Advance = -g.Advance }, AdvanceOfOtherSign, "only the lead left to be set"},
		{"half", func(g *Gear) { g.Travel = inch(1, 8) }, OffsetForTravel, "openings are sound, and there is only the lead left"},
		{"double", func(g *Gear) { g.Travel = inch(1, 2) }, TravelForOffset, "openings are sound, and there is only the lead left"},
	} {
		g := right
		row.stated(&g)
		var slips []Finding
		for _, f := range findings(t, g) {
			if f.Slip {
				slips = append(slips, f)
			}
		}
		switch {
		case row.code == "" && len(slips) > 0, row.code != "" && len(slips) != 1:
			t.Errorf("%s: %v", row.name, slips)
		case row.code != "" && (slips[0].Code != row.code || !says(slips[0], row.says)):
			t.Errorf("%s: %v", row.name, slips[0])
		}
	}
}

// Both ports stand 1.5 mm too near to the head end, and the valve has been set off
// centre by as much: nothing of it is open in mid-travel. Set in the middle of the
// exhaust port it opens the head port by 1.5 - 1.2 mm.
func TestMidTravelOfEndsThatDiffer(t *testing.T) {
	g := demo()
	g.Ports.Bar, g.Ports.CrankBar = units.MM(4), units.MM(1)
	f, ok := find(findings(t, g), NoSteamLap, HeadEnd)
	if !ok || f.Amount != units.MM(0.3) {
		t.Errorf("in the middle: %v", f)
	}
	g.Valve.Offset = units.MM(-1.5)
	for _, f := range findings(t, g) {
		if f.Code == NoSteamLap || f.Code == OpenAtMidTravel {
			t.Errorf("set to suit: %v", f)
		}
	}
}
