package eccentric

import (
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
