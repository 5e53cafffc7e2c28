package diagnosis_test

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Readings that are worse than they are said to be, and engines that are wrong in what
// no fault stands for, do not make a verdict sure of the wrong part.
func TestPlantedRough(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(14, 20))
	turned := func(rs []taken, by func(degrees float64) float64) {
		for i := range rs[:min(8, len(rs))] {
			if !rs[i].never {
				rs[i].value = math.Mod(by(rs[i].value)+720, 360)
			}
		}
	}
	for _, rough := range []struct {
		what  string
		spoil func(e *engine)
		read  func(rs []taken)
	}{
		{"errors three times as said", nil, func(rs []taken) {
			for i := range rs {
				rs[i].within /= 3
			}
		}},
		{"two angles 10 to 20 degrees wrong", nil, func(rs []taken) {
			for _, i := range r.Perm(8)[:2] {
				turned(rs[i:i+1], func(d float64) float64 { return d + (10+10*r.Float64())*float64(2*r.IntN(2)-1) })
			}
		}},
		{"angles counted the other way", nil, func(rs []taken) { turned(rs, func(d float64) float64 { return -d }) }},
		{"dead centre 4 degrees out", nil, func(rs []taken) { turned(rs, func(d float64) float64 { return d + 4 }) }},
		{"both rods a fifth short", func(e *engine) {
			e.rod, e.eccRod = 0.8*e.rod, 0.8*e.eccRod
			e.run()
		}, nil},
	} {
		y := tally{what: rough.what}
		for i := range fewer(150) {
			d, all, e := planted(r, kinds[i%len(kinds)])
			if rough.spoil != nil {
				rough.spoil(e)
			}
			rs := allReadings(measured(e, r, 1))
			if rough.read != nil {
				rough.read(rs)
			}
			y.count(all, diagnose(t, d, rs))
		}
		y.print(t)
		if y.wrong > 1 {
			t.Errorf("%s: sure and wrong %d times", rough.what, y.wrong)
		}
	}
}

// A sheave that is mirrored and 10 degrees off besides has the leads, openings and
// travel of one that is 10 degrees off. It may be sure that it is the sheave; which
// way to turn it is then asked for.
func TestPlantedTwin(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(14, 21))
	sure := 0
	for range fewer(200) {
		d := anyDrawing(r)
		m := scatter(r)
		m.advance += 180 - 2*d.advance + 10
		b := measured(d.built(m), r, 1)
		rs := b.leadsAndTravel()
		for _, end := range []string{"head", "crank"} {
			rs = append(rs, b.read("opening", end, 0, false), b.read("exhaust_opening", end, 0, false))
		}
		a := diagnose(t, d, rs)
		first := a.suspects[0]
		if !first.sure {
			continue
		}
		sure++
		if off := math.Remainder(first.amount-m.advance, 360); math.Abs(off) > 15 && (a.next == nil || a.doubts == 0) {
			t.Errorf("sure of %v, %+v, which is %.0f degrees from the truth, and nothing is asked", first, d, off)
		}
	}
	t.Logf("%d are sure that it is the sheave", sure)
}
