package spread

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// The slopes are those that a step either way of the gear itself has, by central
// differences of the fourth order.
func TestSensitivities(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	count := 0
	for range 400 {
		s := anyStudy(random)
		s.Tolerances = nil
		all, err := s.Sensitivities(units.MM(0.01))
		if err != nil {
			continue
		}
		for _, of := range all.Sizes {
			d := of.Dimension
			v := s.sizes()[indexOf(s.sizes(), d)]
			step := d.count(of.Step)
			at := func(by float64, end kernel.End) (*kernel.EndEvents, *kernel.Gear) {
				g := s.Gear.Kernel()
				v.set(&g, v.drawn+by)
				return eventsOf(&g, end), &g
			}
			for i, end := range [...]kernel.End{kernel.Head, kernel.Crank} {
				changes := [...]Changes{of.Head, of.Crank}[i]
				h := step / 100
				slope := func(value func(*kernel.EndEvents) float64) (float64, bool) {
					var f [5]float64
					for k, by := range [...]float64{-2 * h, -h, 0, h, 2 * h} {
						e, _ := at(by, end)
						f[k] = value(e)
					}
					left, right := (f[2]-f[1])/h, (f[3]-f[2])/h
					smooth := math.Abs(left-right) < 0.01*math.Abs(left+right)+1e-25
					return (f[0] - 8*f[1] + 8*f[3] - f[4]) / (12 * h) * step, smooth
				}
				for _, e := range Events() {
					drawn, _ := at(0, end)
					p := passingOf(ptr(s.Gear.Kernel()), end, e)
					if is := e.of(drawn); !is.Occurs || math.Abs(p.s) > 0.98*p.reach {
						if changes.At(e).Occurs != is.Occurs {
							t.Fatalf("%v of %v at the %v end: %v", e, d, end, changes.At(e))
						}
						continue
					}
					count++
					crank, _ := slope(func(x *kernel.EndEvents) float64 {
						return math.Remainder(e.of(x).Crank-e.of(drawn).Crank, 2*math.Pi)
					})
					stroke, _ := slope(func(x *kernel.EndEvents) float64 { return e.of(x).Stroke })
					nearly(t, "crank", d, float64(changes.At(e).Crank), crank, 1e-9)
					nearly(t, "stroke", d, changes.At(e).Stroke, stroke, 1e-9)
				}
				if lead, smooth := slope(func(x *kernel.EndEvents) float64 { return x.Lead }); smooth {
					nearly(t, "lead", d, float64(changes.Lead.Picometres()), lead, 2)
				}
			}
		}
		if t.Failed() {
			t.Fatalf("%+v", s.Gear)
		}
	}
	if t.Logf("%d slopes", count); count < 10000 {
		t.Error("too few")
	}
}

func ptr[T any](v T) *T { return &v }

func indexOf(all []varied, d Dimension) int {
	for i, v := range all {
		if v.dimension == d {
			return i
		}
	}
	return -1
}

func nearly(t *testing.T, what string, d Dimension, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within+1e-6*math.Abs(want)) {
		t.Errorf("%s by %v: %v, want %v", what, d, got, want)
	}
}

// EC-10: at half a travel of 0.125 in, 5 thou of exhaust lap are 2.3 degrees of release
// and of compression, and 10 thou 4.6, with an endless rod and line on line.
func TestSensitivityOfExhaustLap(t *testing.T) {
	s := Study{Gear: demo()}
	s.Gear.Travel, s.Gear.EccentricRod = units.Inch(0.25), eccentric.InfiniteRod()
	for step, want := range map[units.Length]float64{units.Thou(5): 2.3, units.Thou(10): 4.6} {
		all, err := s.Sensitivities(step)
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range []Changes{all.ExhaustLap.Head, all.ExhaustLap.Crank} {
			if release, compression := end.Release.Crank.Degrees(), end.Compression.Crank.Degrees(); math.Abs(release-want) > 0.05 ||
				math.Abs(compression+want) > 0.05 || end.CutOff.Crank != 0 || !end.CutOff.Occurs || !end.Lead.IsZero() {
				t.Errorf("%v: %+v", step, end)
			}
		}
		// A cavity longer by two of the laps does the same the other way round, whichever end.
		for _, of := range all.Sizes {
			if of.Dimension == ValveCavity && math.Abs(float64(2*of.Head.Release.Crank+all.ExhaustLap.Head.Release.Crank)) > 1e-12 {
				t.Errorf("the cavity: %+v", of)
			}
			if of.Dimension == ValveLength && math.Abs(2*of.Crank.CutOff.Stroke-all.SteamLap.Crank.CutOff.Stroke) > 1e-12 {
				t.Errorf("the valve: %+v", of)
			}
		}
	}
	if _, err := s.Sensitivities(units.Length{}); err == nil {
		t.Error("a step of nothing")
	}
}
