package kernel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// anyWanted draws a wish in millimetres, as builders of small engines have it.
func anyWanted(t *rapid.T) Wanted {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	w := Wanted{
		Stroke: f("stroke", 10, 100), CutOff: f("cut-off", 0.35, 0.9), At: End(rapid.IntRange(0, 2).Draw(t, "at")),
		Place: Placing(rapid.IntRange(0, 2).Draw(t, "place")), Rod: endless, EccentricRod: endless,
	}
	if rapid.Bool().Draw(t, "rod") {
		w.Rod = w.Stroke * f("cranks", 1.5, 4)
	}
	opening := f("opening", 0.5, 8)
	w.Lead = opening * f("lead", -0.05, 0.25)
	if rapid.Bool().Draw(t, "by travel") {
		w.Reach = opening * f("reach", 1.5, 3)
	} else {
		w.Opening = opening
	}
	if rapid.Bool().Draw(t, "eccentric rod") {
		w.EccentricRod = opening * f("offsets", 25, 60)
		if rapid.Bool().Draw(t, "turned") {
			w.EccentricRod = -w.EccentricRod
		}
	}
	if rapid.Bool().Draw(t, "worn") {
		w.LostMotion = opening * f("lost motion", 0, 0.2)
	}
	if w.Place == AsGiven {
		w.Shift = opening * f("shift", -0.05, 0.05)
	}
	return w
}

// What is found does what was wanted, to 1e-9, whichever way it was found: the same
// ten thousand on every run, and some others.
func TestSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { solves(t, anyWanted(t)) })
	if testing.Short() {
		return
	}
	solved, closed := 0, 0
	all := rapid.Custom(anyWanted)
	for seed := range 10_000 {
		f, ok := solves(t, all.Example(seed))
		if ok {
			solved++
		}
		if f.Closed {
			closed++
		}
	}
	t.Logf("%d solved, %d of them by the closed form", solved, closed)
	if solved < 9_000 || closed < 2_000 {
		t.Error("too few")
	}
}

func solves(t interface{ Errorf(string, ...any) }, w Wanted) (Found, bool) {
	f, why, _ := w.Solve()
	if why != NoHindrance {
		return f, false
	}
	m := Motion{Stroke: w.Stroke, Rod: w.Rod, Reach: f.Reach, EccentricRod: w.EccentricRod, Advance: f.Advance, Shift: f.Shift, Late: w.LostMotion / 2,
		Steam: [Ends]float64{f.Steam, f.Steam, f.Steam}, Port: [Ends]float64{1e6, 1e6, 1e6}}
	var e Events
	m.Events(&e)
	if got := e.MeanLead(); math.Abs(got-w.Lead) > 1e-9 {
		t.Errorf("lead %v, want %v", got, w.Lead)
	}
	if got := (e.Head.Opening + e.Crank.Opening) / 2; w.Opening > 0 && math.Abs(got-w.Opening) > 1e-9 {
		t.Errorf("opening %v, want %v", got, w.Opening)
	}
	cut := [Ends]float64{(e.Head.CutOff.Stroke + e.Crank.CutOff.Stroke) / 2, e.Head.CutOff.Stroke, e.Crank.CutOff.Stroke}
	if !e.Head.CutOff.Occurs || !e.Crank.CutOff.Occurs || math.Abs(cut[w.At]-w.CutOff) > 1e-9 {
		t.Errorf("cut-off %v, want %v", cut, w.CutOff)
	}
	switch {
	case w.Place == EqualCutOff && math.Abs(cut[Head]-cut[Crank]) > 1e-9:
		t.Errorf("cut-offs %v", cut)
	case w.Place == EqualLead && math.Abs(e.Head.Lead-e.Crank.Lead) > 1e-9:
		t.Errorf("leads %v and %v", e.Head.Lead, e.Crank.Lead)
	}
	for _, share := range []float64{0.02, 0.1, 0.2} {
		lap, why, _ := w.ExhaustLap(&f, share, f.Shift, math.Inf(1))
		if why != NoHindrance {
			continue
		}
		m.Exhaust = [Ends]float64{lap, lap, lap}
		m.Events(&e)
		if got := (e.Head.Compression.Stroke + e.Crank.Compression.Stroke) / 2; math.Abs(got-share) > 1e-9 {
			t.Errorf("compression %v, want %v", got, share)
		}
	}
	return f, true
}
