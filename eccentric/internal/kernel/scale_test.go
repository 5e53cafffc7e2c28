package kernel

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// Of a gear twice as large in all its lengths no angle and no share is another, not by
// a bit, and its leads and openings are twice as large: no formula of the motion has a
// size of its own, but for the endless rod, whose slant is nothing to a hundred digits.
// With lost motion of 2 and half of it of 1 too.
func TestEventsHaveNoScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		by := math.Exp2(float64(rapid.IntRange(-30, 10).Draw(t, "by")))
		if rapid.Bool().Draw(t, "play of two") {
			g.LostMotion = 2 / by
			if !g.Sound() {
				return
			}
		}
		large := g
		for _, l := range []*float64{&large.Stroke, &large.ConnectingRod, &large.Travel, &large.EccentricRod, &large.SteamPort, &large.Bar,
			&large.MiddlePort, &large.CrankSteamPort, &large.CrankBar, &large.ValveLength, &large.Cavity, &large.Offset,
			&large.CavityOffset, &large.LostMotion, &large.Chest} {
			*l *= by
		}
		m, e := solve(g)
		largeM, largeE := solve(large)
		for _, end := range []End{Head, Crank} {
			want, got := *e.At(end), *largeE.At(end)
			for _, l := range []*float64{&want.Lead, &want.Opening, &want.OverTravel, &want.ExhaustOpening} {
				*l *= by
			}
			if !same(got.Lead, want.Lead) {
				t.Fatalf("lead %v, not %v", got.Lead, want.Lead)
			}
			if got.Lead = want.Lead; got != want {
				t.Fatalf("%+v\nnot %+v", got, want)
			}
			if got, want := large.Passage(end), by*g.Passage(end); got != want {
				t.Fatalf("passage %v, not %v", got, want)
			}
			if got, want := large.Seal(end), by*g.Seal(end); got != want {
				t.Fatalf("seal %v, not %v", got, want)
			}
		}
		if got, want := largeM.EqualLeadShift(), by*m.EqualLeadShift(); !same(got, want) {
			t.Fatalf("shift for equal leads %v, not %v", got, want)
		}
		at := rapid.Float64Range(-7, 7).Draw(t, "crank")
		if got, want := largeM.Valve(at), by*m.Valve(at); !same(got, want) {
			t.Fatalf("valve at %v, not %v", got, want)
		}
		if got, want := largeM.Piston(at), by*m.Piston(at); !same(got, want) {
			t.Fatalf("piston at %v, not %v", got, want)
		}
		lead := g.SteamPort * rapid.Float64Range(-0.5, 0.5).Draw(t, "lead")
		for _, end := range []End{Both, Head, Crank} {
			want, ok := m.AdvanceFor(lead, end)
			if got, still := largeM.AdvanceFor(by*lead, end); got != want || ok != still {
				t.Fatalf("advance %v %v, not %v %v", got, still, want, ok)
			}
		}
	})
}

func same(a, b float64) bool { return a == b || math.Abs(a) < 1e-100 && math.Abs(b) < 1e-100 }

// A port that never shuts drives all the way out, and one that is open with it takes
// away; worked by hand, in degrees from each end's own dead centre.
func TestDrivenByHand(t *testing.T) {
	const degree = math.Pi / 180
	opens := func(from, to float64) EndEvents {
		return EndEvents{Admission: Event{true, from * degree, 0}, CutOff: Event{true, to * degree, 0}}
	}
	always, never := EndEvents{Steam: NeverCloses}, EndEvents{Steam: NeverOpens}
	type arc struct {
		end      End
		from, to float64
	}
	for _, test := range []struct {
		name        string
		head, crank EndEvents
		want        []arc
		blind, both float64 // degrees in which neither drives, and in which both are open
	}{
		{"a usual one", opens(-5, 120), opens(-3, 110), []arc{{Head, 0, 120}, {Crank, 0, 110}}, 130, 0},
		{"late", opens(10, 150), opens(12, 140), []arc{{Head, 10, 150}, {Crank, 12, 140}}, 92, 0},
		{"one alone", always, never, []arc{{Head, 0, 180}}, 180, 0},
		{"the other alone", never, always, []arc{{Crank, 0, 180}}, 180, 0},
		{"both always", always, always, nil, 360, 360},
		{"neither", never, never, nil, 360, 0},
		{"against one that never shuts", opens(0, 120), always, []arc{{Crank, 0, 180}}, 180, 120},
		// Cut-off at 190 runs into the other's stroke out, whose first 10 degrees it takes.
		{"past the dead centre", opens(0, 190), opens(0, 120), []arc{{Head, 0, 180}, {Crank, 10, 120}}, 70, 10},
		{"before it", opens(-15, 120), opens(0, 170), []arc{{Head, 0, 120}, {Crank, 0, 165}}, 75, 5},
		// Open from 100 degrees of one stroke out to 20 degrees of the next.
		{"into the next", opens(100, 380), opens(0, 60), []arc{{Head, 0, 20}, {Head, 100, 180}}, 260, 60},
		{"from the one before", opens(-100, 60), opens(10, 60), []arc{{Head, 0, 60}, {Crank, 10, 60}}, 250, 0},
		{"in two", opens(0, 180), opens(-120, -60), []arc{{Head, 0, 60}, {Head, 120, 180}}, 240, 60},
	} {
		e := Events{Head: test.head, Crank: test.crank}
		driven := e.Driven()
		all := driven.All()
		if len(all) != len(test.want) {
			t.Errorf("%s: %v", test.name, all)
			continue
		}
		for i, d := range all {
			if want := test.want[i]; d.End != want.end || math.Abs(d.From/degree-want.from)+math.Abs(d.To/degree-want.to) > 1e-9 {
				t.Errorf("%s: %d %v to %v, want %v", test.name, d.End, d.From/degree, d.To/degree, want)
			}
		}
		near(t, test.name+": blind", e.BlindArc()/degree, test.blind, 1e-9)
		near(t, test.name+": both open", e.OpenTogether()/degree, test.both, 1e-9)
	}
}

// Of two arcs that meet the later one has the angle, and a turn more or less changes
// nothing.
func TestRoundWhereArcsMeet(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	for range 200 {
		r := Round{Of: 1 + rng.IntN(4)}
		r.Arcs[0].From = math.Round(8*rng.Float64()-4) / 2
		for i := range r.Of {
			if i > 0 {
				r.Arcs[i].From = r.Arcs[i-1].To
			}
			r.Arcs[i].To = r.Arcs[i].From + 0.25 + rng.Float64()
		}
		for i := range r.Of {
			a := &r.Arcs[i]
			if got := r.At(a.From); got != a {
				t.Errorf("arc %d of %+v begins in %+v", i, r, *got)
			}
			middle := (a.From + a.To) / 2
			for _, turns := range []float64{-3, -2, -1, 0, 1, 2, 3} {
				if got := r.At(middle + turns*2*math.Pi); got != a && i < r.Of-1 {
					t.Errorf("arc %d of %+v, %v turns on, is %+v", i, r, turns, *got)
				}
			}
		}
		// A turn after it began it begins again; just before that the last one ends.
		start := r.Arcs[0].From
		if r.At(start+2*math.Pi) != &r.Arcs[0] || r.At(start+2*math.Pi-1e-9) != &r.Arcs[r.Of-1] ||
			r.At(start-1e-9) != &r.Arcs[r.Of-1] {
			t.Errorf("a turn of %+v", r)
		}
	}
}

// Along p*V^k the integral is that of thin slices, for any index and either way.
func TestWorkAlongByHand(t *testing.T) {
	for _, index := range []float64{1, 1.0000001, 1.135, 1.4, 0.8, 2} {
		c := Cycle{Index: index}
		for _, ends := range [][2]float64{{0.5, 1.08}, {1.08, 0.3}, {0.2, 0.2}} {
			sum, n := 0.0, 2000
			for i := range n {
				v := ends[0] + (ends[1]-ends[0])*(float64(i)+0.5)/float64(n)
				sum += math.Pow(ends[0]/v, index) * (ends[1] - ends[0]) / float64(n)
			}
			near(t, "along", c.along(ends[0], ends[1]), sum, 1e-6)
			shut := Pressing{State: Shut, Pressure: 3, Volume: 0.4}
			want := 3 * math.Pow(0.4/ends[0], index)
			near(t, "pressure", shut.At(ends[0], index), want, 1e-12)
			near(t, "work", c.Work(&shut, ends[0], ends[1]), want*sum, 1e-5)
			open := Pressing{State: ToSteam, Pressure: 3}
			near(t, "work at one pressure", c.Work(&open, ends[0], ends[1]), 3*(ends[1]-ends[0]), 1e-12)
		}
	}
}
