package spread

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// Dense sampling of boxes, their corners among it, never gets beyond the limits, and
// comes near to them.
func TestWorstHolds(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	part, never, boxes := 0, 0, 0
	for range 250 {
		s := anyStudy(random)
		b, err := s.box()
		if err != nil {
			continue
		}
		boxes++
		w := b.worst()
		for _, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
			limits := w.Head
			if end == kernel.Crank {
				limits = w.Crank
			}
			for _, e := range Events() {
				if l := limits.at(e); l.Ever && !l.Always {
					part++
				} else if !l.Ever {
					never++
				}
			}
			for range 400 {
				holds(t, &b, limits, end, b.gear(anySizes(random, &b)))
			}
		}
		if t.Failed() {
			t.Fatalf("%+v", s)
		}
	}
	t.Logf("%d boxes; %d events happen in part of theirs, %d never", boxes, part, never)
	if boxes < 200 || part < 100 || never < 20 {
		t.Error("too few")
	}
}

// holds complains of a gear of the box that lies beyond the limits of an end.
func holds(t *testing.T, b *box, w WorstEnd, end kernel.End, g kernel.Gear) {
	t.Helper()
	var found kernel.Events
	m := g.Motion()
	m.Events(&found)
	at := found.At(end)
	within := func(what string, v, low, high, by float64) {
		if !(v >= low-by && v <= high+by) {
			t.Errorf("%v %s %v is not within %v to %v", end, what, v, low, high)
		}
	}
	for _, e := range Events() {
		limits, is := w.at(e), e.of(at)
		if !is.Occurs {
			if limits.Always {
				t.Errorf("%v event %d does not happen", end, e)
			}
			continue
		}
		if !limits.Ever {
			t.Errorf("%v event %d happens", end, e)
			continue
		}
		crank := is.Crank + turnsOf(&g, end) - turnsOf(&b.drawn, end)
		within("crank", crank, float64(limits.MinCrank.Crank), float64(limits.MaxCrank.Crank), 1e-12)
		within("stroke", is.Stroke, limits.MinStroke.Stroke, limits.MaxStroke.Stroke, 1e-12)
	}
	within("lead", at.Lead, count(w.Lead.Min.Length), count(w.Lead.Max.Length), 0.51)
	within("opening", at.Opening, count(w.Opening.Min.Length), count(w.Opening.Max.Length), 0.51)
	within("exhaust opening", at.ExhaustOpening, count(w.ExhaustOpening.Min.Length), count(w.ExhaustOpening.Max.Length), 0.51)
}

func count(l units.Length) float64 { return float64(l.Picometres()) }

// anySizes draws a gear of a box: half of its sizes at their ends, often.
func anySizes(random *rand.Rand, b *box) []float64 {
	sizes := b.base()
	ends := random.Float64()
	for i, v := range b.varied {
		switch {
		case random.Float64() > ends:
			sizes[i] = v.lower + (v.upper-v.lower)*random.Float64()
		case random.Float64() < 0.5:
			sizes[i] = v.lower
		default:
			sizes[i] = v.upper
		}
	}
	return sizes
}

// anyStudy draws a gear, of any shape that can be, with tolerances from fine to
// absurd.
func anyStudy(random *rand.Rand) Study {
	f := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	g := demo()
	g.Travel = units.MM(f(4, 9))
	g.EccentricRod = eccentric.RodOf(units.MM(f(8, 90)))
	g.ConnectingRod = eccentric.RodOf(units.MM(f(14, 90)))
	if random.IntN(8) == 0 {
		g.EccentricRod = eccentric.InfiniteRod()
	}
	g.Advance = units.Angle(f(-180, 180)) * units.Degree
	if random.IntN(2) == 0 {
		g.Advance = units.Angle(f(-5, 60)) * units.Degree
	}
	r := g.Travel.Scale(0.5)
	g.Valve = g.Ports.ValveWith(eccentric.Laps{Steam: r.Scale(f(-0.2, 1)), Exhaust: r.Scale(f(-0.5, 0.5))})
	g.Valve.Offset = r.Scale(f(-0.1, 0.1))
	if random.IntN(2) == 0 {
		g.Valve.LostMotion = g.Travel.Scale(f(0, 0.3))
		g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(f(1.5, 2.5)), units.MM(f(2, 3))
		g.Valve.CavityOffset = units.MM(f(-0.5, 0.5))
	}
	g.InsideAdmission = random.IntN(3) == 0
	if random.IntN(3) == 0 {
		g.LeverRatio = []float64{-1, 1.25, -0.7}[random.IntN(3)]
	}
	s := Study{Gear: g}
	wide := math.Pow(10, f(-2, 0.1))
	for _, d := range Dimensions() {
		if d.absent(&g) || random.IntN(4) == 0 {
			continue
		}
		size := 1e9 * wide
		switch d {
		case Advance:
			size = wide * 0.3
		case LeverRatio:
			size = wide * 0.05
		case LostMotion: // not below zero
			size = min(size, count(g.Valve.LostMotion))
		}
		s.Tolerances = append(s.Tolerances, Tolerance{d, d.deviation(-size * f(-0.1, 1)), d.deviation(size * f(0.1, 1))})
	}
	return s
}

// Each limit is one of the gear that its combination describes.
func TestWorstIsAttained(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	inside := 0
	for range 200 {
		s := anyStudy(random)
		w, err := s.Worst()
		if err != nil {
			continue
		}
		for i, limits := range []WorstEnd{w.Head, w.Crank} {
			end := []kernel.End{kernel.Head, kernel.Crank}[i]
			for _, e := range Events() {
				l := limits.at(e)
				for _, c := range []struct {
					with  Combination
					crank float64
				}{{l.MinCrank.With, float64(l.MinCrank.Crank)}, {l.MaxCrank.With, float64(l.MaxCrank.Crank)}} {
					if is, ok := eventWith(s, c.with, end, e); ok && l.Always {
						if d := math.Abs(math.Remainder(float64(is.Crank)-c.crank, 2*math.Pi)); d > 2e-8 {
							t.Errorf("event %d at the %v end: %v, its gear has %v", e, end, c.crank, is.Crank)
						}
					} else if l.Always {
						t.Errorf("event %d does not happen in the gear of its limit", e)
					}
				}
				for _, c := range []StrokeLimit{l.MinStroke, l.MaxStroke} {
					if is, ok := eventWith(s, c.With, end, e); ok && l.Always {
						if d := math.Abs(is.Stroke - c.Stroke); d > 1e-9 {
							t.Errorf("event %d at the %v end: %v of the stroke, its gear has %v", e, end, c.Stroke, is.Stroke)
						}
						if c.Stroke == 0 || c.Stroke == 1 {
							inside++
						}
					}
				}
			}
		}
	}
	if t.Logf("%d extremes at a dead centre", inside); inside < 50 {
		t.Error("too few")
	}
}

// eventWith returns an event of the gear that a combination describes.
func eventWith(s Study, c Combination, end kernel.End, e Event) (kernel.Event, bool) {
	b, err := s.box()
	if err != nil {
		return kernel.Event{}, false
	}
	k := b.drawn
	for _, off := range c {
		v := &b.varied[b.place(off.Dimension)]
		v.set(&k, v.drawn+off.Dimension.count(off.By))
	}
	var found kernel.Events
	m := k.Motion()
	m.Events(&found)
	is := *e.of(found.At(end))
	return is, is.Occurs
}
