package kernel

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// At the angle that Passing gives the valve stands where it was asked for: the
// eccentric's end of its rod is -r*cos(p) towards opening, and the rod's slant takes it
// on by l - sqrt(l^2 - (r*sin(p))^2), or back for a rod below zero.
func TestPassingPassesThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		r := f("r", 0.5, 6)
		l := r * f("rod", 1.2, 20)
		if rapid.Bool().Draw(t, "against") {
			l = -l
		}
		c := r * f("share", -0.999, 0.999)
		p := Passing(c, r, l)
		side := r * math.Sin(p)
		slant := math.Abs(l) - math.Sqrt(l*l-side*side)
		if l < 0 {
			slant = -slant
		}
		near(t, "passes", -r*math.Cos(p)+slant, c, 1e-12*r*20)
		if p < 0 || p > math.Pi {
			t.Fatalf("angle %v", p)
		}
		if further := Passing(c+1e-6*r, r, l); !(further > p) {
			t.Fatalf("%v, and %v further on", p, further)
		}
		// The share that the piston has gone, from either end, is that of its place.
		m := Motion{Stroke: 25, Rod: 25 * f("connecting rod", 0.6, 4)}
		at := f("crank", -7, 7)
		near(t, "gone", Gone(at, m.Rod/m.Stroke), m.Piston(at)/m.Stroke, 1e-12)
		near(t, "gone from the crank end", Gone(at, -m.Rod/m.Stroke), 1-m.Piston(at+math.Pi)/m.Stroke, 1e-12)
	})
}

// How a gear stands is read from its leads: the advance and the displacement that it has.
func TestStoodIsTheInverseOfTheLeads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		g.Advance = rapid.Float64Range(-1.4, 1.4).Draw(t, "within a right angle")
		m, e := solve(g)
		rests := m.Late > 0 && m.Reach*(1+math.Sin(m.Advance))-m.Reach*m.Reach/math.Abs(m.EccentricRod) <= 2*m.Late
		if rests { // then many stand so
			return
		}
		advance, shift, ok := m.Stood(e.Head.Lead, e.Crank.Lead)
		if !ok {
			t.Fatalf("leads of %v and %v are not reached", e.Head.Lead, e.Crank.Lead)
		}
		near(t, "advance", advance, g.Advance, 1e-7)
		near(t, "shift", shift/m.Reach, m.Shift/m.Reach, 1e-7)
		near(t, "mean lead", e.MeanLead(), (e.Head.Lead+e.Crank.Lead)/2, 1e-9)
		if _, _, ok := m.Stood(e.Head.Lead+3*m.Reach, e.Crank.Lead+3*m.Reach); ok {
			t.Fatal("leads beyond the travel are reached")
		}
		x := rapid.Float64Range(-5, 5).Draw(t, "displacement")
		if want := map[bool]float64{false: x, true: -x}[g.Inside]; m.TowardsCrank(x) != want {
			t.Fatalf("%v inside %v is %v towards the crank", x, g.Inside, m.TowardsCrank(x))
		}
	})
}

// The advance for a lead has that lead, as the mean of both ends or at one, whatever
// the lost motion and however short the rod: where the valve is still at rest at one
// dead centre, or at both, too.
func TestAdvanceForHasTheLead(t *testing.T) {
	found := 0
	for seed := range 3000 {
		rng := rand.New(rand.NewPCG(uint64(seed), 3))
		f := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
		m := Motion{Stroke: 25, Rod: 63, Reach: f(1, 5), Shift: f(-0.3, 0.3), Steam: [Ends]float64{1, 1.1, 0.9}}
		m.EccentricRod = m.Reach * f(1.02, 4)
		if rng.IntN(2) == 0 {
			m.EccentricRod = -m.EccentricRod
		}
		m.Late = m.Reach * f(0, 0.9)
		lead := f(-1, 1)*(m.Reach-m.Late) - 1
		for _, end := range []End{Both, Head, Crank} {
			advance, ok := m.AdvanceFor(lead, end)
			if !ok {
				continue
			}
			set := m
			set.Advance = advance
			head, crank := set.leads(math.Sincos((math.Pi/2 + advance) / 2))
			got := [Ends]float64{(head + crank) / 2, head, crank}[end]
			if math.Abs(got-lead) > 1e-7*m.Reach {
				t.Errorf("lead %v at %d: %v with an advance of %v of %+v", lead, end, got, advance, m)
			}
			found++
		}
	}
	if found < 5000 {
		t.Errorf("%d found", found)
	}
}
