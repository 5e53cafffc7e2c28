package eccentric

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Questions that builders ask, worked out beforehand by geometry; see
// testdata/cases.csv. The figures of the engines are ours.

// EC-01: the eccentric stands 90 degrees and 30 to 40 ahead of the crank, the port
// just opens at the dead centre: lap over half the travel is the sine of the
// advance, and cut-off comes at 180 less twice the advance.
func TestCaseCutOffOfAnAdvance(t *testing.T) {
	for _, test := range []struct{ advance, lap, cutOff, endless, head, crank float64 }{
		{30, 0.500, 120, 75.0, 79.7, 70.3}, {35, 0.574, 110, 67.1, 72.7, 61.5}, {40, 0.643, 100, 58.7, 64.8, 52.5},
	} {
		advance := units.Angle(test.advance) * units.Degree
		near(t, "EC-01 lap over half the travel", math.Sin(advance.Radians()), test.lap, 0.0005)
		g := simple(units.MM(20), units.MM(10).Scale(math.Sin(advance.Radians())), units.Length{}, units.MM(5), advance)
		e := events(t, g)
		near(t, "EC-01 lead", e.Head.Lead.MM(), 0, 1e-8)
		near(t, "EC-01 cut-off", e.Head.CutOff.Crank.Degrees(), test.cutOff, 1e-6)
		near(t, "EC-01 endless rod", 100*e.Head.CutOff.Stroke, test.endless, 0.05)
		g.ConnectingRod = RodOf(g.Stroke.Scale(2)) // four cranks
		e = events(t, g)
		near(t, "EC-01 head end", 100*e.Head.CutOff.Stroke, test.head, 0.05)
		near(t, "EC-01 crank end", 100*e.Crank.CutOff.Stroke, test.crank, 0.05)
	}
}

// EC-02: to reverse, the sheave turns by 180 degrees less twice the advance; half
// a turn instead admits steam twice the advance late.
func TestCaseReverse(t *testing.T) {
	for _, test := range []struct{ advance, turn, late float64 }{{30, 120, 60}, {35, 110, 70}, {40, 100, 80}} {
		advance := units.Angle(test.advance) * units.Degree
		g := simple(units.MM(20), units.MM(10).Scale(math.Sin(advance.Radians())), units.Length{}, units.MM(5), advance)
		near(t, "EC-02 turn", g.TurnToReverse().Degrees(), test.turn, 1e-9)
		g.Advance = -g.Advance // half a turn, seen in the other direction
		near(t, "EC-02 late by", events(t, g).Head.Admission.Crank.Degrees(), test.late, 1e-6)
	}
}

// EC-03: where the valve stands at the head-end dead centre, and what it does as
// the crank moves on, for each wrong place of a sheave with an offset of 3, a lap
// of 1 and a lead of 0.2 mm.
func TestCaseWrongPlaces(t *testing.T) {
	g := withLead(t, simple(units.MM(6), units.MM(1), units.Length{}, units.MM(2), 0), units.MM(0.2))
	right := g.Advance
	near(t, "EC-03 advance", right.Degrees(), 23.58, 0.005)
	for _, test := range []struct {
		name    string
		advance units.Angle
		stands  float64 // mm, towards opening the head port
		opening bool    // as the crank moves on
		cure    units.Angle
	}{
		{"EC-03 right", right, 1.2, true, 0},
		{"EC-03 half a turn out", right - halfTurn, -1.2, false, halfTurn},
		{"EC-03 short by twice the advance", -right, -1.2, true, 2 * right},
		{"EC-03 in line, away from the crank", halfTurn / 2, 3, false, 0},
		{"EC-03 in line, with the crank", -halfTurn / 2, -3, true, 0},
		{"EC-03 no advance", 0, 0, true, right},
		{"EC-03 mirrored", halfTurn - right, 1.2, false, 2*right - halfTurn},
	} {
		wrong := g
		wrong.Advance = test.advance
		x, err := wrong.Displacement(0)
		next, _ := wrong.Displacement(1 * units.Degree)
		near(t, test.name, x.MM(), test.stands, 1e-8)
		if err != nil || (next.Cmp(x) > 0) != test.opening {
			t.Errorf("%s: then at %v, %v", test.name, next, err)
		}
		if test.cure != 0 {
			near(t, test.name+": cured by turning it", math.Cos(float64(test.advance+test.cure-right)), 1, 1e-12)
		}
		e := events(t, wrong)
		near(t, test.name+": both ends alike", e.Head.Lead.MM(), e.Crank.Lead.MM(), 1e-8)
	}
	near(t, "EC-03 half a turn or twice the advance", (2 * right).Degrees(), 47.16, 0.005)
	mirrored := g
	mirrored.Advance = halfTurn - right
	near(t, "EC-03 mirrored: turn by", g.TurnToReverse().Degrees(), 132.84, 0.005)
	if f, ok := find(findings(t, mirrored), RunsBackwards, BothEnds); !ok || len(f.Remedies) != 2 {
		t.Errorf("EC-03 mirrored: %v", f)
	}
}

// EC-04: 1/64 in is wanted at both ends and 3/64 found at the second: the valve is
// to be 1/32 longer and shifted by 1/64. Where the sum is right, half the
// difference shifts it and its length stays.
func TestCaseUnequalLead(t *testing.T) {
	inch := units.InchFraction
	g := withLead(t, simple(inch(1, 2), inch(7, 64), units.Length{}, inch(1, 8), 0), inch(1, 32))
	g.Valve.Offset = inch(-1, 64)
	e := events(t, g)
	near(t, "EC-04 first end", e.Head.Lead.Inch(), 1./64, 1e-9)
	near(t, "EC-04 second end", e.Crank.Lead.Inch(), 3./64, 1e-9)
	change := e.Crank.Lead.Sub(e.Head.Lead)
	near(t, "EC-04 lengthen by", change.Inch(), 1./32, 1e-9)
	move, err := g.MoveForEqualLead()
	near(t, "EC-04 shift by", move.Inch(), 1./64, 1e-9)
	g.Valve.Length, g.Valve.Offset = g.Valve.Length.Add(change), g.Valve.Offset.Add(move)
	e = events(t, g)
	near(t, "EC-04 first end after", e.Head.Lead.Inch(), 1./64, 1e-9)
	near(t, "EC-04 second end after", e.Crank.Lead.Inch(), 1./64, 1e-9)
	if err != nil {
		t.Error(err)
	}
}

// EC-06: a movement of 5 in at an eighth of the size is a travel of 0.625 and an
// offset of 0.3125 in; an offset of 3.5 mm shows 7 on the dial. A lever changes
// what the sheave is made to.
func TestCaseOffsetOrTravel(t *testing.T) {
	g := demo()
	g.Travel = units.Inch(5).Scale(1. / 8)
	if got := g.EccentricOffset(); g.Travel != units.Inch(0.625) || got != units.Inch(0.3125) {
		t.Errorf("EC-06: travel %v, offset %v", g.Travel, got)
	}
	g.Travel = units.MM(7)
	if got := g.EccentricOffset(); got != units.MM(3.5) || got.Scale(2) != units.MM(7) {
		t.Errorf("EC-06: offset %v", got)
	}
	g.LeverRatio = 2
	if got := g.EccentricOffset(); got != units.MM(1.75) {
		t.Errorf("EC-06: offset behind a lever %v", got)
	}
}

// EC-10: 1/8 in of inside lap is 0.0043 in at 1:29 and 0.0039 at 1:32, 1/64 in of
// clearance 0.0005: below what is made. 5 thou on the exhaust lap move release and
// compression by 2.3 degrees where the half travel is 1/8 in, 10 thou by 4.6.
func TestCaseCavity(t *testing.T) {
	near(t, "EC-10 1:29", units.InchFraction(1, 8).Scale(1./29).Inch(), 0.0043, 0.00005)
	near(t, "EC-10 1:32", units.InchFraction(1, 8).Scale(1./32).Inch(), 0.0039, 0.00005)
	near(t, "EC-10 clearance", units.InchFraction(1, 64).Scale(1./32).Inch(), 0.0005, 0.00005)
	p := Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	if v := p.ValveWith(Laps{Steam: units.MM(1)}); v.Cavity != units.MM(12) || v.Length != units.MM(20) {
		t.Errorf("EC-10: %+v", v)
	}
	g := simple(units.Inch(0.25), units.Inch(0.05), units.Length{}, units.Inch(0.0625), 25*units.Degree)
	before := events(t, g).Head
	for thou, want := range map[float64]float64{5: 2.3, 10: 4.6} {
		after := events(t, g.withExhaustLap(units.Thou(thou))).Head
		near(t, "EC-10 release later by", (after.Release.Crank - before.Release.Crank).Degrees(), want, 0.05)
		near(t, "EC-10 compression earlier by", (before.Compression.Crank - after.Compression.Crank).Degrees(), want, 0.05)
		moved, err := g.MovedByExhaustLap(units.Thou(thou))
		near(t, "EC-10 moved", moved.Degrees(), 180/math.Pi*math.Asin(thou/125), 1e-6)
		near(t, "EC-10 moved", moved.Degrees(), want, 0.05)
		if err != nil {
			t.Error(err)
		}
	}
	for _, test := range []struct{ lap, scale float64 }{{1. / 8, 29}, {1. / 8, 32}, {-1. / 64, 32}} {
		scaled := g.withExhaustLap(units.Inch(test.lap / test.scale))
		f, ok := find(findings(t, scaled), LittleExhaustLap, BothEnds)
		if !ok || f.Severity != finding.Note || len(f.Remedies) != 1 || !says(f, "line on line") || !says(f, "5 thou) moves release and compression by 2.3 deg") {
			t.Errorf("EC-10: %v at 1:%v: %v", test.lap, test.scale, f)
		}
	}
	for _, lap := range []float64{0, 5, -5, 40} {
		if f, ok := find(findings(t, g.withExhaustLap(units.Thou(lap))), LittleExhaustLap, BothEnds); ok {
			t.Errorf("EC-10: a lap of %v thou: %v", lap, f)
		}
	}
}

// EC-11: ports of 3, bars of 3, an exhaust port of 6, a valve of 20 and half a
// travel of 3 mm: the valve's ends run from 7 to 13 mm from the middle and the
// ports end at 9; the port opens by 2 of its 3 mm.
func TestCasePortEdges(t *testing.T) {
	p := Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	g := demo()
	g.Ports, g.Travel, g.Valve = p, units.MM(6), p.ValveWith(Laps{Steam: units.MM(1)})
	if s := g.Sweep(); s.Min != units.MM(7) || s.Max != units.MM(13) || s.Ports != units.MM(9) {
		t.Errorf("EC-11: %+v", s)
	}
	e := events(t, g)
	if e.Head.Opening != units.MM(2) {
		t.Errorf("EC-11: opening %v", e.Head.Opening)
	}
	near(t, "EC-11 share of the port", 100*e.Head.Opening.Ratio(p.Steam), 67, 0.5)
	long := g
	long.Ports.Length = units.MM(30) // across the travel: no event depends on it
	if events(t, long) != e {
		t.Error("EC-11: the length of the ports moves an event")
	}
}

// EC-12: with a rod of six cranks the piston is half way at 85.22 degrees and 4.20
// per cent past it at 90; cut-off at 75 per cent of the head end comes at 115.58
// and wants a lap of 0.533 of half the travel with no lead.
func TestCaseEndsThatDiffer(t *testing.T) {
	g := simple(units.MM(20), units.MM(5.33), units.Length{}, units.MM(4), 0)
	g.ConnectingRod = RodOf(g.Stroke.Scale(3))
	half, err := g.CrankAt(0.5)
	near(t, "EC-12 half way", half.Degrees(), 85.22, 0.005)
	at90, _ := g.PistonPosition(90 * units.Degree)
	near(t, "EC-12 at 90", 100*at90.Ratio(g.Stroke)-50, 4.20, 0.005)
	cut, _ := g.CrankAt(0.75)
	near(t, "EC-12 cut-off", cut.Degrees(), 115.58, 0.005)
	near(t, "EC-12 lap", math.Cos(cut.Radians()/2), 0.533, 0.0005) // S/r = sin d, and cut-off is at 180 - 2 d
	g = withLead(t, g, units.Length{})
	e := events(t, g)
	near(t, "EC-12 head end", e.Head.CutOff.Stroke, 0.75, 0.0005)
	f, ok := find(findings(t, g), UnequalCutOff, BothEnds)
	if err != nil || !ok || f.Severity != finding.Note || !(e.Head.CutOff.Stroke > e.Crank.CutOff.Stroke) {
		t.Errorf("EC-12: %v, %v", f, err)
	}
}

// EC-15: a slip eccentric that turns by 120 degrees between its stops has an
// advance of 30: with a travel of 4 and a lap of 0.6 mm a lead of 0.40. A lead of
// 0.1 wants an advance of 20.49 and a turn of 139.0; that a mill cuts the slot
// longer by the pin makes 128 degrees, for 26, into 36.8 of advance.
func TestCaseSlipEccentric(t *testing.T) {
	g := simple(units.MM(4), units.MM(0.6), units.Length{}, units.MM(1.6), 30*units.Degree)
	near(t, "EC-15 turn", g.TurnToReverse().Degrees(), 120, 1e-9)
	e := events(t, g).Head
	near(t, "EC-15 lead", e.Lead.MM(), 0.40, 1e-8)
	near(t, "EC-15 admission", e.Admission.Crank.Degrees(), -12.54, 0.005)
	near(t, "EC-15 cut-off", e.CutOff.Crank.Degrees(), 132.54, 0.005)
	g = withLead(t, g, units.MM(0.1))
	near(t, "EC-15 advance", g.Advance.Degrees(), 20.49, 0.005)
	near(t, "EC-15 turn for it", g.TurnToReverse().Degrees(), 139.0, 0.05)
	g.Advance = 26 * units.Degree
	near(t, "EC-15 turn for 26", g.TurnToReverse().Degrees(), 128, 1e-9)
	slot, err := g.SlotFor(units.MM(3), units.MM(8))
	near(t, "EC-15 slot", slot.Degrees(), 149.6, 0.05)
	short, errShort := g.WithSlot(128*units.Degree, units.MM(3), units.MM(8))
	near(t, "EC-15 advance of a slot of 128", short.Advance.Degrees(), 36.8, 0.05)
	if err != nil || errShort != nil {
		t.Error(err, errShort)
	}
}

// EC-17: the leads of the demonstration engine with the sheave slipped back by 10
// degrees are both short; with the valve 0.3 mm off towards the head end one is
// up and one down, and the openings tell it.
func TestCaseWhichPartIsOut(t *testing.T) {
	right := events(t, demo())
	slipped := demo()
	slipped.Advance -= 10 * units.Degree
	e := events(t, slipped)
	near(t, "EC-17 slipped, head", e.Head.Lead.MM(), -0.239, 0.0005)
	near(t, "EC-17 slipped, crank", e.Crank.Lead.MM(), -0.397, 0.0005)
	if e.Head.Opening != right.Head.Opening || e.Head.OverTravel != right.Head.OverTravel {
		t.Error("EC-17: a slipped sheave changes the openings")
	}
	shifted := demo()
	shifted.Valve.Offset = units.MM(-0.3)
	e = events(t, shifted)
	near(t, "EC-17 shifted, head", e.Head.Lead.MM(), -0.028, 0.0005)
	near(t, "EC-17 shifted, crank", e.Crank.Lead.MM(), 0.434, 0.0005)
	if e.Head.OverTravel.Sub(e.Crank.OverTravel) != units.MM(-0.6) {
		t.Errorf("EC-17: the edges differ by %v", e.Head.OverTravel.Sub(e.Crank.OverTravel))
	}
}

// EC-22: 116 was typed, 90 and the advance, where the advance was asked: that is
// told first, as grave as what it explains, and nobody is told to turn the sheave
// to 154 degrees. The offset typed for the travel is suspected in the same way.
func TestCaseStatedAmiss(t *testing.T) {
	typed := demo()
	typed.Advance = 116 * units.Degree
	all := findings(t, typed)
	if f := all[0]; f.Code != AngleFromCrank || f.Severity != finding.Fails || !f.Slip || !says(f, "An advance of 26.0 deg stands there") {
		t.Errorf("EC-22: %v", f)
	}
	for _, f := range all {
		if says(f, "154") || says(f, "64.0") {
			t.Errorf("EC-22: %v", f)
		}
	}
	half := demo()
	half.Travel = units.MM(3.2)
	if f := findings(t, half)[0]; f.Code != OffsetForTravel || f.Severity != finding.Caution || !f.Slip || !says(f, "With a travel of 6.4 mm") {
		t.Errorf("EC-22: %v", f)
	}
	double := demo()
	double.Travel = units.MM(12.8)
	if f := findings(t, double)[0]; f.Code != TravelForOffset || f.Severity != finding.Fails || !f.Slip || !says(f, "travel of 6.4 mm") {
		t.Errorf("EC-22: %v", f)
	}
}
