package kernel

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"
)

// anyCycle is a cycle with any index.
func anyCycle(t *rapid.T) Cycle {
	return Cycle{
		Chest: rapid.Float64Range(1, 12).Draw(t, "chest"), Back: rapid.Float64Range(0.1, 1.5).Draw(t, "back"),
		Clearance: rapid.Float64Range(0.01, 0.3).Draw(t, "clearance"),
		Index:     rapid.SampledFrom([]float64{1, 1 + 1e-9, 1.135, 1.3, 1.4}).Draw(t, "index"),
	}
}

// gone returns the stroke gone from an end at crank angle t from its dead centre,
// and how fast it goes.
func gone(m *Motion, end End, t float64) (stroke, moves float64) {
	if end == Crank {
		p := m.Place(t + math.Pi)
		return 1 - p.Stroke, -p.Moves
	}
	p := m.Place(t)
	return p.Stroke, p.Moves
}

// The work that the pressures of the round do on the piston is the closed form's,
// and the round has one arc behind the other for a turn, each with the openings of
// the valve that it names.
func TestRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, c := anyGear(t), anyCycle(t)
		switch rapid.IntRange(0, 5).Draw(t, "never") {
		case 0:
			g.ValveLength += 1.31 * g.Travel
		case 1:
			g.Cavity = min(g.Cavity+1.31*g.Travel, 0.99*g.ValveLength)
		case 2:
			g.Cavity = max(g.Cavity-1.31*g.Travel, 0.01*g.ValveLength)
		}
		g.CavityOffset = 0
		if !g.Sound() {
			t.Skip("no gear")
		}
		m, e := solve(g)
		for _, end := range []End{Head, Crank} {
			at := e.At(end)
			round := at.Round(&c)
			work, closed, last := 0.0, 0.0, round.Arcs[0].From
			for i := range round.Of {
				arc := &round.Arcs[i]
				near(t, "where an arc begins", arc.From, last, 1e-12)
				last = arc.To
				middle := (arc.From + arc.To) / 2
				if arc.To > arc.From+1e-6 {
					supplied(t, &m, end, middle, arc.State)
					if got := round.At(middle + 4*math.Pi); got != arc {
						t.Fatalf("arc %d: at its middle, two turns on, is another", i)
					}
				}
				first, _ := gone(&m, end, arc.From)
				then, _ := gone(&m, end, arc.To)
				closed += c.Work(arc, c.Clearance+first, c.Clearance+then)
				const pieces = 8
				for p := range pieces {
					low, high := arc.From+(arc.To-arc.From)*float64(p)/pieces, arc.From+(arc.To-arc.From)*float64(p+1)/pieces
					if high <= low { // an arc of a rounding error, where both laps are nothing
						continue
					}
					work += quad.Fixed(func(t float64) float64 {
						stroke, moves := gone(&m, end, t)
						return arc.At(c.Clearance+stroke, c.Index) * moves
					}, low, high, 32, quad.Legendre{}, 0)
				}
			}
			near(t, "a turn", last-round.Arcs[0].From, 2*math.Pi, 1e-12)
			near(t, "work", work/max(c.Chest, c.Back), at.MeanPressure(&c)/max(c.Chest, c.Back), 1e-10)
			near(t, "work of the arcs", closed/max(c.Chest, c.Back), at.MeanPressure(&c)/max(c.Chest, c.Back), 1e-12)
		}
	})
}

// supplied checks what the port of an end is open to, by where the valve stands.
func supplied(t *rapid.T, m *Motion, end End, at float64, want Supply) {
	t.Helper()
	x := m.Valve(at)
	if end == Crank {
		x = -m.Valve(at + math.Pi)
	}
	got := Shut
	switch {
	case x > m.Steam[end]:
		got = ToSteam
	case x < -m.Exhaust[end]:
		got = ToExhaust
	}
	if margin := math.Min(math.Abs(x-m.Steam[end]), math.Abs(x+m.Exhaust[end])); got != want && margin > 1e-9*m.Reach {
		t.Fatalf("the port is open to %d, want %d", got, want)
	}
}

// The derivatives are those of the piston's place, which another formula has too.
func TestPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		m := g.Motion()
		at, h := rapid.Float64Range(-7, 7).Draw(t, "at"), 1e-4
		p, before, after := m.Place(at), m.Place(at-h), m.Place(at+h)
		near(t, "place", p.Stroke, m.Piston(at)/m.Stroke, 1e-14)
		steep := 1 / math.Pow(1-math.Pow(m.Stroke/2/m.Rod, 2), 2.5) // of a short rod
		near(t, "speed", p.Moves, (after.Stroke-before.Stroke)/(2*h), 1e-7*steep)
		near(t, "acceleration", p.Gains, (after.Moves-before.Moves)/(2*h), 1e-7*steep)
	})
}
