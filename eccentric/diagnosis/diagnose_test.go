package diagnosis_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/units"
)

// demo is the gear of the demonstration engine.
func demo() eccentric.Gear {
	return eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)), Travel: units.MM(6.4),
		EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
}

// readings are all that the events of a gear can be read for, without an error.
func readings(g eccentric.Gear) []diagnosis.Reading {
	e, _ := g.Events()
	var rs []diagnosis.Reading
	for _, end := range []eccentric.End{1, 2} {
		x := e.Head
		if end == 2 {
			x = e.Crank
		}
		for i, ev := range []eccentric.Event{x.Admission, x.CutOff, x.Release, x.Compression} {
			rs = append(rs, diagnosis.Reading{Kind: diagnosis.Kind(i + 1), End: end, Angle: units.Angle(math.Remainder(float64(ev.Crank), 2*math.Pi)), Never: !ev.Occurs})
		}
		rs = append(rs, diagnosis.Reading{Kind: diagnosis.Lead, End: end, Length: x.Lead})
	}
	return append(rs, diagnosis.Reading{Kind: diagnosis.Travel, Length: g.Travel.Sub(g.Valve.LostMotion)})
}

// Each fault, planted by itself into the demonstration engine and read without an
// error, is named, is sure and has its amount.
func TestSingles(t *testing.T) {
	for _, row := range []struct {
		change func(g *eccentric.Gear)
		want   diagnosis.Fault
		end    eccentric.End
		mm     float64
		deg    float64
	}{
		{func(g *eccentric.Gear) {}, diagnosis.AsDrawn, eccentric.BothEnds, 0, 0},
		{func(g *eccentric.Gear) { g.Advance -= 10 * units.Degree }, diagnosis.WrongAdvance, eccentric.BothEnds, 0, -10},
		{func(g *eccentric.Gear) { g.Valve.Offset = units.MM(-0.3) }, diagnosis.ValveOffCentre, eccentric.BothEnds, -0.3, 0},
		{func(g *eccentric.Gear) { g.Valve.Length = units.MM(16) }, diagnosis.WrongSteamLap, eccentric.BothEnds, 0.3, 0},
		{func(g *eccentric.Gear) { g.Valve.Cavity = units.MM(9.6) }, diagnosis.WrongExhaustLap, eccentric.BothEnds, -0.3, 0},
		{func(g *eccentric.Gear) { g.Travel = units.MM(5.8) }, diagnosis.WrongTravel, eccentric.BothEnds, -0.6, 0},
		{func(g *eccentric.Gear) { g.Valve.LostMotion = units.MM(0.3) }, diagnosis.LostMotion, eccentric.BothEnds, 0.3, 0},
		{func(g *eccentric.Gear) { g.Advance = 154 * units.Degree }, diagnosis.OtherHand, eccentric.BothEnds, 0, 128},
		{func(g *eccentric.Gear) { g.Advance -= 180 * units.Degree }, diagnosis.HalfTurnOut, eccentric.BothEnds, 0, 180},
		{func(g *eccentric.Gear) { g.Advance = 90 * units.Degree }, diagnosis.InLine, eccentric.BothEnds, 0, 64},
		{func(g *eccentric.Gear) { g.Advance = 0 }, diagnosis.NoAdvance, eccentric.BothEnds, 0, -26},
	} {
		g := demo()
		row.change(&g)
		d, err := diagnosis.Case{Gear: demo(), Readings: readings(g)}.Diagnose()
		if err != nil {
			t.Fatal(err)
		}
		v := d.Verdict()
		if v.Fault != row.want || v.End != row.end || v.Also != nil || !v.Sure || !d.Fits {
			t.Errorf("%v: %v", row.want, d)
		}
		// Readings without an error are still taken to have one, which draws the little that there is of lost motion
		// towards nothing.
		if got := v.Length.In(units.Millimetres); math.Abs(got-row.mm) > max(0.01, v.LengthSD.In(units.Millimetres)/2) {
			t.Errorf("%v: %g mm, want %g", row.want, got, row.mm)
		}
		if got := v.Angle.Degrees(); math.Abs(math.Remainder(got-row.deg, 360)) > 0.1 {
			t.Errorf("%v: %g degrees, want %g", row.want, got, row.deg)
		}
	}
}

func BenchmarkDiagnose(b *testing.B) {
	g := demo()
	g.Advance -= 10 * units.Degree
	c := diagnosis.Case{Gear: demo(), Readings: readings(g)[:10]}
	for b.Loop() {
		if _, err := c.Diagnose(); err != nil {
			b.Fatal(err)
		}
	}
}
