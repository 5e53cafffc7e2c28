package kernel

import (
	"math"
	"testing"
)

// Every line that is drawn is tried from both sides, as near to it as numbers go:
// lengths in whole picometres are exact. Where the lines are is common practice, or a
// choice of our own; see the constants.
func TestVerdictsAtTheirLines(t *testing.T) {
	const mm = 1e9
	endless := func() Gear { // S 1.2, E 0, ports 2, bars 2.5, half the travel 3.2 mm
		g := demo()
		g.ConnectingRod, g.EccentricRod = math.Inf(1), math.Inf(1)
		return g
	}
	for _, test := range []struct {
		name  string
		code  Code
		end   End
		set   func(g *Gear, v float64) // makes v of what is judged
		line  float64
		below Grade // a picometre less
		at    Grade
		above Grade // a picometre more
	}{
		{"land narrower by", NarrowLand, Both, func(g *Gear, v float64) { g.Cavity = g.ValveLength - 2*(g.SteamPort-v) },
			hair, Absent, Absent, Stops},
		{"bar thinner than half the port by", ThinBars, Both, func(g *Gear, v float64) { g.Bar, g.CrankBar = 1*mm-v, 1*mm-v },
			hair, Absent, Absent, Worth},
		{"bar of one end", ThinBars, Crank, func(g *Gear, v float64) { g.CrankBar = 1*mm - v }, hair, Absent, Absent, Worth},
		{"off centre by", OffCentre, Both, func(g *Gear, v float64) { g.Offset = v }, hair, Absent, Worth, Worth},
		{"off centre the other way", OffCentre, Both, func(g *Gear, v float64) { g.Offset = -v }, hair, Absent, Worth, Worth},
		{"free in the chest", FoulsChest, Both, func(g *Gear, v float64) { g.Chest = g.Swept() + 2*v }, ChestMargin, Worth, Absent, Absent},
		{"free in the chest at all", FoulsChest, Both, func(g *Gear, v float64) { g.Chest = g.Swept() + 2*v }, 0, Stops, Worth, Worth},
		{"exhaust clearance", OpenAtMidTravel, Both, func(g *Gear, v float64) { g.Cavity = 9*mm + 2*v }, hair, Absent, Worth, Worth},
		{"exhaust clearance, much", OpenAtMidTravel, Both, func(g *Gear, v float64) { g.Cavity = 9*mm + 2*v },
			SmallShow * 6.4 * mm, Worth, Worth, Costs},
		{"exhaust lap", LittleExhaustLap, Both, func(g *Gear, v float64) { g.Cavity = 9*mm - 2*v }, hair, Absent, Worth, Worth},
		{"exhaust lap that is held", LittleExhaustLap, Both, func(g *Gear, v float64) { g.Cavity = 9*mm - 2*v }, Held, Worth, Absent, Absent},
		{"clearance that is held", LittleExhaustLap, Both, func(g *Gear, v float64) { g.Cavity = 9*mm + 2*v }, Held, Worth, Absent, Absent},
		{"steam clearance", NoSteamLap, Both, func(g *Gear, v float64) { g.ValveLength = 13*mm - 2*v }, hair, Absent, Absent, Costs},
		{"opens less by", SteamPartOpen, Head, func(g *Gear, v float64) { g.Travel = 6.4*mm - 2*v }, hair, Absent, Absent, Worth},
		{"opens half", SteamPartOpen, Crank, func(g *Gear, v float64) { g.Travel = 2 * (1.2*mm + v) }, SmallOpening * 2 * mm, Costs, Worth, Worth},
		{"opens at all", SteamNeverOpens, Head, func(g *Gear, v float64) { g.Travel = 2 * (1.2*mm + v) }, 0, Stops, Stops, Absent},
		{"shuts at all", SteamNeverCloses, Head, func(g *Gear, v float64) { g.ValveLength, g.Cavity, g.Travel = 7*mm, 3*mm, 2*(3*mm+v) },
			0, Stops, Stops, Absent},
		{"opens to exhaust less by", ExhaustPartOpen, Head, func(g *Gear, v float64) { g.Cavity = 9*mm - 2*(1.2*mm+v) }, hair,
			Absent, Absent, Worth},
		{"opens half to exhaust", ExhaustPartOpen, Crank, func(g *Gear, v float64) { g.Cavity = 9*mm - 2*(3.2*mm-v) },
			SmallOpening * 2 * mm, Costs, Worth, Worth},
		{"opens to exhaust at all", ExhaustNeverOpens, Crank, func(g *Gear, v float64) { g.Cavity = 9*mm - 2*(3.2*mm-v) }, 0,
			Stops, Stops, Absent},
		{"passage", MiddleThrottled, Head, passageOf, 2*mm - hair, Worth, Absent, Absent},
		{"passage that costs", MiddleThrottled, Crank, passageOf, (1 - Slightly) * 2 * mm, Costs, Costs, Worth},
		{"seal", SteamPastValve, Head, func(g *Gear, v float64) { g.Travel = 2 * (1.2*mm + 2*mm + 2.5*mm - v) },
			LeastSeal*2.5*mm - hair, Costs, Absent, Absent},
		{"seal at all", SteamPastValve, Crank, func(g *Gear, v float64) { g.Travel = 2 * (1.2*mm + 2*mm + 2.5*mm - v) }, -hair,
			Stops, Costs, Costs},
	} {
		for by, want := range map[float64]Grade{-1: test.below, 0: test.at, 1: test.above} {
			g := endless()
			test.set(&g, test.line+by)
			m, e := solve(g)
			if v := g.Judge(&m, &e); !g.Sound() || v[test.code][test.end] != want {
				t.Errorf("%s %.0f%+.0f: grade %d, want %d", test.name, test.line, by, v[test.code][test.end], want)
			}
		}
	}
}

// passageOf makes the middle port so wide that at full travel, to both ends, so much
// of it stays open: M + bar - E - r, with a valve of the same laps.
func passageOf(g *Gear, v float64) {
	more := v + g.Travel/2 - g.Bar - g.MiddlePort
	g.MiddlePort += more
	g.ValveLength += more
	g.Cavity += more
}

// The leads, and when steam comes, by events that are given.
func TestLeadVerdictsAtTheirLines(t *testing.T) {
	g := demo()
	below := func(v float64) float64 { return math.Nextafter(v, math.Inf(-1)) }
	above := func(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }
	const large = LargestLead * 2e9
	for _, test := range []struct {
		lead, at float64
		code     Code
		want     Grade
	}{
		{-hair, 0, LateSteam, Worth}, {-hair, LateByLittle, LateSteam, Worth}, {-hair, above(LateByLittle), LateSteam, Costs},
		{above(-hair), 1, NoLead, Worth}, {0, 0, NoLead, Worth}, {below(hair), 0, NoLead, Worth},
		{hair, 0, NoLead, Absent}, {large, 0, LargeLead, Absent}, {above(large), 0, LargeLead, Costs},
	} {
		for _, end := range []End{Head, Crank} {
			var v Verdicts
			g.judgeLead(&v, end, &EndEvents{Lead: test.lead, Admission: Event{true, test.at, 0}})
			want := Verdicts{}
			want[test.code][end] = test.want
			if v != want {
				t.Errorf("lead %v at %v: not %v %d alone", test.lead, test.at, test.code, test.want)
			}
		}
	}
	for _, state := range []State{NeverOpens, NeverCloses} {
		var v Verdicts
		if g.judgeLead(&v, Head, &EndEvents{Lead: 1e10, Steam: state}); v != (Verdicts{}) {
			t.Error("the lead is told of a port that does not both open and shut")
		}
	}
	// A mean lead is sound, or such as builders come by: to a quarter of the port late, to half of it large.
	for mean, want := range map[float64][2]bool{
		-hair: {false, true}, above(-hair): {true, true}, large: {true, true}, above(large): {false, true},
		-large: {false, true}, below(-large): {false, false}, 2 * large: {false, true}, above(2 * large): {false, false},
	} {
		if got := [2]bool{g.LeadSound(mean), g.leadNear(mean)}; got != want {
			t.Errorf("mean lead %v: %v, want %v", mean, got, want)
		}
	}
}

// What the events of both ends together are judged by.
func TestVerdictsOfBothEndsAtTheirLines(t *testing.T) {
	g := demo()
	g.Advance = math.Pi / 6
	m, sound := solve(g)
	for _, test := range []struct {
		differ float64
		want   Grade
	}{{EqualCutOffs, Worth}, {math.Nextafter(EqualCutOffs, 0), Absent}, {-EqualCutOffs, Worth}} {
		e := sound
		e.Head.Exhaust = NeverOpens // so that the work is not judged
		e.Head.CutOff.Stroke, e.Crank.CutOff.Stroke = max(test.differ, 0), max(-test.differ, 0)
		v := g.judge(&m, &e)
		if got := v[UnequalCutOff][Both]; got != test.want || e.CutOffDifference() != test.differ {
			t.Errorf("cut-offs that differ by %v: grade %d", test.differ, got)
		}
		e.Crank.CutOff.Occurs = false
		if v := g.judge(&m, &e); v[UnequalCutOff][Both] != Absent || e.CutOffDifference() != 0 {
			t.Error("a cut-off that there is not differs")
		}
	}
	// With endless rods the laps alone make them differ.
	g.ConnectingRod, g.EccentricRod = math.Inf(1), math.Inf(1)
	if g.Slants() {
		t.Error("endless rods slant")
	}
	e := sound
	e.Head.CutOff.Stroke, e.Crank.CutOff.Stroke = 0.8, 0.7
	m = g.Motion()
	if v := g.judge(&m, &e); v[UnequalCutOff][Both] != Absent {
		t.Error("endless rods and equal laps make no cut-offs differ")
	}
	g.CrankSteamPort += 1
	m = g.Motion()
	if v := g.judge(&m, &e); v[UnequalCutOff][Both] != Worth {
		t.Error("laps that differ do")
	}
	g = demo()
	for _, rods := range [][2]float64{{63e9, math.Inf(1)}, {math.Inf(1), 60e9}} {
		if g.ConnectingRod, g.EccentricRod = rods[0], rods[1]; !g.Slants() {
			t.Errorf("rods of %v do not slant", rods)
		}
	}
	// The eccentric stands for the other direction beyond a right angle, either way.
	for advance, want := range map[float64]bool{
		math.Pi / 2: false, math.Nextafter(math.Pi/2, 2): true, -math.Pi / 2: false, -math.Nextafter(math.Pi/2, 2): true,
	} {
		if m := (Motion{Advance: advance}); m.Backwards() != want {
			t.Errorf("advance %v: backwards %v", advance, m.Backwards())
		}
	}
}

// What is so at both ends is told of both, as grave as the graver.
func TestEndsOfAVerdict(t *testing.T) {
	for _, test := range []struct {
		head, crank Grade
		want        [Ends]Grade
	}{
		{Absent, Absent, [Ends]Grade{}}, {Worth, Absent, [Ends]Grade{Head: Worth}}, {Absent, Stops, [Ends]Grade{Crank: Stops}},
		{Worth, Costs, [Ends]Grade{Both: Costs}}, {Stops, Worth, [Ends]Grade{Both: Stops}},
	} {
		var v Verdicts
		v.ends(ThinBars, func(end End) Grade { return [Ends]Grade{Head: test.head, Crank: test.crank}[end] })
		if v[ThinBars] != test.want {
			t.Errorf("%d and %d: %v", test.head, test.crank, v[ThinBars])
		}
	}
	// Counted are those that cost power or stop the engine, a slip left out unless it is asked for.
	var v Verdicts
	v[AngleFromCrank][Both], v[PlaceOfOtherSign][Both], v[NarrowLand][Head] = Stops, Costs, Stops
	v[BlindArc][Both], v[LateSteam][Head], v[LateSteam][Crank], v[LargeLead][Crank] = Worth, Costs, Costs, Worth
	if got := v.Troubles(); got != 3 {
		t.Errorf("%d troubles", got)
	}
	if got := v.Troubles(LateSteam, AngleFromCrank); got != 3 {
		t.Errorf("%d troubles of two codes", got)
	}
	if got := v.Troubles(BlindArc, LargeLead); got != 0 {
		t.Errorf("%d troubles of what is worth knowing", got)
	}
	for worst, codes := range map[Grade][]Code{
		Absent: {ThinBars, NoLead}, Worth: {BlindArc, LargeLead}, Costs: {LateSteam, BlindArc}, Stops: {LateSteam, NarrowLand},
	} {
		if got := v.Worst(codes...); got != worst {
			t.Errorf("worst of %v: %d, want %d", codes, got, worst)
		}
	}
	if v.Worst() != Absent {
		t.Error("the worst of no codes")
	}
	// Worse is what is graver than it was and than worth knowing.
	was := v
	for _, test := range []struct {
		code  Code
		end   End
		grade Grade
		want  bool
	}{
		{NoLead, Head, Worth, false}, {NoLead, Head, Costs, true}, {LateSteam, Head, Stops, true}, {LateSteam, Head, Worth, false},
		{LateSteam, Crank, Costs, false}, {NarrowLand, Crank, Stops, true},
	} {
		now := was
		now[test.code][test.end] = test.grade
		if got := now.worsen(&was); got != test.want {
			t.Errorf("%v %d %d: worse %v", test.code, test.end, test.grade, got)
		}
	}
}

// Lost motion stops the engine where a port would open without it, at either end, to
// steam or to exhaust; not where it would not, or would only just.
func TestPlayThatKeepsAPortShut(t *testing.T) {
	const mm = 1e9
	for _, test := range []struct {
		name              string
		off, exhaust, pin float64 // mm: of the valve, its exhaust lap, and the lost motion
		want              Grade
	}{
		{"centred", 0, 0, 0.8, Costs}, {"opens but for it", 0, 0, 4.2, Stops},
		{"crank port would not open", 2.1, 0, 0.8, Costs}, {"only just", 2, 0, 0.8, Costs}, {"would open", 1.99, 0, 0.8, Stops},
		{"head port would not open", -2.1, 0, 0.8, Costs}, {"head port only just", -2, 0, 0.8, Costs}, {"head port would open", -1.99, 0, 0.8, Stops},
		{"head exhaust would not open", 1.3, 2, 0.2, Worth}, {"head exhaust only just", 1.2, 2, 0.2, Worth}, {"head exhaust would", 1.19, 2, 0.2, Stops},
		{"crank exhaust would not open", -1.3, 2, 0.2, Worth}, {"crank exhaust only just", -1.2, 2, 0.2, Worth},
		{"crank exhaust would", -1.19, 2, 0.2, Stops},
	} {
		g := demo()
		g.ConnectingRod, g.EccentricRod = math.Inf(1), math.Inf(1)
		g.Offset, g.Cavity, g.LostMotion = test.off*mm, (9-2*test.exhaust)*mm, test.pin*mm
		m, e := solve(g)
		if v := g.Judge(&m, &e); v[LostMotion][Both] != test.want {
			t.Errorf("%s: grade %d, want %d", test.name, v[LostMotion][Both], test.want)
		}
	}
}
