package diagnosis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric/spread"
)

// sized multiplies every length of a drawing.
func (d *drawing) sized(by float64) {
	for _, l := range []*float64{
		&d.stroke, &d.rod, &d.travel, &d.eccRod, &d.port[0], &d.port[1], &d.bar[0], &d.bar[1], &d.exhaust,
		&d.length, &d.cavity, &d.offset, &d.cavityOff, &d.played,
	} {
		*l *= by
	}
}

// sized multiplies every length that is mistaken.
func (m *mistakes) sized(by float64) {
	for _, l := range []*float64{
		&m.offset, &m.sheave, &m.played, &m.steam[0], &m.steam[1], &m.exhaust[0], &m.exhaust[1], &m.valveSteam,
		&m.valveExhaust,
	} {
		*l *= by
	}
}

// tolerances are given ones that come to so much of the usual for every unknown.
func tolerances(t *testing.T, by float64) (all []spread.Tolerance) {
	t.Helper()
	for _, one := range []struct {
		of spread.Dimension
		mm float64
	}{
		{spread.ValveOffset, 0.1}, {spread.Travel, 0.2}, {spread.PortSteam, 0.1},
		{spread.ValveCavity, 0.1414}, {spread.CavityOffset, 0.0707},
	} {
		tolerance, err := one.of.PlusMinus(fmt.Sprintf("%.5f mm", one.mm*by))
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, tolerance)
	}
	return all
}

// leastTolerance is 3 standard deviations of what no size is better known than, in mm.
const leastTolerance = 0.06

// Whatever the engine is like, the rates hold.
func TestPlantedVariety(t *testing.T) {
	t.Parallel()
	for i, kindOf := range []struct {
		name  string
		make  func(r *rand.Rand, d *drawing)
		sized float64 // of the usual
		given float64 // tolerances, as a share of the usual
	}{
		{"with a lever", func(r *rand.Rand, d *drawing) { d.lever = []float64{-1, 1.2, -0.8, -1.3}[r.IntN(4)] }, 1, 0},
		{"admission inside", func(_ *rand.Rand, d *drawing) {
			if !d.inside {
				d.inside = true
				less := 2 * (laps(d, true) - laps(d, false))
				d.length, d.cavity = d.length-less, d.cavity-less
			}
		}, 1, 0},
		{"endless rods", func(_ *rand.Rand, d *drawing) { d.rod, d.eccRod, d.offset = 0, 0, 0 }, 1, 0},
		{"lost motion drawn", func(r *rand.Rand, d *drawing) { d.played = 0.1 + 0.2*r.Float64() }, 1, 0},
		{"tolerances given", nil, 1, 1},
		{"narrow tolerances", nil, 0.7, 0.7},
		{"wide tolerances", nil, 1, 2},
		{"tiny", nil, 0.28, 0.28},
		{"large", nil, 2.5, 2.5},
		{"large, without tolerances", nil, 2.5, 0},
	} {
		r := rand.New(rand.NewPCG(14, uint64(50+i)))
		y := tally{what: kindOf.name}
		var given []spread.Tolerance
		if kindOf.given != 0 {
			given = tolerances(t, kindOf.given)
		}
		for n := range fewer(280) {
			d := anyDrawing(r)
			if kindOf.make != nil {
				kindOf.make(r, d)
			}
			m := scatter(r)
			is := kinds[n%len(kinds)].sized(r, d)
			if less := math.Abs(is.amount * kindOf.sized); is.fault != "advance" && less > 0 && less < leastTolerance {
				continue
			}
			is.into(&m, r, d)
			is.amount = is.in(&m)
			if is.fault != "advance" {
				is.amount *= kindOf.sized
			}
			d.sized(kindOf.sized)
			m.sized(kindOf.sized)
			b := measured(d.built(m), r, 1)
			b.lengths *= kindOf.sized
			y.count([]plant{is}, diagnose(t, d, allReadings(b), given...))
		}
		y.print(t)
		if y.wrong > max(1, y.of/100) {
			t.Errorf("%s: sure and wrong %d times", kindOf.name, y.wrong)
		}
		if kindOf.sized == 1 || kindOf.given != 0 {
			least(t, kindOf.name, y.named, y.of, 95)
			least(t, kindOf.name+", sure", y.sure, y.of, 85)
		}
	}
}

// laps returns the steam lap or the exhaust lap of a drawing with admission outside.
func laps(d *drawing, steam bool) float64 {
	bars := (d.bar[0]+d.bar[1])/2*2 + d.exhaust
	if steam {
		return (d.length - bars - d.port[0] - d.port[1]) / 2
	}
	return math.Abs(bars-d.cavity) / 2
}
