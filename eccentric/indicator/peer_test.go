package indicator

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The work and 24 turning moments of 200 engines against scipy, which finds the edges
// by Brent's method and follows the pressures from the last closing.
func TestAgainstScipy(t *testing.T) {
	python := check.LongPeer(t, "python3", "scipy")
	rng := rand.New(rand.NewPCG(13, 1))
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	var engines []Running
	var text strings.Builder
	for len(engines) < 200 {
		r := demo()
		g := &r.Gear
		g.ConnectingRod, g.EccentricRod = eccentric.RodOf(units.MM(between(30, 120))), eccentric.RodOf(units.MM(between(15, 90)))
		g.Travel, g.Advance = units.MM(between(3, 12)), units.Angle(between(-3.1, 3.1))
		g.Valve = g.Ports.ValveWith(eccentric.Laps{
			Steam: g.Travel.Scale(between(0.02, 0.45)), Exhaust: g.Travel.Scale(between(-0.02, 0.3))})
		r.Chest, r.Back = units.Pressure(between(0.5, 8))*units.Bar, units.Pressure(between(-0.8, 0.3))*units.Bar
		r.Clearance, r.Index = Shares{between(0.02, 0.3), between(0.02, 0.3)}, []float64{1, 1.135, 1.3, 1.4}[rng.IntN(4)]
		engines = append(engines, r)
		m, head, crank := r.model(), g.LapsAt(eccentric.HeadEnd), g.LapsAt(eccentric.CrankEnd)
		eccentricRod, _ := g.EccentricRod.Length()
		rod, _ := g.ConnectingRod.Length()
		fmt.Fprintln(&text, g.Stroke.MM()/2000, rod.MM()/1000, g.Travel.MM()/2000, eccentricRod.MM()/1000, float64(g.Advance),
			head.Steam.MM()/1000, head.Exhaust.MM()/1000, crank.Steam.MM()/1000, crank.Exhaust.MM()/1000,
			m.ends[1].area, r.Clearance.Head, m.ends[2].area, r.Clearance.Crank,
			float64(r.Absolute(r.Chest)), float64(r.Absolute(r.Back)), m.air, r.Index)
	}
	cmd := exec.Command(python, check.Path(t, "eccentric/indicator/cycle.py"))
	cmd.Stdin = strings.NewReader(text.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(engines) {
		t.Fatalf("%d answers for %d engines", len(lines), len(engines))
	}
	worst := 0.0
	for i, r := range engines {
		c, err := r.Cycle()
		if err != nil {
			t.Fatal(err)
		}
		in := strings.NewReader(lines[i])
		var work, moment float64
		fmt.Fscan(in, &work)
		all := float64(r.Absolute(r.Chest)) * float64(c.Head.Swept)
		compare := func(what string, got, want float64) {
			worst = max(worst, math.Abs(got-want)/all)
			near(t, fmt.Sprintf("engine %d: %s, of ps*V", i, what), got/all, want/all, 1e-10)
		}
		compare("work", float64(c.Work), work)
		for j := range 24 {
			if _, err := fmt.Fscan(in, &moment); err != nil {
				t.Fatal(err)
			}
			p, err := r.At(units.Angle(0.1 + 15*float64(j)*degree))
			if err != nil {
				t.Fatal(err)
			}
			compare("moment", float64(p.Moment), moment)
		}
	}
	t.Logf("200 engines, 5,000 values: largest difference from scipy %.2g of ps*V", worst)
}
