package kernel

import (
	"math"
	"testing"
)

// Each size by itself at its limits: above zero or from zero on, and up to a kilometre.
func TestSoundAtItsLimits(t *testing.T) {
	above := func(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }
	for _, test := range []struct {
		name    string
		of      func(*Gear) *float64
		in, out float64
	}{
		{"stroke", func(g *Gear) *float64 { return &g.Stroke }, 1, 0}, {"stroke", func(g *Gear) *float64 { return &g.Stroke }, Longest, above(Longest)},
		{"travel", func(g *Gear) *float64 { return &g.Travel }, 1, 0}, {"travel", func(g *Gear) *float64 { return &g.Travel }, Longest, above(Longest)},
		{"port", func(g *Gear) *float64 { return &g.SteamPort }, 1, 0}, {"port", func(g *Gear) *float64 { return &g.SteamPort }, Longest, above(Longest)},
		{"bar", func(g *Gear) *float64 { return &g.Bar }, 1, 0}, {"bar", func(g *Gear) *float64 { return &g.Bar }, Longest, above(Longest)},
		{"crank port", func(g *Gear) *float64 { return &g.CrankSteamPort }, 1, 0},
		{"crank port", func(g *Gear) *float64 { return &g.CrankSteamPort }, Longest, above(Longest)},
		{"crank bar", func(g *Gear) *float64 { return &g.CrankBar }, 1, 0}, {"crank bar", func(g *Gear) *float64 { return &g.CrankBar }, Longest, above(Longest)},
		{"middle port", func(g *Gear) *float64 { return &g.MiddlePort }, 1, 0},
		{"middle port", func(g *Gear) *float64 { return &g.MiddlePort }, Longest, above(Longest)},
		{"cavity", func(g *Gear) *float64 { return &g.Cavity }, 1, 0}, {"cavity", func(g *Gear) *float64 { return &g.Cavity }, 15.4e9 - 1, 15.4e9},
		{"valve", func(g *Gear) *float64 { return &g.ValveLength }, 9e9 + 1, 9e9}, {"valve", func(g *Gear) *float64 { return &g.ValveLength }, Longest, above(Longest)},
		{"cavity off", func(g *Gear) *float64 { return &g.CavityOffset }, 3.2e9 - 1, 3.2e9},
		{"cavity off", func(g *Gear) *float64 { return &g.CavityOffset }, 1 - 3.2e9, -3.2e9},
		{"play", func(g *Gear) *float64 { return &g.LostMotion }, 0, -1}, {"play", func(g *Gear) *float64 { return &g.LostMotion }, 6.4e9 - 1, 6.4e9},
		{"off", func(g *Gear) *float64 { return &g.Offset }, Longest, above(Longest)}, {"off", func(g *Gear) *float64 { return &g.Offset }, -Longest, -above(Longest)},
		{"chest", func(g *Gear) *float64 { return &g.Chest }, 0, -1}, {"chest", func(g *Gear) *float64 { return &g.Chest }, Longest, above(Longest)},
		{"advance", func(g *Gear) *float64 { return &g.Advance }, math.Pi, above(math.Pi)},
		{"advance", func(g *Gear) *float64 { return &g.Advance }, -math.Pi, -above(math.Pi)},
		{"lever", func(g *Gear) *float64 { return &g.Lever }, MaxLever, above(MaxLever)}, {"lever", func(g *Gear) *float64 { return &g.Lever }, -MaxLever, -above(MaxLever)},
		{"lever", func(g *Gear) *float64 { return &g.Lever }, MinLever, math.Nextafter(MinLever, 0)},
		{"lever", func(g *Gear) *float64 { return &g.Lever }, -MinLever, -math.Nextafter(MinLever, 0)},
	} {
		g := demo()
		g.ConnectingRod, g.EccentricRod = math.Inf(1), math.Inf(1)
		if *test.of(&g) = test.in; !g.Sound() {
			t.Errorf("%s of %v is not sound", test.name, test.in)
		}
		if *test.of(&g) = test.out; g.Sound() {
			t.Errorf("%s of %v is sound", test.name, test.out)
		}
	}
	for _, test := range []struct {
		rod, travel, ratio float64
		want               bool
	}{
		{5, 10, 0, false}, {above(5), 10, 0, true}, {5, 10, 1, false}, {2.5, 10, -2, false}, {above(2.5), 10, -2, true}, {10, 10, 0.5, false},
		{above(10), 10, 0.5, true}, {Longest, 10, 1, true}, {above(Longest), 10, 1, false}, {math.Inf(1), 10, 1, true}, {-50, 10, 1, false},
		{math.NaN(), 10, 1, false},
	} {
		if got := RodReaches(test.rod, test.travel, test.ratio); got != test.want {
			t.Errorf("%+v: %v", test, got)
		}
	}
}

// Admission is counted from half a turn before the dead centre up to, and not with, half
// a turn after it: with no lap and endless rods it comes at minus the advance.
func TestAdmissionIsWithinHalfATurn(t *testing.T) {
	for _, advance := range []float64{math.Pi, -math.Pi, math.Pi / 2, -math.Pi / 2, 0, 3, -3} {
		g := demo()
		g.ConnectingRod, g.EccentricRod, g.Advance, g.ValveLength = math.Inf(1), math.Inf(1), advance, 13e9
		_, e := solve(g)
		for _, end := range []*EndEvents{&e.Head, &e.Crank} {
			near(t, "admission", math.Remainder(end.Admission.Crank+advance, 2*math.Pi), 0, 1e-15)
			near(t, "cut-off", end.CutOff.Crank-end.Admission.Crank, math.Pi, 1e-15)
			if at := end.Admission.Crank; !(at >= -math.Pi && at < math.Pi) {
				t.Errorf("advance %v: admission at %v", advance, at)
			}
		}
	}
}
