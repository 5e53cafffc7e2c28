package diagram

import (
	"bytes"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// anyGear draws an engine from tiny to large: with a lever or none, either admission, ends
// that differ, a valve and a cavity off their middles, lost motion, and in one of four
// cases laps with which something never happens.
func anyGear(r *rand.Rand) eccentric.Gear {
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	size := math.Exp(between(math.Log(0.2), math.Log(12)))
	length := func(name string, low, high float64) units.Length {
		return units.Micron(math.Round(1000 * size * between(low, high)))
	}
	some := func(string) bool { return r.IntN(2) == 0 }
	g := eccentric.Gear{Stroke: length("stroke", 12, 50), Advance: units.Angle(between(0.05, 0.8))}
	g.Ports = eccentric.Ports{Steam: length("steam", 1.5, 4), Bar: length("bar", 1.8, 4), Exhaust: length("exhaust", 3, 8)}
	if some("uneven") {
		g.Ports.CrankSteam, g.Ports.CrankBar = length("crank steam", 1.5, 4), length("crank bar", 1.8, 4)
	}
	most := 1.6
	if r.IntN(4) == 0 {
		most = 6
	}
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: length("lap", 0.2, most), Exhaust: length("exhaust lap", -0.3, most/2)})
	if some("inside") {
		g.InsideAdmission = true
		g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: length("exhaust lap", 0.02, 0.3), Exhaust: length("lap", 0.2, 1.2)})
	}
	if g.Valve.Cavity.Sign() <= 0 {
		g.Valve.Cavity = g.Ports.Exhaust
	}
	g.Travel = length("travel", 3.5, 9)
	if some("off") {
		g.Valve.Offset, g.Valve.CavityOffset = length("offset", -0.4, 0.4), length("cavity offset", -0.2, 0.2)
	}
	if some("lost") {
		g.Valve.LostMotion = length("lost motion", 0, 0.4)
	}
	if some("lever") {
		g.LeverRatio = math.Copysign(between(0.4, 2.5), between(-1, 1))
	}
	g.ConnectingRod, g.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	if some("rod") {
		g.ConnectingRod = eccentric.RodOf(g.Stroke.Scale(between(1.2, 4)))
	}
	if some("eccentric rod") {
		g.EccentricRod = eccentric.RodOf(g.EccentricOffset().Scale(between(6, 40)))
	}
	return g
}

func anyOptions(r *rand.Rand) Options {
	return Options{Inch: r.IntN(2) == 0,
		Rotation: []setting.Rotation{0, setting.Clockwise, setting.Anticlockwise}[r.IntN(3)],
		SeenFrom: []string{"", "the flywheel side", "a side with a name that is far too long for any picture at all"}[r.IntN(3)]}
}

// engines runs a test on that many random engines, a tenth of them with -short.
func engines(t *testing.T, many int, do func(t testing.TB, g eccentric.Gear, o Options)) {
	t.Helper()
	if testing.Short() {
		many /= 10
	}
	tried := 0
	for seed := uint64(1); tried < many; seed++ {
		r := rand.New(rand.NewPCG(seed, 16))
		g := anyGear(r)
		if g.Validate() != nil {
			if seed > uint64(2*many) {
				t.Fatalf("only %d of %d engines are sound", tried, seed)
			}
			continue
		}
		tried++
		failed := t.Failed()
		do(t, g, anyOptions(r))
		if t.Failed() && !failed {
			t.Logf("engine %d: %+v", seed, g)
		}
	}
}

// read writes a picture and reads it with the other reader.
func read(t testing.TB, p Picture) *check.Picture {
	t.Helper()
	var b bytes.Buffer
	if err := p.WriteSVG(&b); err != nil {
		t.Fatalf("%s: %v", p.Name, err)
	}
	return check.ReadPicture(t, b.String())
}
