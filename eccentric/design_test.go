package eccentric

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// anyWish draws what builders of small engines may wish, and more: cut-offs of 25
// to 95 per cent, leads late and large, openings of half a millimetre to eight, both
// rods of usual lengths or endless, levers, both admissions, worn gears.
func anyWish(t *rapid.T) Wish {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	is := func(name string) bool { return rapid.Bool().Draw(t, name) }
	opening := units.MM(f("opening", 0.5, 8))
	w := Wish{CutOff: f("cut-off", 0.25, 0.95), CutOffAt: rapid.SampledFrom(Ends()).Draw(t, "at")}
	g := &w.Gear
	g.Stroke, g.ConnectingRod, g.EccentricRod = opening.Scale(f("stroke", 8, 30)), InfiniteRod(), InfiniteRod()
	if is("rod") {
		g.ConnectingRod = RodOf(g.Stroke.Scale(f("rod in strokes", 1.5, 4)))
	}
	if is("eccentric rod") {
		g.EccentricRod = RodOf(opening.Scale(f("eccentric rod in openings", 25, 60)))
	}
	g.LeverRatio = rapid.SampledFrom([]float64{0, 0, -1, 1.25, -0.8}).Draw(t, "lever")
	g.InsideAdmission = is("inside")
	w.Lead = opening.Scale(f("lead", -0.1, 0.3))
	switch rapid.IntRange(0, 2).Draw(t, "equal") {
	case 1:
		w.EqualLead = true
	case 2:
		w.EqualCutOff = true
	}
	if is("travel") {
		g.Travel = opening.Scale(f("travel in openings", 3, 5))
	} else {
		w.Opening = opening
	}
	if is("compression") {
		w.Compression = f("compression share", 0.005, 0.25)
	} else if is("exhaust lap") {
		w.ExhaustLap = opening.Scale(f("exhaust lap share", -0.03, 0.2))
	}
	if is("worn") {
		g.Valve.LostMotion = opening.Scale(f("lost motion", 0, 0.1))
	}
	return w
}

// The exact gear does what was wished, to 1e-8 of the stroke and of the travel after
// its sizes have been made whole picometres; where the ports are free the rounded
// one has nothing that stops it.
func TestDesignReturns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { new(tally).returns(t, anyWish(t)) })
}

// The same ten thousand on every run.
func TestDesignReturnsTenThousand(t *testing.T) {
	if testing.Short() {
		t.Skip("ten thousand gears")
	}
	var all tally
	wishes := rapid.Custom(anyWish)
	for seed := range 10_000 {
		all.returns(t, wishes.Example(seed))
		if t.Failed() {
			t.Fatalf("wish %d", seed)
		}
	}
	t.Logf("%d gears, %d by the closed form, %d refused; furthest off %.2g; %d not kept by the rounded gear",
		all.designed, all.closed, all.refused, all.worst, all.notKept)
	if all.refused > 500 || all.closed < 2000 {
		t.Error("too few of them are designed, or by the closed form")
	}
}

// A tally counts what became of wishes.
type tally struct {
	designed, closed, refused, notKept int
	worst                              float64
}

func (all *tally) returns(t tester, w Wish) {
	t.Helper()
	exact, rounded, err := Design(w)
	if err != nil {
		all.refused++
		return
	}
	all.designed++
	if exact.Closed {
		all.closed++
	}
	if rounded.Chosen[0].Code == WishNotKept {
		all.notKept++
	}
	within := func(what string, got, want float64) {
		t.Helper()
		all.worst = max(all.worst, math.Abs(got-want))
		near(t, what, got, want, 1e-8)
	}
	of := func(l units.Length) float64 { return l.Ratio(exact.Gear.Travel) }
	e := exact.Events
	within("cut-off", exact.CutOff, w.CutOff)
	within("lead", of(exact.Lead), of(w.Lead))
	if w.Compression > 0 {
		within("compression", exact.Compression, w.Compression)
	} else {
		within("exhaust lap", of(exact.ExhaustLap), of(w.ExhaustLap))
	}
	if w.Opening.Sign() > 0 {
		within("opening", of(exact.Opening), of(w.Opening))
	} else if exact.Gear.Travel != w.Gear.Travel || rounded.Gear.Travel != w.Gear.Travel {
		t.Errorf("travel %v and %v", exact.Gear.Travel, rounded.Gear.Travel)
	}
	switch {
	case w.EqualLead:
		within("leads", of(e.Head.Lead), of(e.Crank.Lead))
	case w.EqualCutOff:
		within("cut-offs", e.Head.CutOff.Stroke, e.Crank.CutOff.Stroke)
	}
	for _, f := range rounded.Findings {
		if f.Severity >= finding.Fails {
			t.Errorf("rounded: %v\nwish %+v\nexact %v\nrounded %v", f.Text, w, exact.Gear, rounded.Gear)
		}
	}
	for _, d := range []Designed{exact, rounded} {
		if got, err := d.Gear.Events(); err != nil || got != d.Events {
			t.Errorf("events %v, %v", got, err)
		}
	}
}
