package diagnosis_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/units"
)

// Readings that nobody can have taken are answered without a number that is none, and
// never surely: what is said adds up to one, and fits no engine.
func TestJunk(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 99))
	count := 200
	if testing.Short() {
		count = 40
	}
	sure := 0
	for range count {
		g := demo()
		switch r.IntN(5) {
		case 0:
			g.ConnectingRod, g.EccentricRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
		case 1:
			g.LeverRatio = -2
		case 2:
			g.InsideAdmission = true
		case 3:
			g.Valve.LostMotion = units.MM(6)
		}
		c := diagnosis.Case{Gear: g}
		for range r.IntN(14) {
			rd := diagnosis.Reading{Kind: diagnosis.Kind(1 + r.IntN(10)), End: eccentric.End(1 + r.IntN(2))}
			size := math.Pow(10, 12*r.Float64()-6) * (2*r.Float64() - 1)
			switch k := rd.Kind; {
			case k <= diagnosis.Compression && r.IntN(6) == 0:
				rd.Never = true
			case k <= diagnosis.Compression && r.IntN(4) == 0:
				rd.ByStroke, rd.Stroke = true, float64(r.IntN(11))/10
			case k <= diagnosis.Compression:
				rd.Angle = units.Angle(r.IntN(541)-180) * units.Degree
			case k == diagnosis.OpensNext:
				rd.Opens = diagnosis.Side(1 + r.IntN(2))
			case k == diagnosis.Travel || k == diagnosis.ValveAt:
				rd.End = eccentric.BothEnds
			}
			if rd.Kind > diagnosis.Compression && rd.Kind != diagnosis.OpensNext {
				if rd.Kind == diagnosis.Opening || rd.Kind == diagnosis.ExhaustOpening || rd.Kind == diagnosis.Travel {
					size = math.Abs(size)
				}
				rd.Length = units.MM(math.Round(size*1e6) / 1e6)
			}
			if rd.Kind == diagnosis.ValveAt {
				rd.Crank = units.Angle(r.IntN(360)) * units.Degree
			}
			c.Readings = append(c.Readings, rd)
		}
		d, err := c.Diagnose()
		if err != nil {
			t.Fatalf("%v: %v", c.Readings, err)
		}
		if d.Verdict().Sure {
			sure++
		}
		sum := 0.0
		for _, s := range d.Suspects {
			sum += s.Probability
			for _, v := range []float64{s.Probability, s.Odds, float64(s.Angle), float64(s.AngleSD)} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%v: %v", c.Readings, s)
				}
			}
		}
		if math.Abs(sum-1) > 0.01 || math.IsNaN(d.ChiSquare) {
			t.Fatalf("%v: all suspects together %g, chi-square %g", c.Readings, sum, d.ChiSquare)
		}
	}
	if sure > 0 {
		t.Errorf("sure %d times", sure)
	}
}
