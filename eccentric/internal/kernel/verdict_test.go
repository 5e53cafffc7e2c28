package kernel

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// Each case spoils the sound demonstration engine in one way; amounts follow from
// the dimensions.
func TestJudge(t *testing.T) {
	for _, test := range []struct {
		name   string
		spoil  func(*Gear)
		code   Code
		end    End
		grade  Grade
		amount float64 // mm
	}{
		{"cavity too long", func(g *Gear) { g.Cavity = 11.8 * millimetre }, NarrowLand, Both, Stops, 0.2},
		{"wrong hand", func(g *Gear) { g.Advance -= math.Pi }, RunsBackwards, Both, Stops, 0},
		{"off centre", func(g *Gear) { g.Offset = -0.3 * millimetre }, OffCentre, Both, Worth, 0.3},
		{"too little travel", func(g *Gear) { g.Travel = 2.4 * millimetre }, SteamNeverOpens, Head, Stops, 0},
		{"steam never shut", func(g *Gear) { g.ValveLength, g.Travel = 10.4*millimetre, 2*millimetre }, SteamNeverCloses, Crank, Stops, 0.3},
		{"exhaust shut in", func(g *Gear) { g.Cavity = 2.2 * millimetre }, ExhaustNeverOpens, Head, Stops, 0.2},
		{"exhaust never shut", func(g *Gear) { g.Cavity, g.Travel = 15.3*millimetre, 6*millimetre }, ExhaustNeverCloses, Head, Stops, 0.15},
		{"valve off the bar", func(g *Gear) { g.Travel = 12 * millimetre }, SteamPastValve, Head, Stops, 0.3},
		{"valve hardly on the bar", func(g *Gear) { g.Travel = 11 * millimetre }, SteamPastValve, Crank, Costs, 0.2},
		{"short chest", func(g *Gear) { g.Chest = 21 * millimetre }, FoulsChest, Both, Stops, 0.4},
		{"tight chest", func(g *Gear) { g.Chest = 22 * millimetre }, FoulsChest, Both, Worth, 0.1},
		{"roomy chest", func(g *Gear) { g.Chest = 22.8 * millimetre }, FoulsChest, Both, Absent, 0.5},
		{"clearance", func(g *Gear) { g.Cavity = 10 * millimetre }, OpenAtMidTravel, Both, Costs, 0.5},
		{"a little clearance", func(g *Gear) { g.Cavity = 9.2 * millimetre }, OpenAtMidTravel, Both, Worth, 0.1},
		{"a lap that nobody holds", func(g *Gear) { g.Cavity = 8.8 * millimetre }, LittleExhaustLap, Both, Worth, 0.1},
		{"a clearance that nobody holds", func(g *Gear) { g.Cavity = 9.2 * millimetre }, LittleExhaustLap, Both, Worth, 0.1},
		{"no steam lap", func(g *Gear) { g.ValveLength = 12.9 * millimetre }, NoSteamLap, Both, Costs, 0.05},
		{"narrow middle port", func(g *Gear) { g.MiddlePort, g.ValveLength, g.Cavity = 2*millimetre, 13.4*millimetre, 7*millimetre }, MiddleThrottled, Crank, Costs, 0.7},
		{"exhaust half open", func(g *Gear) { g.Cavity = 4.2 * millimetre }, ExhaustPartOpen, Head, Costs, 1.2},
		{"half the opening", func(g *Gear) { g.Travel = 4 * millimetre }, SteamPartOpen, Head, Costs, 1.2},
		{"most of the opening", func(g *Gear) { g.Travel = 6 * millimetre }, SteamPartOpen, Crank, Worth, 0.2},
		{"late", func(g *Gear) { g.Advance = -g.Advance }, LateSteam, Head, Costs, 2.533813},
		{"large lead", func(g *Gear) { g.Advance, g.EccentricRod = math.Pi/4, math.Inf(1) }, LargeLead, Crank, Costs, 3.2*math.Sqrt(0.5) - 1.2},
		{"in line with the crank", func(g *Gear) { g.Advance = math.Pi / 2 }, LittleWork, Both, Stops, 0},
		{"in line, away from the crank", func(g *Gear) { g.Advance = -math.Pi / 2 }, LittleWork, Both, Stops, 0},
		{"in line: no lead is told", func(g *Gear) { g.Advance = math.Pi / 2 }, LargeLead, Crank, Absent, 2},
		{"of the other direction, not in line", func(g *Gear) { g.Advance = 154 * math.Pi / 180 }, LittleWork, Both, Absent, 0},
		{"of the other direction, and in line", func(g *Gear) { g.Advance = 92 * math.Pi / 180 }, LittleWork, Both, Stops, 0},
		{"thin bars", func(g *Gear) { g.Bar, g.CrankBar = 0.79*millimetre, 0.79*millimetre }, ThinBars, Both, Worth, 0.21},
		{"bars of half the port", func(g *Gear) { g.Bar, g.CrankBar = 1*millimetre, 1*millimetre }, ThinBars, Both, Absent, 0},
		{"counted from the crank", func(g *Gear) { g.Advance = 116 * math.Pi / 180 }, AngleFromCrank, Both, Stops, 0},
		{"of the other direction, none such", func(g *Gear) { g.Advance = 154 * math.Pi / 180 }, AngleFromCrank, Both, Absent, 0},
		{"counted from the crank, behind", func(g *Gear) { g.Lever, g.Advance = -1, -64*math.Pi/180 }, AngleFromCrank, Both, Stops, 0},
		{"counted from the crank, behind, no sign", func(g *Gear) { g.Lever, g.Advance = -1, 64*math.Pi/180 }, AngleFromCrank, Both, Costs, 0},
		{"other sign", func(g *Gear) { g.Advance = -g.Advance }, AdvanceOfOtherSign, Both, Costs, 0},
		{"offset for travel", func(g *Gear) { g.Travel /= 2 }, OffsetForTravel, Both, Costs, 0},
		{"offset for travel, lever", func(g *Gear) { g.Lever = 1.6; g.Travel /= 3.2 }, OffsetForTravel, Both, Stops, 0},
		{"small travel, none such", func(g *Gear) { g.Travel = 4 * millimetre }, OffsetForTravel, Both, Absent, 0},
		{"travel for offset", func(g *Gear) { g.Travel *= 2 }, TravelForOffset, Both, Stops, 0},
		{"rods", func(*Gear) {}, UnequalCutOff, Both, Worth, 25 * (0.869943 - 0.796478)},
		{"no slant", func(g *Gear) { g.ConnectingRod, g.EccentricRod = math.Inf(1), math.Inf(1) }, UnequalCutOff, Both, Absent, 0},
		{"cut-off before the dead centre", func(*Gear) {}, BlindArc, Both, Worth, 0},
	} {
		g := demo()
		test.spoil(&g)
		m, e := solve(g)
		if v := g.Judge(&m, &e); !g.Sound() || v[test.code][test.end] != test.grade {
			t.Errorf("%s: grade %d, want %d", test.name, v[test.code][test.end], test.grade)
		}
		tolerance := 2e-6
		if test.code == UnequalCutOff {
			tolerance = 3e-5 // from shares of six places
		}
		near(t, test.name+": amount in mm", g.Amount(&m, &e, test.code, test.end)/millimetre, test.amount, tolerance)
	}
	g := demo()
	g.EccentricRod = math.Inf(1)
	m := g.Motion()
	g.Advance, _ = m.AdvanceFor(0, Both)
	m, e := solve(g)
	if v := g.Judge(&m, &e); v[NoLead] != [Ends]Grade{Head: Worth, Crank: Worth} {
		t.Errorf("no lead: %v", v[NoLead])
	}
}

// With admission inside, the edges and the ends change places: seen by sliding the
// valve over the port face. At full travel away from the crank the valve stands
// 4.7 mm that way, its outer edge 6.5 - 4.7 = 1.8 from the middle, where the bar
// ends at 2; its inner edge at 3.3 - 4.7 = -1.4, so that of the middle port, from -2
// to 2, there are 0.6 open.
func TestJudgeInside(t *testing.T) {
	g := demo()
	g.Inside, g.Travel, g.Offset = true, 7.4*millimetre, -1*millimetre
	g.ValveLength, g.Cavity = 13*millimetre, 6.6*millimetre
	m, e := solve(g)
	v := g.Judge(&m, &e)
	if v[SteamPastValve] != [Ends]Grade{Crank: Stops} || v[MiddleThrottled] != [Ends]Grade{Head: Costs} {
		t.Errorf("past the valve %v, middle port %v", v[SteamPastValve], v[MiddleThrottled])
	}
	near(t, "past the bar", g.Amount(&m, &e, SteamPastValve, Crank)/millimetre, 0.2, 1e-9)
	near(t, "middle port short of", g.Amount(&m, &e, MiddleThrottled, Head)/millimetre, 1.4, 1e-9)
}

// Nothing is so by less than nothing, and of two verdicts that exclude each other
// there is one.
func TestVerdictsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		m, e := solve(g)
		v := g.Judge(&m, &e)
		for code, ends := range v {
			for end, grade := range ends {
				if amount := g.Amount(&m, &e, Code(code), End(end)); grade > Absent && !(amount >= 0 && amount < math.Inf(1)) {
					t.Fatalf("code %d, end %d: amount %v", code, end, amount)
				}
			}
		}
		for _, end := range []End{Head, Crank} {
			opens := e.At(end).Steam == OpensAndCloses
			if opens == (v[SteamNeverOpens][end]+v[SteamNeverCloses][end] > 0) {
				t.Fatalf("end %d: %+v and %v", end, e.At(end), v)
			}
			if leads := v[LateSteam][end]/Worth + v[NoLead][end]; !opens && leads > 0 || v[LargeLead][end] > 0 && leads > 0 {
				t.Fatalf("end %d: leads %v", end, v)
			}
		}
	})
}

// What rounding to picometres leaves is told by no code.
func TestHair(t *testing.T) {
	for _, inside := range []bool{false, true} {
		g := demo()
		g.Lever, g.Inside = 0, inside
		g.Travel, g.SteamPort, g.CrankSteamPort = 6*millimetre, 2*millimetre, 2*millimetre
		g.Bar, g.CrankBar, g.MiddlePort = 2*millimetre, 2*millimetre, 3*millimetre
		g.ValveLength, g.Cavity, g.Offset = 13*millimetre, 7*millimetre, 0 // S = 1, E = 0: all of the port, just
		if inside {
			g.MiddlePort, g.ValveLength, g.Cavity = 4*millimetre, 12*millimetre, 6*millimetre
		}
		m, e := solve(g)
		was := g.Judge(&m, &e)
		if was[SteamPartOpen] != [Ends]Grade{} || was[MiddleThrottled] != [Ends]Grade{} || was[OffCentre] != [Ends]Grade{} {
			t.Fatal(was)
		}
		for _, part := range []*float64{&g.Travel, &g.SteamPort, &g.CrankSteamPort, &g.Bar, &g.MiddlePort, &g.ValveLength, &g.Cavity,
			&g.Offset} {
			for _, by := range []float64{-3, -1, 1, 3} {
				*part += by
				m, e := solve(g)
				if is := g.Judge(&m, &e); is != was {
					t.Errorf("inside %v: %v pm make %v of %v", inside, by, is, was)
				}
				*part -= by
			}
		}
		g.Travel -= 1e4 // a hundred thousandth of a millimetre
		m, e = solve(g)
		if is := g.Judge(&m, &e); is[SteamPartOpen] != [Ends]Grade{Head: Worth, Crank: Worth} {
			t.Error(is[SteamPartOpen])
		}
	}
}

// A sheave in line with the crank makes no work worth the name either way round,
// whatever the laps; one that is set for a lead does, down to a cut-off of a third.
func TestLittleWork(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 90))
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	worst, inLine, good := 1.0, 0.0, 0
	for range 2000 {
		g := demo()
		g.Travel = between(2, 12) * millimetre
		g.ConnectingRod, g.EccentricRod = g.Stroke*between(0.8, 5), g.Travel*between(1, 15)
		g.Offset = g.Travel * between(-0.05, 0.05)
		g.Inside, g.Lever = rng.IntN(2) == 0, [...]float64{0, -1, 1.2, -0.8}[rng.IntN(4)]
		lap, exhaust := between(0, 0.85), between(0, 0.3)
		if g.Inside {
			lap, exhaust = exhaust, lap
		}
		g.ValveLength = 2*g.SteamPort + 2*g.Bar + g.MiddlePort + g.Travel*lap
		g.Cavity = 2*g.Bar + g.MiddlePort - g.Travel*exhaust
		for _, advance := range []float64{-math.Pi / 2, math.Pi / 2} {
			g.Advance = advance
			m, e := solve(g)
			v := g.Judge(&m, &e)
			stops := v.worst(1<<LittleWork | 1<<SteamNeverOpens | 1<<SteamNeverCloses | 1<<ExhaustNeverOpens | 1<<ExhaustNeverCloses)
			if stops != Stops {
				t.Fatalf("in line and not told: %+v", g)
			}
			inLine = max(inLine, e.Share())
		}
		m := g.Motion()
		var ok bool
		if g.Advance, ok = m.AdvanceFor(between(0, 0.1)*g.SteamPort, Both); !ok {
			continue
		}
		m, e := solve(g)
		if !opensAndCloses(&e) || min(e.Head.CutOff.Stroke, e.Crank.CutOff.Stroke) < 1./3 {
			continue
		}
		good++
		worst = min(worst, e.Share())
		if v := g.Judge(&m, &e); v[LittleWork][Both] != Absent {
			t.Fatalf("a good gear makes %.3f: %+v", e.Share(), g)
		}
	}
	t.Logf("in line at most %.3f; %d good gears at least %.3f", inLine, good, worst)
	if good < 1000 || inLine > LeastWork/1.5 {
		t.Errorf("%d good gears; in line up to %.3f", good, inLine)
	}
}

// A gear whose eccentric stands right for a long lap cuts off early: that costs
// power and does not stop the engine, whichever way it turns, with any lead that is
// sound, down to a tenth of the difference. Out of its place it fails as others do.
func TestLittleWorkOfEarlyCutOff(t *testing.T) {
	for _, row := range []struct {
		name           string
		lap, lead      float64 // shares of the half travel, and of what the port then opens
		port           float64 // share of the half travel
		inside         bool
		reversed, turn bool
		want           Grade
	}{
		{"cuts off at 28 %", 0.85, 0, 0.6, false, false, false, Absent},
		{"at 19 %", 0.90, 0, 0.6, false, false, false, Costs},
		{"at 17 %, with lead", 0.90, 0.2, 0.6, false, false, false, Costs},
		{"at 15 %", 0.92, 0, 0.6, false, false, false, Costs},
		{"narrow port", 0.90, 0, 0.1, false, false, false, Costs},
		{"inside admission", 0.90, 0, 0.6, true, false, false, Costs},
		{"the other way round", 0.90, 0, 0.6, false, true, false, Costs},
		{"turned into the line", 0.90, 0, 0.6, false, false, true, Stops},
		{"at 12 %, friction takes it", 0.94, 0, 0.6, false, false, false, Stops},
		{"a brake", 0.98, 0, 0.6, false, false, false, Stops},
	} {
		g := demo()
		r := g.Travel / 2
		g.SteamPort, g.Inside, g.Offset = row.port*r, row.inside, 0
		g.CrankSteamPort = g.SteamPort
		steam, exhaust := row.lap*r, 0.0
		if g.Inside {
			steam, exhaust = exhaust, steam
		}
		g.ValveLength = 2*g.SteamPort + 2*g.Bar + g.MiddlePort + 2*steam
		g.Cavity = 2*g.Bar + g.MiddlePort - 2*exhaust
		m := g.Motion()
		var ok bool
		if g.Advance, ok = m.AdvanceFor(row.lead*(1-row.lap)*r, Both); !ok {
			t.Fatal(row.name)
		}
		if row.turn {
			g.Advance = math.Pi / 2
		}
		if row.reversed {
			g.Advance = Reversed(g.Advance)
		}
		m, e := solve(g)
		if v := g.Judge(&m, &e); v[LittleWork][Both] != row.want {
			t.Errorf("%s: %d, share %.3f", row.name, v[LittleWork][Both], m.WorkShare(&e))
		}
	}
}

// The demonstration engine: a single cylinder does not start by itself in 96 of
// the 360 degrees without friction. The figures with friction are from a scan of
// the piston's movement in steps of a hundredth of a degree.
func TestBlindArcAgainst(t *testing.T) {
	m, e := solve(demo())
	near(t, "without", m.BlindArcAgainst(&e, 0), e.BlindArc(), 1e-9)
	for _, friction := range []float64{0.1, 0.2, 0.3} {
		const step = math.Pi / 18000
		moves := func(end End, t float64) float64 {
			sign, at := 1.0, t
			if end == Crank {
				sign, at = -1, t+math.Pi
			}
			return sign * (m.Piston(at+step) - m.Piston(at-step)) / (2 * step * m.Stroke)
		}
		open := func(end End, t float64) bool {
			if end == Crank {
				return -m.Valve(t+math.Pi) > m.Steam[Crank]
			}
			return m.Valve(t) > m.Steam[Head]
		}
		greatest, starts := 0.0, 0
		for pass := range 2 {
			for _, end := range []End{Head, Crank} {
				for i := range 18000 {
					if at := float64(i) * step; open(end, at) {
						if pass == 0 {
							greatest = max(greatest, moves(end, at))
						} else if moves(end, at) >= friction*greatest {
							starts++
						}
					}
				}
			}
		}
		near(t, "degrees", m.BlindArcAgainst(&e, friction)*180/math.Pi, 360-float64(starts)/100, 0.03)
		t.Logf("friction %.1f: %.1f deg", friction, 360-float64(starts)/100)
	}
}

// Where the ends drive, of gears that stand anyhow, is what a walk round the turn finds:
// the port open on the way out and that of the other end not, in both parts of a port
// that is open from one stroke out into the next.
func TestDriven(t *testing.T) {
	twice, opposed, never := 0, 0, 0
	for advance := -175; advance < 180; advance += 10 {
		for _, set := range [][2]float64{{-1.2, 0}, {-0.3, 0}, {0.2, 0}, {1.2, 0}, {3.5, 0}, {1.2, 2.1}, {1.2, -2.1}} {
			lap := set[0] * millimetre
			g := demo()
			g.Advance, g.Offset = float64(advance)*math.Pi/180, set[1]*millimetre
			g.ValveLength += 2 * (lap - 1.2*millimetre)
			m, e := solve(g)
			const steps = 3600
			driven := 0
			for i := range steps {
				at := (float64(i) + 0.5) * 2 * math.Pi / steps
				open := m.Openings(at)
				if at < math.Pi && open.Head.Steam > 0 && open.Crank.Steam == 0 || at > math.Pi && open.Crank.Steam > 0 && open.Head.Steam == 0 {
					driven++
				}
			}
			d := e.Driven()
			parts := map[End]int{}
			for _, arc := range d.All() {
				if parts[arc.End]++; !(arc.From >= 0 && arc.From < arc.To && arc.To <= math.Pi) {
					t.Errorf("advance %d, lap %g: %v", advance, lap, arc)
				}
			}
			near(t, "blind arc, deg", e.BlindArc()*180/math.Pi, 360-float64(driven)/10, 0.9)
			if max(parts[Head], parts[Crank]) > 1 {
				twice++
			}
			if e.OpenTogether() > 0 {
				opposed++
			}
			if len(parts) == 0 {
				never++
			}
		}
	}
	if twice == 0 || opposed == 0 || never == 0 {
		t.Errorf("%d with two parts, %d open together, %d that never drive", twice, opposed, never)
	}
}

func BenchmarkJudge(b *testing.B) {
	g := demo()
	m, e := solve(g)
	b.ReportAllocs()
	for b.Loop() {
		g.Judge(&m, &e)
	}
}
