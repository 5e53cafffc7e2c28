package kernel

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"
)

// integrated is the mean pressure of one end by quadrature, from the openings of
// the port alone: it knows no events, no order of them and no closed form. The
// crank angles at which the valve passes an edge come from a scan and bisection.
func integrated(m *Motion, end End, c *Cycle) float64 {
	sign, shift := 1.0, 0.0
	if end == Crank {
		sign, shift = -1, math.Pi
	}
	valve := func(t float64) float64 { return sign * m.Valve(t+shift) }
	stroke := func(t float64) float64 { // from that end, as a share
		gone := m.Piston(t+shift) / m.Stroke
		if end == Crank {
			return 1 - gone
		}
		return gone
	}
	rate := func(t float64) float64 { // d(stroke)/dt
		sin, cos := math.Sincos(t + shift)
		root := math.Sqrt(4*m.Rod*m.Rod/(m.Stroke*m.Stroke) - sin*sin)
		return sign * (sin + sin*cos/root) / 2
	}
	const turn, steps, start = 2 * math.Pi, 720, 0.0012345 // no edge is passed just there
	var edges []float64
	for _, lap := range []float64{m.Steam[end], -m.Exhaust[end]} {
		for i := range steps {
			low, high := start+turn*float64(i)/steps, start+turn*float64(i+1)/steps
			if (valve(low) > lap) == (valve(high) > lap) {
				continue
			}
			out := valve(high) > lap
			for range 60 {
				if middle := (low + high) / 2; (valve(middle) > lap) == out {
					high = middle
				} else {
					low = middle
				}
			}
			edges = append(edges, low)
		}
	}
	if len(edges) == 0 {
		return 0
	}
	slices.Sort(edges)
	// Twice round, so that the first closing is known; the second turn counts.
	work, held, at := 0.0, 0.0, 0.0 // pressure and volume at the last closing
	for lap := range 2 {
		work = 0
		for i, from := range edges {
			to := edges[0] + turn
			if i+1 < len(edges) {
				to = edges[i+1]
			}
			var pressure func(float64) float64
			switch x := valve((from + to) / 2); {
			case x > m.Steam[end]:
				held, at = c.Chest, c.Clearance+stroke(to)
				pressure = func(float64) float64 { return c.Chest }
			case x < -m.Exhaust[end]:
				held, at = c.Back, c.Clearance+stroke(to)
				pressure = func(float64) float64 { return c.Back }
			default:
				held, at := held, at
				pressure = func(t float64) float64 { return held * math.Pow(at/(c.Clearance+stroke(t)), c.Index) }
			}
			if lap == 0 && at == 0 {
				continue
			}
			const pieces = 8
			for p := range pieces {
				low, high := from+(to-from)*float64(p)/pieces, from+(to-from)*float64(p+1)/pieces
				work += quad.Fixed(func(t float64) float64 { return pressure(t) * rate(t) }, low, high, 32, quad.Legendre{}, 0)
			}
		}
	}
	return work
}

// The closed form of the work agrees with the quadrature of the cycle at every
// advance, with any laps and any index.
func TestMeanPressure(t *testing.T) {
	shapes := map[[2]State]int{}
	missed := func() (all [][2]State) {
		for _, shape := range [][2]State{{}, {NeverOpens, OpensAndCloses}, {OpensAndCloses, NeverCloses}} {
			if shapes[shape] == 0 {
				all = append(all, shape)
			}
		}
		return all
	}
	for round := 0; round < 50 && len(missed()) > 0; round++ { // some shapes are rare
		meanPressure(t, shapes)
	}
	if shapes := missed(); len(shapes) > 0 {
		t.Errorf("no gear that is %v", shapes)
	}
}

func meanPressure(t *testing.T, shapes map[[2]State]int) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		c := Cycle{
			Chest: rapid.Float64Range(1, 12).Draw(t, "chest"), Back: rapid.Float64Range(0.1, 1.5).Draw(t, "back"),
			Clearance: rapid.Float64Range(0.01, 0.3).Draw(t, "clearance"),
			Index:     rapid.SampledFrom([]float64{1, 1 + 1e-9, 1.135, 1.3, 1.4}).Draw(t, "index"),
		}
		// One gear in three has a lap that the valve does not reach, or not back.
		switch rapid.IntRange(0, 5).Draw(t, "never") {
		case 0:
			g.ValveLength += 1.31 * g.Travel
		case 1:
			g.Cavity = min(g.Cavity+1.31*g.Travel, 0.99*g.ValveLength)
		}
		m, e := solve(g)
		for _, end := range []End{Head, Crank} {
			at := e.At(end)
			// The scan does not see a port that opens, or shuts, for less than one of its steps.
			open, out := at.CutOff.Crank-at.Admission.Crank, at.Compression.Crank-at.Release.Crank
			if grazes := func(arc float64) bool { return arc != 0 && (arc < 0.02 || arc > 2*math.Pi-0.02) }; grazes(open) || grazes(out) {
				continue
			}
			// Nor does it tell on which side the valve is that comes to an edge and no further, to the last digits.
			shift := map[End]float64{Head: m.Shift, Crank: -m.Shift}[end]
			touches := func(edge float64) bool { return math.Abs(math.Abs(edge-shift)-(m.Reach-m.Late)) < 1 }
			if touches(m.Steam[end]) || touches(-m.Exhaust[end]) {
				continue
			}
			shapes[[2]State{at.Steam, at.Exhaust}]++
			want := integrated(&m, end, &c)
			near(t, "mean pressure", at.MeanPressure(&c)/max(c.Chest, c.Back), want/max(c.Chest, c.Back), 1e-10)
		}
	})
}

// A cut-off with no compression is the diagram of the textbooks:
// ps*(x + (x+c)*ln((1+c)/(x+c))) - pb, which release and compression at the dead
// centres give (Machinery's Reference Series 70, Steam Engines, ch. II). With
// ps 3, pb 1, x 0.5, c 0.08: 3 (0.5 + 0.58 ln(1.08/0.58)) - 1 = 1.5817.
func TestMeanPressureOfTheTextbooks(t *testing.T) {
	e := EndEvents{
		Admission: Event{true, 0, 0}, CutOff: Event{true, math.Pi / 2, 0.5},
		Release: Event{true, math.Pi, 1}, Compression: Event{true, 2 * math.Pi, 0},
	}
	near(t, "mean pressure", e.MeanPressure(&Cycle{3, 1, 0.08, 1}), 1.5817, 0.00005)
	near(t, "the same, k all but 1", e.MeanPressure(&Cycle{3, 1, 0.08, 1 + 1e-12}), e.MeanPressure(&Cycle{3, 1, 0.08, 1}), 1e-11)
}

// In any gear, and at either end, work is a number.
func TestMeanPressureIsANumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		g.Advance = math.Pi * rapid.SampledFrom([]float64{-1, -0.5, 0, 0.5, 1}).Draw(t, "advance")
		_, e := solve(g)
		if share := e.Share(); !(math.Abs(share) < 3) {
			t.Fatalf("share %v of %+v", share, e)
		}
	})
}

func BenchmarkMeanPressure(b *testing.B) {
	g := demo()
	_, e := solve(g)
	b.ReportAllocs()
	for b.Loop() {
		e.Share()
	}
}
