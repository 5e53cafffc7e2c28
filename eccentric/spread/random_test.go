package spread

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// BenchmarkRandom draws 100,000 engines: events alone, with the findings of a gear
// that has no trouble, and of gears that have, where slips are suspected.
func BenchmarkRandom(b *testing.B) {
	for _, test := range []struct {
		name  string
		spoil func(*Study)
	}{
		{"events", func(s *Study) { s.EventsOnly = true }},
		{"findings", func(*Study) {}},
		{"trouble", func(s *Study) { s.Gear.Advance, s.Gear.Travel = 20*units.Degree, units.MM(6) }},
		{"slip", func(s *Study) { s.Gear.Advance = 116 * units.Degree }},
		{"half", func(s *Study) { s.Gear.Travel = units.MM(3.2) }},
	} {
		b.Run(test.name, func(b *testing.B) {
			s := Study{Gear: demo(), Tolerances: usual(b)}
			test.spoil(&s)
			for b.Loop() {
				if _, err := s.Random(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/usualRuns, "ns/engine")
		})
	}
}

func random(t testing.TB, s Study) Random {
	t.Helper()
	r, err := s.Random(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// engines draws the engines of a random run again, as gears in exact lengths.
func (s Study) engines(t interface{ Fatal(...any) }) (gears []eccentric.Gear) {
	b, err := s.box()
	if err != nil {
		t.Fatal(err)
	}
	r := newRun(&s, &b)
	w := newWorker(r)
	for i := range r.blocks {
		w.begin(i)
		for range r.size(i) {
			w.next()
			g := s.Gear
			for _, v := range b.varied {
				at, _ := v.in(&w.gear)
				v.dimension.put(&g, *at)
			}
			k := g.Kernel()
			k.Placed = s.Placed
			if k != w.gear {
				t.Fatal("an engine that is drawn is no gear in whole picometres")
			}
			gears = append(gears, g)
		}
	}
	return gears
}

// The same seed gives the same answer, whoever works it out; another seed another.
func TestSameAnswer(t *testing.T) {
	for _, runs := range []int{1, 7, block, block + 1, 20*block + 300} {
		s := Study{Gear: demo(), Tolerances: usual(t), Runs: runs, Seed: 7, Workers: 1}
		s.Gear.Travel = units.MM(4.2) // some ports never open
		want := random(t, s)
		if want.Runs != runs {
			t.Errorf("%d runs of %d", want.Runs, runs)
		}
		slices.Reverse(s.Tolerances)
		for workers := range 5 {
			s.Workers = workers
			if got := random(t, s); !reflect.DeepEqual(got, want) {
				t.Errorf("%d runs, %d workers:\n%v\n%v", runs, workers, got, want)
			}
		}
		s.Seed = 8
		if got := random(t, s); reflect.DeepEqual(got, want) {
			t.Errorf("%d runs: another seed gives the same", runs)
		}
	}
}

// What is told of a run is what Gear.Events, Gear.Check and sorting tell of its
// engines one by one.
func TestRandomIsOfItsEngines(t *testing.T) {
	for name, spoil := range map[string]func(*eccentric.Gear){
		"sound":       func(*eccentric.Gear) {},
		"seldom open": func(g *eccentric.Gear) { g.Travel = units.MM(4.2) },
		"at the turn": func(g *eccentric.Gear) { g.Advance = -158 * units.Degree },
		"inside":      func(g *eccentric.Gear) { g.InsideAdmission, g.LeverRatio = true, -1 },
		"as built":    func(g *eccentric.Gear) { g.Valve.LostMotion, g.Ports.CrankBar = units.MM(0.2), units.MM(2.6) },
		"no steam":    func(g *eccentric.Gear) { g.Travel = units.MM(2) },
	} {
		s := Study{Gear: demo(), Tolerances: usual(t), Runs: 2*block + 357, Seed: 3}
		spoil(&s.Gear)
		got := random(t, s)
		drawing, err := s.Gear.Events()
		if err != nil {
			t.Fatal(err)
		}
		engines := s.engines(t)
		turned := 0 // angles that are told a turn on
		ends := func(of func(end int, e *eccentric.EndEvents)) {
			for _, g := range engines {
				e, err := g.Events()
				if err != nil {
					t.Fatal(err)
				}
				of(0, &e.Head)
				of(1, &e.Crank)
			}
		}
		for end, of := range []*EndSpread{&got.Head, &got.Crank} {
			drawn := []*eccentric.EndEvents{&drawing.Head, &drawing.Crank}[end]
			for i, event := range []*EventSpread{&of.Admission, &of.CutOff, &of.Release, &of.Compression} {
				pick := func(e *eccentric.EndEvents) eccentric.Event {
					return []eccentric.Event{e.Admission, e.CutOff, e.Release, e.Compression}[i]
				}
				var angles, strokes []float64
				ends(func(at int, e *eccentric.EndEvents) {
					if p := pick(e); at == end && p.Occurs {
						angle := float64(p.Crank)
						if about := drawn.Admission; about.Occurs && e.Admission.Occurs {
							turns := math.Round(float64(e.Admission.Crank-about.Crank) / (2 * math.Pi))
							if turns != 0 {
								turned++
							}
							angle -= turns * 2 * math.Pi
						}
						angles, strokes = append(angles, angle), append(strokes, p.Stroke)
					}
				})
				if want := float64(len(angles)) / float64(len(engines)); event.Occurs != want {
					t.Errorf("%s: event %d of end %d occurs in %v, want %v", name, i, end, event.Occurs, want)
				}
				near(t, name+", angle", []float64{float64(event.Crank.P05), float64(event.Crank.P50), float64(event.Crank.P95)}, angles, 1e-12)
				near(t, name+", stroke", []float64{event.Stroke.P05, event.Stroke.P50, event.Stroke.P95}, strokes, 1e-12)
			}
			for i, p := range []Percentiles[units.Length]{of.Lead, of.Opening, of.ExhaustOpening} {
				var all []float64
				ends(func(at int, e *eccentric.EndEvents) {
					if at == end {
						all = append(all, []float64{e.Lead.MM(), e.Opening.MM(), e.ExhaustOpening.MM()}[i])
					}
				})
				near(t, name+", length", []float64{p.P05.MM(), p.P50.MM(), p.P95.MM()}, all, 2e-9)
			}
		}
		if name == "at the turn" && turned < 100 {
			t.Errorf("%s: only %d angles are", name, turned)
		}
		compareFindings(t, got, engines, false)
	}
}

// near compares percentiles with those of numbers put in order.
func near(t *testing.T, what string, got, of []float64, tolerance float64) {
	t.Helper()
	for i, want := range sorted(of) {
		if !(math.Abs(got[i]-want) <= tolerance) {
			t.Errorf("%s: %v, want %v", what, got[i], want)
		}
	}
}

// compareFindings compares the chances with what Gear.Check, or Gear.CheckPlaced,
// says of each engine.
func compareFindings(t interface{ Errorf(string, ...any) }, r Random, engines []eccentric.Gear, placed bool) {
	type counts struct{ all, caution, fails int }
	check := eccentric.Gear.Check
	if placed {
		check = eccentric.Gear.CheckPlaced
	}
	want, stopped := map[finding.Code]counts{}, 0
	for _, g := range engines {
		worst := map[finding.Code]finding.Severity{}
		stops := false
		for _, f := range check(g) {
			worst[f.Code] = max(worst[f.Code], f.Severity)
			stops = stops || f.Severity >= finding.Fails
		}
		if stops {
			stopped++
		}
		for code, severity := range worst {
			c := want[code]
			c.all++
			if severity >= finding.Caution {
				c.caution++
			}
			if severity >= finding.Fails {
				c.fails++
			}
			want[code] = c
		}
	}
	of := func(n int) float64 { return float64(n) / float64(len(engines)) }
	if r.Fails != of(stopped) {
		t.Errorf("%v fail, want %v", r.Fails, of(stopped))
	}
	if len(r.Chances) != len(want) {
		t.Errorf("chances of %d codes, want %d", len(r.Chances), len(want))
	}
	for _, c := range r.Chances {
		w := want[c.Code]
		if c.Chance != of(w.all) || c.Caution != of(w.caution) || c.Fails != of(w.fails) {
			t.Errorf("%+v, want %v", c, w)
		}
	}
}

// anyGear is a gear as likely in trouble as not.
func anyGear(t *rapid.T) eccentric.Gear {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	rod := func(name string, of units.Length) eccentric.Rod {
		if rapid.IntRange(0, 5).Draw(t, name+", infinite") == 0 {
			return eccentric.InfiniteRod()
		}
		return eccentric.RodOf(of.Scale(f(name, 1.5, 8)))
	}
	g := demo()
	g.Travel = units.MM(f("travel", 2, 12))
	g.Ports.Steam, g.Ports.Bar = units.MM(f("port", 0.5, 3)), units.MM(f("bar", 0.5, 3))
	g.ConnectingRod, g.EccentricRod = rod("connecting rod", g.Stroke), rod("eccentric rod", g.Travel)
	steam, exhaust := f("steam lap", -0.1, 0.5), f("exhaust lap", -0.1, 0.3)
	if rapid.IntRange(0, 9).Draw(t, "never shut") == 0 {
		steam = -0.6
	}
	v := g.Ports.ValveWith(eccentric.Laps{Steam: g.Travel.Scale(steam), Exhaust: g.Travel.Scale(exhaust)})
	if v.Cavity.Cmp(units.MM(1)) > 0 && v.Cavity.Cmp(v.Length.Scale(0.9)) < 0 {
		g.Valve = v
	}
	// About right for the laps, and then perhaps stated amiss.
	g.Advance = units.Angle(math.Asin(min(max(2*steam, -0.9), 0.9))) + units.Angle(f("lead", -0.1, 0.3))
	switch rapid.IntRange(0, 7).Draw(t, "slip") {
	case 0:
		g.Advance = min(g.Advance+math.Pi/2, 3)
	case 1:
		g.Advance = -g.Advance
	case 2:
		g.Travel = g.Travel.Scale(0.5)
	case 3:
		g.Travel = g.Travel.Scale(2)
		if l, ok := g.EccentricRod.Length(); ok {
			g.EccentricRod = eccentric.RodOf(l.Scale(2))
		}
	case 4:
		g.Advance = units.Angle(f("advance", -3, 3))
	}
	g.Valve.Offset = units.MM(rapid.SampledFrom([]float64{0, 0, 0.1, -0.3}).Draw(t, "offset"))
	g.InsideAdmission = rapid.IntRange(0, 3).Draw(t, "inside") == 0
	g.LeverRatio = rapid.SampledFrom([]float64{0, 0, -1, 1.2}).Draw(t, "lever")
	if rapid.Bool().Draw(t, "as built") {
		g.Ports.CrankSteam, g.Valve.LostMotion = g.Ports.Steam.Scale(f("crank port", 0.8, 1.2)), g.Travel.Scale(f("lost", 0, 0.1))
	}
	if rapid.Bool().Draw(t, "chest") {
		g.Chest = g.Valve.Length.Add(g.Travel).Add(units.MM(f("chest", -0.2, 3)))
	}
	return g
}

// The chances of codes are those of Gear.Check on 10,000 engines, drawn about 400
// random gears, with every code that there is and all slips among them.
func TestCodesAreThoseOfCheck(t *testing.T) {
	met, engines := map[finding.Code]bool{}, 0
	generator := rapid.Custom(anyGear)
	for seed := 0; engines < 10_000; seed++ {
		s := Study{Gear: generator.Example(seed), Runs: 25, Seed: uint64(seed), Placed: seed%3 == 0}
		for _, tolerance := range usual(t) {
			if !tolerance.Dimension.absent(&s.Gear) {
				s.Tolerances = append(s.Tolerances, tolerance)
			}
		}
		if s.Validate() != nil {
			s.Tolerances = nil
		}
		if s.Gear.Validate() != nil {
			continue
		}
		r, drawn := random(t, s), s.engines(t)
		compareFindings(t, r, drawn, s.Placed)
		engines += len(drawn)
		for _, c := range r.Chances {
			met[c.Code] = true
		}
	}
	for code := range kernel.Code(kernel.Codes) {
		if code == kernel.NoLead { // a lead of nothing at all
			continue
		}
		if !met[finding.Code(code.String())] {
			t.Errorf("no engine has %v", code)
		}
	}
}

// Without a tolerance all engines are the drawing, and what is told is its Check.
func TestExact(t *testing.T) {
	s := Study{Gear: demo(), Runs: 3}
	s.Gear.Valve.Cavity = units.MM(11.8)
	got := random(t, s)
	e, err := s.Gear.Events()
	if err != nil {
		t.Fatal(err)
	}
	if c, want := got.Crank.Release.Crank, e.Crank.Release.Crank; c != (Percentiles[units.Angle]{want, want, want}) {
		t.Errorf("release at %v, want %v", c, want)
	}
	if c, want := got.Head.Lead, e.Head.Lead; c != (Percentiles[units.Length]{want, want, want}) {
		t.Errorf("lead %v, want %v", c, want)
	}
	compareFindings(t, got, []eccentric.Gear{s.Gear}, false)
	s.EventsOnly = true
	if only := random(t, s); only.Chances != nil || only.Fails != 0 || only.Crank != got.Crank {
		t.Errorf("events only: %v", only)
	}
}

// Each dimension is drawn from a normal distribution that is cut off at three
// standard deviations. Its quantiles are
//
//	Phi^-1(Phi(-3) + p*(Phi(3) - Phi(-3)))
//
// and its variance 1 - 6*phi(3)/(Phi(3) - Phi(-3)) (N. L. Johnson, S. Kotz and N.
// Balakrishnan, Continuous Univariate Distributions 1, ch. 13; from memory), with
// gonum for the functions. Lengths of the valve show in the lead as they are.
func TestDraws(t *testing.T) {
	const runs = 400_000
	tolerance := Tolerance{ValveLength, Deviation{Length: units.MM(-0.1)}, Deviation{Length: units.MM(0.5)}}
	s := Study{Gear: demo(), Tolerances: []Tolerance{tolerance}, Runs: runs, Seed: 5, EventsOnly: true}
	normal := distuv.UnitNormal
	below, inside := normal.CDF(-3), normal.CDF(3)-normal.CDF(-3)
	quantile := func(p float64) float64 { return normal.Quantile(below + p*inside) }
	e, err := s.Gear.Events()
	if err != nil {
		t.Fatal(err)
	}
	r := random(t, s)
	for p, got := range map[float64]units.Length{0.05: r.Head.Lead.P05, 0.5: r.Head.Lead.P50, 0.95: r.Head.Lead.P95} {
		z := quantile(p)
		want := e.Head.Lead.MM() - 0.2/2 + z*0.1/2 // the middle of the tolerance is 0.2 mm longer; the lap is half of it
		sampling := 0.1 / 2 * math.Sqrt(p*(1-p)/runs) / (normal.Prob(z) / inside)
		if math.Abs(got.MM()-want) > 4*sampling {
			t.Errorf("%v of the leads are below %v, want %v within %v", p, got, want, 4*sampling)
		}
	}

	s.Tolerances = append(usual(t), tolerance)
	s.Tolerances = slices.DeleteFunc(s.Tolerances, func(x Tolerance) bool { return x.Dimension == ValveLength && x != tolerance })
	b, err := s.box()
	if err != nil {
		t.Fatal(err)
	}
	draws := make([][]float64, len(b.varied))
	rn := newRun(&s, &b)
	w := newWorker(rn)
	for i := range rn.blocks {
		w.begin(i)
		for range rn.size(i) {
			w.next()
			for d, v := range b.varied {
				at, _ := v.in(&w.gear)
				draws[d] = append(draws[d], (*at-(v.lower+v.upper)/2)/((v.upper-v.lower)/6))
			}
		}
	}
	variance := 1 - 6*normal.Prob(3)/inside
	limit := 4 / math.Sqrt(runs)
	for d, x := range draws {
		mean, sd := stat.MeanStdDev(x, nil)
		if math.Abs(mean) > limit || math.Abs(sd*sd-variance) > limit*math.Sqrt2 {
			t.Errorf("%v: mean %v, variance %v; want 0 and %v", b.varied[d].dimension, mean, sd*sd, variance)
		}
		if low, high := slices.Min(x), slices.Max(x); low < -3 || high > 3 || low > -2.99 || high < 2.99 {
			t.Errorf("%v: from %v to %v standard deviations", b.varied[d].dimension, low, high)
		}
		for other, y := range draws[:d] {
			if c := stat.Correlation(x, y, nil); math.Abs(c) > limit*1.2 {
				t.Errorf("%v and %v go together by %v", b.varied[d].dimension, b.varied[other].dimension, c)
			}
		}
		if c := stat.Correlation(x[block:], x[:len(x)-block], nil); math.Abs(c) > limit {
			t.Errorf("%v: each block goes with the next by %v", b.varied[d].dimension, c)
		}
	}
}

// A run stops as soon as its context is done, and says why.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	last, calls := 0, 0
	s := Study{Gear: demo(), Tolerances: usual(t), Runs: mostRuns / 2, Workers: 2, Progress: func(done, of int) {
		if done <= last || of != mostRuns/2 {
			t.Errorf("%d of %d after %d", done, of, last)
		}
		last = done
		if calls++; calls == 3 {
			cancel()
		}
	}}
	if got, err := s.Random(ctx); !errors.Is(err, context.Canceled) || !reflect.DeepEqual(got, Random{}) {
		t.Errorf("got %v, %v", got, err)
	}
	if calls > 5 {
		t.Errorf("%d calls", calls)
	}
	done, cancel := context.WithDeadline(t.Context(), time.Now().Add(-time.Hour))
	defer cancel()
	if _, err := s.Random(done); !errors.Is(err, context.DeadlineExceeded) {
		t.Error(err)
	}
	s.Runs, last = 5*block+1, 0
	s.Progress = func(done, of int) { last = done }
	random(t, s)
	if last != s.Runs {
		t.Errorf("%d of %d runs at the end", last, s.Runs)
	}
	s.Seed, s.Tolerances = 0, append(s.Tolerances, s.Tolerances[0])
	if _, err := s.Random(t.Context()); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}
