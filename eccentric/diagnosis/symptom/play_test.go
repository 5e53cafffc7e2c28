package symptom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/units"
)

// demo is the invented engine of the demonstration book.
func demo() indicator.Running {
	return indicator.Running{
		Gear: eccentric.Gear{
			Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
			Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
			Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
			Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
		},
		Bore: units.MM(20), PistonRod: units.MM(5), Medium: indicator.Air, Chest: 2 * units.Bar, Index: 1.2,
		Clearance: indicator.Both(0.08), Speed: 300 * units.RevPerMinute,
	}
}

// someEngine is a sound engine by chance, of any size, with either admission, a lever
// or none, one cylinder or two.
func someEngine(r *rand.Rand) indicator.Running {
	run := demo()
	g := &run.Gear
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	mm := func(a, b float64) units.Length { return units.MM(math.Round(between(a, b)*1000) / 1000) }
	size := between(0.3, 4)
	g.Stroke = mm(20*size, 30*size)
	g.ConnectingRod = eccentric.RodOf(g.Stroke.Scale(between(1.5, 4)))
	g.Ports = eccentric.Ports{Steam: mm(1.5*size, 2.5*size), Bar: mm(2*size, 3*size), Exhaust: mm(3.5*size, 5*size)}
	s := between(0.4, 0.9)
	laps := eccentric.Laps{Steam: g.Ports.Steam.Scale(s), Exhaust: g.Ports.Steam.Scale(between(-0.05, 0.2))}
	g.Travel = g.Ports.Steam.Scale(2 * (s + between(0.7, 1.1)))
	g.Advance = units.Angle(math.Asin(2*s*float64(g.Ports.Steam.Picometres())/float64(g.Travel.Picometres()))) + units.Angle(between(0.02, 0.12))
	g.Valve = g.Ports.ValveWith(laps)
	if r.IntN(4) == 0 {
		g.InsideAdmission = true
		g.Valve.Length, g.Valve.Cavity = g.Ports.Exhaust.Add(g.Ports.Bar.Scale(2)).Add(g.Ports.Steam.Scale(2)).Add(laps.Exhaust.Scale(2)),
			g.Ports.Exhaust.Add(g.Ports.Bar.Scale(2)).Sub(laps.Steam.Scale(2))
	}
	g.EccentricRod = eccentric.RodOf(g.Travel.Scale(between(3, 12)))
	switch r.IntN(4) {
	case 0:
		g.LeverRatio = -between(0.8, 1.5)
	case 1:
		g.EccentricRod, g.ConnectingRod = eccentric.InfiniteRod(), eccentric.InfiniteRod()
	}
	run.Bore, run.PistonRod = mm(16*size, 24*size), mm(3*size, 5*size)
	run.Index, run.Clearance = between(1, 1.4), indicator.Shares{Head: between(0.03, 0.2), Crank: between(0.03, 0.2)}
	run.Chest, run.Back = units.Pressure(between(1, 4))*units.Bar, units.Pressure(between(0, 0.2))*units.Bar
	if r.IntN(3) == 0 {
		run.Cranks = []units.Angle{90 * units.Degree}
	}
	return run
}

// Without leaks and slowly the turn is the cycle of package indicator, whose work has a
// closed form: half a degree a step, and a port opens at a step.
func TestTurnIsTheCycle(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	worst, worstPush := 0.0, 0.0
	for range 300 {
		run := someEngine(r)
		switch r.IntN(6) { // wrong ones have work too, most of it below zero
		case 0:
			run.Gear.Advance = inTurn(math.Pi - float64(run.Gear.Advance))
		case 1:
			run.Gear.Advance = inTurn(2 * math.Pi * r.Float64())
		case 2:
			run.Gear.Valve.Offset = run.Gear.Ports.Steam.Scale(r.Float64() - 0.5)
		}
		if err := run.Validate(); err != nil {
			t.Fatal(err)
		}
		p := newPlayer(&run)
		got := p.play(&state{gear: run.Gear}, slowly)
		cycle, err := run.Cycle()
		if err != nil {
			t.Fatal(err)
		}
		want := float64(cycle.Work) / (float64(run.Chest-run.Back) * float64(cycle.Head.Swept))
		worst = max(worst, math.Abs(got.work-want))
		if math.Abs(got.work-want) > 0.03 {
			t.Errorf("%.60v: work %v, want %v", run, got.work, want)
		}
		sum := 0.0
		for _, m := range got.moment {
			sum += m * dt
		}
		if math.Abs(sum-got.work*float64(len(p.shifts))) > 1e-9 {
			t.Errorf("the moments of a turn give %v, the work is %v", sum, got.work)
		}
		starting, err := run.Starting(0)
		if err != nil {
			t.Fatal(err)
		}
		on, _ := pushed(got.rest, 0)
		for _, arc := range starting.Starts {
			on -= arc.Angle().Degrees() / 360
		}
		worstPush = max(worstPush, math.Abs(on))
		if math.Abs(on) > 0.02 {
			t.Errorf("%.60v: it starts from %v more of the turn", run, on)
		}
	}
	t.Logf("300 engines: work within %.4f of the difference of pressure times the swept volume, starting arcs within %.4f of a turn",
		worst, worstPush)
}

// A gear that turns the other way is that with the sheave on the other hand.
func TestTurned(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 2))
	for range 100 {
		run := someEngine(r)
		if twice := turned(turned(run.Gear)); math.Abs(math.Remainder(float64(twice.Advance-run.Gear.Advance), 2*math.Pi)) > 1e-12 {
			t.Errorf("turned twice: %v, not %v", twice.Advance, run.Gear.Advance)
		}
		p := newPlayer(&run)
		mirrored := run.Gear
		mirrored.Advance = inTurn(math.Pi - float64(mirrored.Advance))
		back := p.play(&state{gear: turned(mirrored)}, slowly)
		if drawn := p.play(&state{gear: run.Gear}, slowly); math.Abs(back.work-drawn.work) > 1e-9 {
			t.Errorf("a mirrored sheave does %v the other way, the drawn one %v", back.work, drawn.work)
		}
	}
}

// What leaks, rubs and chokes takes work, and the more of it the more.
func TestWornTakesWork(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 3))
	for range 60 {
		run := someEngine(r)
		p := newPlayer(&run)
		of := func(s state, at pace) *turn {
			s.gear = run.Gear
			return p.play(&s, at)
		}
		sound, fast := of(state{}, slowly), of(state{}, atSpeed)
		if small, large := of(state{rings: 0.1}, slowly), of(state{rings: 0.6}, slowly); !(large.work < small.work && small.work < sound.work) ||
			!(large.use/large.work > small.use/small.work && small.use/small.work > sound.use/sound.work) {
			t.Errorf("%.60v: rings: work %v, %v, %v", run, sound.work, small.work, large.work)
		}
		if a, b := of(state{exhaust: 0.1}, atSpeed), of(state{exhaust: 0.3}, atSpeed); !(b.work < a.work && a.work < fast.work && fast.work < sound.work) {
			t.Errorf("%.60v: choked: work %v, %v, %v, slowly %v", run, fast.work, a.work, b.work, sound.work)
		}
		if off := of(state{lifted: true}, slowly); math.Abs(off.work) > 0.01 || off.blows < 0.999 {
			t.Errorf("%.60v: off its face it does %v and blows in %v", run, off.work, off.blows)
		}
		if fixed := of(state{fixed: true}, slowly); math.Abs(fixed.work) > 1e-9 {
			t.Errorf("%.60v: not driven it does %v", run, fixed.work)
		}
		if s := of(state{valve: 0.1}, slowly); s.blows < 0.999 {
			t.Errorf("%.60v: a valve that leaks blows in %v", run, s.blows)
		}
		if s := sound.blows; s > 0.001 {
			t.Errorf("%.60v: a sound engine blows in %v", run, s)
		}
	}
}
