package eccentric

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// The questions below are those that builders of small engines ask most. The
// angles and ratios follow from the geometry and need no source; where a figure
// is a rule of the trade it says so.

// Ninety degrees and an advance of 30 to 40 (common practice of small engines),
// the port just cracking at dead centre: which cut-off is that?
func TestCutOffOfCommonAdvance(t *testing.T) {
	for _, test := range []struct{ advance, lap, angle, infinite, head, crank float64 }{
		{30, 0.500, 120, 75.0, 79.7, 70.3},
		{35, 0.574, 110, 67.1, 72.7, 61.5},
		{40, 0.643, 100, 58.7, 64.8, 52.5},
	} {
		g := simple(units.MM(20), units.MM(10*math.Sin(test.advance*math.Pi/180)), units.Length{}, units.MM(5), units.Angle(test.advance)*units.Degree)
		e := events(t, g)
		near(t, "S/r", g.Laps().Steam.MM()/10, test.lap, 0.0005)
		near(t, "cut-off angle", e.Head.CutOff.Crank.Degrees(), test.angle, 1e-6)
		near(t, "cut-off, infinite rod", 100*e.Head.CutOff.Stroke, test.infinite, 0.05)
		g.ConnectingRod = g.Stroke.Scale(2) // four cranks
		e = events(t, g)
		near(t, "cut-off, head end", 100*e.Head.CutOff.Stroke, test.head, 0.05)
		near(t, "cut-off, crank end", 100*e.Crank.CutOff.Stroke, test.crank, 0.05)
	}
}

// To reverse an engine the eccentric turns by 180 degrees less twice the
// advance. Turned by 180 instead, it opens the port by twice the advance late.
func TestReversing(t *testing.T) {
	for _, advance := range []units.Angle{30, 35, 40} {
		g := simple(units.MM(20), units.MM(10*math.Sin((advance*units.Degree).Radians())), units.Length{}, units.MM(5), advance*units.Degree)
		near(t, "turn", g.TurnToReverse().Degrees(), 180-2*float64(advance), 1e-9)
		for _, lever := range []float64{0, 1, -1} {
			for _, inside := range []bool{false, true} {
				g.LeverRatio, g.InsideAdmission = lever, inside
				// The sheave's new place is the mirror image of the old about the crank.
				sum := 2*g.EccentricLead() + g.TurnToReverse()
				near(t, "place after the turn", math.Cos(sum.Radians()), 1, 1e-12)
			}
		}
		g.LeverRatio, g.InsideAdmission = 0, false

		flipped := g
		flipped.Advance = -g.Advance // seen in the new direction of rotation
		near(t, "port opens after dead centre", events(t, flipped).Head.Admission.Crank.Degrees(), 2*float64(advance), 1e-6)
	}
}

// What the valve stands at with the crank on dead centre tells what is wrong
// with the setting: r = 3, S = 1 and a lead of 0.2 want 1.2 mm.
func TestReadingsAtDeadCentre(t *testing.T) {
	right := simple(units.MM(6), units.MM(1), units.Length{}, units.MM(2), 0)
	right = withLead(t, right, units.MM(0.2))
	near(t, "advance", right.Advance.Degrees(), 23.6, 0.05)
	for _, test := range []struct {
		fault   string
		advance units.Angle
		want    float64
	}{
		{"right", right.Advance, 1.2},
		{"on the wrong hand", -right.Advance, -1.2},
		{"in line with the crank", 90 * units.Degree, 3},
		{"in line the other way", -90 * units.Degree, -3},
		{"no advance", 0, 0},
	} {
		g := right
		g.Advance = test.advance
		x, err := g.Displacement(0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, test.fault, x.MM(), test.want, 1e-6)
	}
}

// Leads of 1/64 and 3/64 in where 1/64 is wanted at both: make the valve 1/32
// longer and shift it 1/64.
func TestUnequalLeads(t *testing.T) {
	inch := units.InchFraction
	g := simple(inch(1, 2), inch(7, 64), units.Length{}, inch(1, 8), 0)
	g = withLead(t, g, inch(1, 32))
	g.Valve.Offset = inch(-1, 64)
	e := events(t, g)
	near(t, "head lead", e.Head.Lead.Inch(), 1.0/64, 1e-9)
	near(t, "crank lead", e.Crank.Lead.Inch(), 3.0/64, 1e-9)
	g.Valve.Length = g.Valve.Length.Add(inch(1, 32))
	g.Valve.Offset = g.Valve.Offset.Add(inch(1, 64))
	e = events(t, g)
	near(t, "head lead after", e.Head.Lead.Inch(), 1.0/64, 1e-9)
	near(t, "crank lead after", e.Crank.Lead.Inch(), 1.0/64, 1e-9)
}

// A valve rod 0.1 too long: the travel ends read 0.9 and 1.9, the ports crack at
// 1.4 and 1.6 (worked figures of a model-engineering forum). The openings then
// differ by twice that.
func TestRodTooLong(t *testing.T) {
	g := simple(units.Inch(1), units.Inch(0.1), units.Length{}, units.Inch(1), 30*units.Degree)
	g.Valve.Offset = units.Inch(0.1)
	e := events(t, g)
	near(t, "openings", e.Head.Opening.Inch(), 0.5, 1e-9)
	near(t, "openings", e.Crank.Opening.Inch(), 0.3, 1e-9)
	f, ok := find(findings(t, g), OffCentre, BothEnds)
	if !ok || f.Amount != units.Inch(0.1) {
		t.Errorf("%v", f)
	}
}

// Common practice: a quarter inch of valve movement needs an eighth of an inch
// of offset, and a dial on the sheave reads the quarter. 3.5 mm of offset reads
// 7 mm.
func TestOffsetIsHalfTheTravel(t *testing.T) {
	g := demo()
	g.Travel = units.InchFraction(1, 4)
	if got := g.EccentricOffset(); got != units.InchFraction(1, 8) {
		t.Errorf("offset %v", got)
	}
	g.Travel = units.MM(7)
	if got := g.EccentricOffset(); got != units.MM(3.5) {
		t.Errorf("offset %v", got)
	}
	g.LeverRatio = -2
	if got := g.EccentricOffset(); got != units.MM(1.75) {
		t.Errorf("offset behind a lever of two to one %v", got)
	}
}

// Scaled-down exhaust laps are below what a workshop holds: five thou on a
// travel of a quarter inch moves release by 2.3 degrees, ten by 4.6.
func TestExhaustLapError(t *testing.T) {
	line := events(t, simple(units.Inch(0.25), units.Inch(0.05), units.Length{}, units.Inch(0.1), 0)).Head.Release
	for thou, want := range map[float64]float64{5: 2.3, 10: 4.6} {
		e := events(t, simple(units.Inch(0.25), units.Inch(0.05), units.Thou(thou), units.Inch(0.1), 0)).Head.Release
		near(t, "shift of release", (e.Crank - line.Crank).Degrees(), want, 0.05)
	}
	p := Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	if v := p.ValveWith(Laps{Steam: units.MM(1)}); v.Cavity != units.MM(12) || v.Length != units.MM(20) {
		t.Errorf("valve %v", v)
	}
	g := Gear{Stroke: units.MM(25), Travel: units.MM(6), Ports: p, Valve: p.ValveWith(Laps{Steam: units.MM(1)})}
	if e := events(t, g).Head; e.Opening != units.MM(2) || e.OverTravel != units.MM(-1) {
		t.Errorf("opening %v, over-travel %v", e.Opening, e.OverTravel)
	}
	// A valve off centre opens one port further and the other less.
	g.Valve.Offset = units.MM(0.25)
	if e := events(t, g); e.Head.OverTravel != units.MM(-0.75) || e.Crank.OverTravel != units.MM(-1.25) {
		t.Errorf("over-travel %v and %v", e.Head.OverTravel, e.Crank.OverTravel)
	}
}

// Which sizes of the port face matter? The edges along the travel. The outer
// edge of the valve sweeps half its length less and more half the travel, 7 to
// 13 mm from the centre; a relief groove belongs beyond the port's outer edge, at
// 9, and a land that seals, and short of 13.
func TestSweepOfTheValve(t *testing.T) {
	p := Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	g := Gear{Stroke: units.MM(25), Travel: units.MM(6), Ports: p, Valve: p.ValveWith(Laps{Steam: units.MM(1)})}
	nearest, furthest := units.MM(100), units.Length{}
	for crank := range 3600 {
		x, err := g.Displacement(units.Angle(crank) * units.Degree / 10)
		if err != nil {
			t.Fatal(err)
		}
		edge := g.Valve.Length.Scale(0.5).Add(x)
		if edge.Cmp(nearest) < 0 {
			nearest = edge
		}
		if edge.Cmp(furthest) > 0 {
			furthest = edge
		}
	}
	near(t, "nearest", nearest.MM(), 7, 1e-9)
	near(t, "furthest", furthest.MM(), 13, 1e-9)
	near(t, "outer edge of the port", p.Exhaust.Scale(0.5).Add(p.Bar).Add(p.Steam).MM(), 9, 0)
	near(t, "share of the port that opens", events(t, g).Head.Opening.Ratio(p.Steam), 0.67, 0.005)
}

// With a rod of six cranks the piston is half way at 85.22 degrees and 4.20 per
// cent past it at 90; a cut-off of 75 per cent at the head end comes at 115.58.
func TestRodSlant(t *testing.T) {
	g := demo()
	g.Stroke, g.ConnectingRod = units.MM(20), units.MM(60)
	for share, want := range map[float64]float64{0.5: 85.22, 0.75: 115.58} {
		at, err := g.CrankAt(share)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("crank at %v", share), at.Degrees(), want, 0.005)
	}
	s, err := g.PistonPosition(90 * units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "past half way", 100*s.Ratio(g.Stroke)-50, 4.20, 0.005)
	// The lap for it, with no lead: S/r = sin(advance), cut-off at 180 - 2 advance.
	near(t, "S/r", math.Sin((180-115.58)/2*math.Pi/180), 0.533, 0.0005)
}

// Two cranks at right angles start from anywhere if neither end cuts off before
// 90 degrees; as a share of the stroke that is more at the head end than at the
// crank end.
func TestCutOffAtNinety(t *testing.T) {
	for n, want := range map[float64]float64{4: 56.4, 5: 55.1, 6: 54.2} {
		g := demo()
		g.Stroke, g.ConnectingRod = units.MM(20), units.MM(10*n)
		s, err := g.PistonPosition(90 * units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "head end", 100*s.Ratio(g.Stroke), want, 0.05)
		if n == 5 {
			kick, err := g.PistonPosition(50 * units.Degree)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "piston after 50 degrees", 100*kick.Ratio(g.Stroke), 20.8, 0.05)
		}
	}
}

// What drives is what is open on the way out, whatever the events are.
func TestDriven(t *testing.T) {
	deg := func(v float64) Event { return Event{Occurs: true, Crank: units.Angle(v) * units.Degree} }
	for name, test := range map[string]struct {
		e        EndEvents
		from, to float64
	}{
		"lead":               {EndEvents{Admission: deg(-5), CutOff: deg(120)}, 0, 120},
		"late":               {EndEvents{Admission: deg(20), CutOff: deg(150)}, 20, 150},
		"follows the piston": {EndEvents{Admission: deg(-5), CutOff: deg(185)}, 0, 180},
		"only on the way in": {EndEvents{Admission: deg(-120), CutOff: deg(-10)}, 0, 0},
		"never opens":        {EndEvents{Steam: NeverOpens}, 0, 0},
		"never closes":       {EndEvents{Steam: NeverCloses}, 0, 180},
	} {
		from, to := test.e.Driven()
		near(t, name, from.Degrees(), test.from, 1e-9)
		near(t, name, to.Degrees(), test.to, 1e-9)
	}
}
