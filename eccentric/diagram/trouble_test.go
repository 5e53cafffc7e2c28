package diagram

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/internal/sheet"
	"github.com/valvechest/valvechest/units"
)

// overlapping returns the longest stretch that two dimension lines above the valve share.
func overlapping(p *check.Picture, face float64) float64 {
	longest := 0.0
	lines := p.On(sheet.Measure.Name)
	for i, s := range lines {
		for _, other := range lines[:i] {
			if len(s.Spots) != 2 || len(other.Spots) != 2 {
				continue
			}
			a, b, c, d := s.Spots[0], s.Spots[1], other.Spots[0], other.Spots[1]
			if a.Y < face || max(math.Abs(a.Y-b.Y), math.Abs(c.Y-d.Y), math.Abs(a.Y-c.Y)) > 0.01 {
				continue
			}
			shared := min(max(a.X, b.X), max(c.X, d.X)) - max(min(a.X, b.X), min(c.X, d.X))
			longest = max(longest, shared)
		}
	}
	return longest
}

// A cavity that reaches past a port's outer edge, and lips that end within the port: the
// laps lie over one another, and each has a dimension line of its own.
func TestValveInTrouble(t *testing.T) {
	ports := eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4)}
	sound := eccentric.Gear{Stroke: units.MM(25), Travel: units.MM(8), Advance: 26 * units.Degree, Ports: ports,
		Valve:         eccentric.Valve{Length: units.MM(20), Cavity: units.MM(16)},
		ConnectingRod: eccentric.InfiniteRod(), EccentricRod: eccentric.InfiniteRod()}
	wrong := sound
	wrong.Valve = eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(11.8)}
	oneEnd := sound
	oneEnd.Valve.Cavity, oneEnd.Valve.CavityOffset = units.MM(12), units.MM(1.5)
	inside := sound
	inside.InsideAdmission = true
	off := sound
	off.Valve.Offset = units.MM(0.7)
	for name, g := range map[string]eccentric.Gear{"sound": sound, "wrong": wrong, "one end": oneEnd, "inside": inside, "off": off} {
		for _, inch := range [...]bool{false, true} {
			drawn, err := Valve(g, Options{Inch: inch})
			if err != nil {
				t.Fatal(name, err)
			}
			p := read(t, drawn)
			check.Legible(t, p)
			face := sections(t, p, g)[0].face
			if shared := overlapping(p, face); shared > 0.01 {
				t.Errorf("%s: two dimension lines share %.2f mm", name, shared)
			}
		}
	}
	r := rand.New(rand.NewPCG(7, 16))
	engines(t, 60, func(t testing.TB, g eccentric.Gear, o Options) {
		land := g.Valve.Length.Sub(g.Valve.Cavity)
		g.Valve.Cavity = g.Valve.Cavity.Add(land.Scale(0.4 + 0.55*r.Float64()))
		if g.Validate() != nil {
			return
		}
		for _, p := range pictures(t, g, o) {
			check.Legible(t, read(t, p))
		}
	})
}
