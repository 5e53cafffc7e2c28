package eccentric

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func TestCheckPrintedEngineContradictsItself(t *testing.T) {
	// A. Williams, Things To Make, ch. XV: stroke 2 1/4, rod 5, eccentricity
	// 9/32, ports 3/32, bars 1/8, exhaust port 3/32 in. The lap is not printed;
	// ports just fully opened at full travel give 3/16. At full travel the
	// valve then covers the exhaust port and 1/16 in more.
	p := Ports{
		Steam: units.InchFraction(3, 32), Bar: units.InchFraction(1, 8), Exhaust: units.InchFraction(3, 32),
		Length: units.InchFraction(7, 8),
	}
	g := Gear{
		Stroke: units.Inch(2.25), ConnectingRod: RodOf(units.Inch(5)),
		Travel: units.InchFraction(9, 16), EccentricRod: InfiniteRod(),
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
	if !ok || f.Severity != finding.Fails || f.Amount != units.MM(0.2) {
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
