package eccentric

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// anyWish draws what builders of small engines may wish: cut-offs of 45 to 90 per
// cent, little lead, openings of half a millimetre to eight, both rods of usual
// lengths or endless, levers, both admissions, worn gears.
func anyWish(t *rapid.T) Wish {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	is := func(name string) bool { return rapid.Bool().Draw(t, name) }
	opening := units.MM(f("opening", 0.5, 8))
	w := Wish{CutOff: f("cut-off", 0.45, 0.9), CutOffAt: rapid.SampledFrom(Ends()).Draw(t, "at")}
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
	w.Lead = opening.Scale(f("lead", 0, 0.2))
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
		w.Compression = f("compression share", 0.03, 0.15)
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
	asked, designed, closed, worst := 0, 0, 0, 0.0
	rapid.Check(t, func(t *rapid.T) {
		w := anyWish(t)
		asked++
		exact, rounded, err := Design(w)
		if err != nil {
			return
		}
		designed++
		if exact.Closed {
			closed++
		}
		within := func(what string, got, want float64) {
			worst = max(worst, math.Abs(got-want))
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
	})
	t.Logf("%d wishes, %d gears, %d by the closed form; furthest off %.2g", asked, designed, closed, worst)
}
