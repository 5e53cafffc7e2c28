package eccentric

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The gear as bodies and joints: pins, rods, blocks in guides, a lever, and four
// edges over a face that is given by its widths. mpmath solves the constraints of
// all of it at once, with 30 digits, at both ends, with and without a reversing lever
// and inside admission, for ports, bars and cavities that differ from end to end.
func TestEventsAgainstALinkage(t *testing.T) {
	python := check.LongPeer(t, "python3", "mpmath")
	rng := rand.New(rand.NewPCG(3, 14))
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	var gears []Gear
	var text strings.Builder
	for i := range 40 {
		g := Gear{
			Stroke: units.MM(25), ConnectingRod: RodOf(units.MM(between(40, 120))),
			Travel: units.MM(between(4, 12)), Advance: units.Angle(between(-20, 70)) * units.Degree,
			LeverRatio: []float64{0, -1, 1.25, -0.75}[i%4], InsideAdmission: i/4%2 == 1,
		}
		g.EccentricRod = RodOf(g.Travel.Scale(between(2, 10)))
		r := g.Travel.Scale(0.5)
		g.Ports = Ports{
			Steam: r.Scale(between(0.3, 1)), Bar: r.Scale(between(0.8, 1.2)), Exhaust: r.Scale(between(2, 3)),
			CrankSteam: r.Scale(between(0.3, 1)), CrankBar: r.Scale(between(0.8, 1.2)),
		}
		g.Valve = g.Ports.ValveWith(Laps{Steam: r.Scale(between(0.1, 0.6)), Exhaust: r.Scale(between(-0.1, 0.3))})
		g.Valve.Offset = r.Scale(between(-0.1, 0.1))
		g.Valve.CavityOffset = r.Scale(between(-0.1, 0.1))
		if err := g.Validate(); err != nil {
			t.Fatal(err)
		}
		gears = append(gears, g)
		inside := 0
		if g.InsideAdmission {
			inside = 1
		}
		fmt.Fprintln(&text, g.Stroke.MM(), g.ConnectingRod.length.MM(), g.Travel.MM(), g.EccentricRod.length.MM(),
			g.Advance.In(units.Degree), g.LeverRatio, inside, g.Ports.Steam.MM(), g.Ports.Bar.MM(), g.Ports.Exhaust.MM(),
			g.Ports.CrankBar.MM(), g.Ports.CrankSteam.MM(), g.Valve.Length.MM(), g.Valve.Cavity.MM(), g.Valve.CavityOffset.MM(),
			g.Valve.Offset.MM())
	}
	cmd := exec.Command(python, check.Path(t, "eccentric/linkage.py"))
	cmd.Stdin = strings.NewReader(text.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(gears) {
		t.Fatalf("%d answers for %d gears", len(lines), len(gears))
	}
	compared, worst := 0, 0.0
	for i, g := range gears {
		words := strings.Fields(lines[i])
		if len(words) != 16 {
			t.Fatalf("gear %d: %d words", i, len(words))
		}
		e := events(t, g)
		for n, ours := range []Event{e.Head.Admission, e.Head.CutOff, e.Head.Release, e.Head.Compression,
			e.Crank.Admission, e.Crank.CutOff, e.Crank.Release, e.Crank.Compression} {
			theirs := words[2*n:]
			if !ours.Occurs || theirs[0] == "none" {
				if ours.Occurs || theirs[0] != "none" {
					t.Errorf("gear %d event %d: %v, the linkage %s", i, n, ours, theirs[0])
				}
				continue
			}
			angle, err := strconv.ParseFloat(theirs[0], 64)
			if err != nil {
				t.Fatal(err)
			}
			share, err := strconv.ParseFloat(theirs[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			compared++
			d := max(math.Abs(math.Remainder(float64(ours.Crank)-angle, 2*math.Pi)), math.Abs(ours.Stroke-share))
			worst = max(worst, d)
			if !(d <= 1e-11) { // widths are held to a picometre, and a flat crossing magnifies that
				t.Errorf("gear %d event %d: crank %v and stroke %v, the linkage %v and %v", i, n, float64(ours.Crank), ours.Stroke, angle, share)
			}
		}
	}
	if compared < 300 {
		t.Errorf("%d events compared", compared)
	}
	t.Logf("%d gears, %d events at both ends: largest difference from mpmath %.2g", len(gears), compared, worst)
}
