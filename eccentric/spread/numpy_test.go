package spread

import (
	"bytes"
	"encoding/binary"
	"math"
	"os/exec"
	"runtime"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// numpy's closed form, by another road, comes to the same events of the engines of
// a run, and its percentiles to those of the run.
func TestRandomAgainstNumpy(t *testing.T) {
	python := check.LongPeer(t, "python3", "numpy", "scipy")
	for name, spoil := range map[string]func(*Study){
		"demo": func(*Study) {},
		"as built": func(s *Study) {
			s.Gear.Valve.LostMotion, s.Gear.Valve.CavityOffset = units.MM(0.1), units.MM(0.05)
			s.Gear.Ports.CrankSteam, s.Gear.Ports.CrankBar = units.MM(2.1), units.MM(2.4)
			for _, d := range []Dimension{LostMotion, CavityOffset, CrankSteam, CrankBar} {
				s.Tolerances = append(s.Tolerances, within(t, d, "0.05 mm"))
			}
		},
	} {
		s := Study{Gear: demo(), Tolerances: usual(t), Runs: 20_000, Seed: 9}
		spoil(&s)
		engines := s.engines(t)
		var columns [15][]float64
		for _, g := range engines {
			k := g.Kernel()
			for i, v := range []float64{k.Stroke, k.ConnectingRod, k.Travel, k.EccentricRod, k.Advance * pmPerMM, k.SteamPort, k.Bar,
				k.MiddlePort, k.CrankSteamPort, k.CrankBar, k.ValveLength, k.Cavity, k.Offset, k.CavityOffset, k.LostMotion} {
				columns[i] = append(columns[i], v/pmPerMM)
			}
		}
		var table bytes.Buffer
		for _, column := range columns {
			if err := binary.Write(&table, binary.LittleEndian, column); err != nil {
				t.Fatal(err)
			}
		}
		cmd := exec.Command(python, check.Path(t, "eccentric/spread/closed_form.py"), "events")
		cmd.Stdin = &table
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		answer := make([]float64, len(out)/8)
		if err := binary.Read(bytes.NewReader(out), binary.LittleEndian, answer); err != nil {
			t.Fatal(err)
		}
		const n = 2 * 11
		if len(answer) != n*(len(engines)+len(shares)) {
			t.Fatalf("%s: %d numbers for %d engines", name, len(answer), len(engines))
		}
		worst := 0.0
		differ := func(got, want float64) { worst = max(worst, math.Abs(got-want)) }
		for i, g := range engines {
			e, err := g.Events()
			if err != nil {
				t.Fatal(err)
			}
			j := i
			next := func(v float64) { differ(v, answer[j]); j += len(engines) }
			for _, e := range []*eccentric.EndEvents{&e.Head, &e.Crank} {
				for _, event := range []eccentric.Event{e.Admission, e.CutOff, e.Release, e.Compression} {
					next(float64(event.Crank))
					next(event.Stroke)
				}
				next(e.Lead.MM())
				next(e.Opening.MM())
				next(e.ExhaustOpening.MM())
			}
		}
		r := random(t, s)
		rest := answer[n*len(engines):]
		next := func(p05, p50, p95 float64) {
			differ(p05, rest[0])
			differ(p50, rest[1])
			differ(p95, rest[2])
			rest = rest[3:]
		}
		for _, e := range []EndSpread{r.Head, r.Crank} {
			for _, event := range []EventSpread{e.Admission, e.CutOff, e.Release, e.Compression} {
				next(float64(event.Crank.P05), float64(event.Crank.P50), float64(event.Crank.P95))
				next(event.Stroke.P05, event.Stroke.P50, event.Stroke.P95)
			}
			for _, l := range []Percentiles[units.Length]{e.Lead, e.Opening, e.ExhaustOpening} {
				next(l.P05.MM(), l.P50.MM(), l.P95.MM())
			}
		}
		// Lengths are told to the picometre; the cosine of numpy's road loses digits where the piston hardly moves.
		if t.Logf("%s: %d engines, furthest apart %.2g rad or mm", name, len(engines), worst); !(worst < 2e-9) {
			t.Errorf("%s: apart by %v", name, worst)
		}
	}
}

const pmPerMM = 1e9

// BenchmarkClosedForm works out the events, leads and openings of 100,000 engines
// that were drawn before, on all cores: what closed_form.py times with numpy.
func BenchmarkClosedForm(b *testing.B) {
	s := Study{Gear: demo(), Tolerances: usual(b)}
	var gears []kernel.Gear
	for _, g := range s.engines(b) {
		gears = append(gears, g.Kernel())
	}
	box, err := s.box()
	if err != nil {
		b.Fatal(err)
	}
	r := newRun(&s, &box)
	r.workers = runtime.GOMAXPROCS(0)
	for b.Loop() {
		clear(r.blocks)
		err := r.share(b.Context(), len(r.blocks), func() func(int) {
			w := newWorker(r)
			return func(i int) {
				for engine := range r.size(i) {
					w.motion.Set(&gears[i*block+engine])
					w.motion.Events(&w.events)
					w.keep(i, engine)
				}
			}
		})
		if err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/usualRuns, "ns/engine")
}
