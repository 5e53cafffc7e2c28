package eccentric

import (
	"testing"

	"github.com/valvechest/valvechest/units"
)

// Which sizes of the port face matter? The edges along the travel. The outer
// edge of the valve sweeps half its length less and more half the travel, 7 to
// 13 mm from the centre; a relief groove belongs beyond the port's outer edge, at
// 9, and a land that seals, and short of 13.
func TestSweepOfTheValve(t *testing.T) {
	p := Ports{Steam: units.MM(3), Bar: units.MM(3), Exhaust: units.MM(6)}
	g := Gear{
		Stroke: units.MM(25), ConnectingRod: InfiniteRod(), Travel: units.MM(6), EccentricRod: InfiniteRod(),
		Ports: p, Valve: p.ValveWith(Laps{Steam: units.MM(1)}),
	}
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
	if got, want := g.Sweep(), (Sweep{Min: units.MM(7), Max: units.MM(13), Ports: units.MM(9), CrankPort: units.MM(9), Chest: units.MM(26)}); got != want {
		t.Errorf("sweep %v, want %v", got, want)
	}
	// Off centre, one end comes nearer and the other does not go so far.
	g.Valve.Offset = units.MM(-0.5)
	if got, want := g.Sweep(), (Sweep{Min: units.MM(6.5), Max: units.MM(12.5), Ports: units.MM(9), CrankPort: units.MM(9), Chest: units.MM(27)}); got != want {
		t.Errorf("sweep off centre %v, want %v", got, want)
	}
	g.Valve.Offset = units.Length{}
	near(t, "outer edge of the port", p.Exhaust.Scale(0.5).Add(p.Bar).Add(p.Steam).MM(), 9, 0)
	near(t, "share of the port that opens", events(t, g).Head.Opening.Ratio(p.Steam), 0.67, 0.005)
}
