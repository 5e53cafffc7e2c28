package eccentric

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// room returns that of an invented engine: 33.5 mm between the covers, two gaskets
// of 0.25, a stroke of 25 and a piston of 8 leave 1 mm.
func room() Room {
	return Room{Gear: demo(), Length: units.MM(33.5), Piston: units.MM(8), Gaskets: units.MM(0.5)}
}

func clearance(t tester, r Room) Clearance {
	t.Helper()
	c, err := r.Clearance()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func altered(t tester, r Room, a Alteration) Room {
	t.Helper()
	r, err := r.Altered(a)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// EC-14: the spigots leave 1.0 mm in all, 0.5 at each end; 1.5 mm off each make it
// 4.0, 2.0 at each end, and gaskets of 0.25 mm in both joints 2.25.
func TestCaseShareTheClearance(t *testing.T) {
	r := Room{Gear: demo(), Length: units.MM(34), Piston: units.MM(8)}
	for _, test := range []struct{ spigot, gasket, total, each float64 }{
		{0, 0, 1, 0.5}, {1.5, 0, 4, 2}, {1.5, 0.25, 4.5, 2.25},
	} {
		cut := r
		cut.Length, cut.Gaskets = r.Length.Add(units.MM(2*test.spigot)), units.MM(2*test.gasket)
		c := clearance(t, cut)
		near(t, "EC-14 in all", c.Total().MM(), test.total, 1e-9)
		near(t, "EC-14 head end", c.Head.MM(), test.each, 1e-9)
		near(t, "EC-14 crank end", c.Crank.MM(), test.each, 1e-9)
		near(t, "EC-14 share of the swept volume", c.HeadShare, test.each/25, 1e-12)
	}
	// The piston hits the head cover: half the difference of the two ends moves it.
	r.Length = units.MM(37)
	hits, err := r.WithHeadClearance(units.Length{})
	if err != nil {
		t.Fatal(err)
	}
	if f := hits.Check(); len(f) == 0 || f[0].Code != PistonStrikes || f[0].Severity != finding.Danger || f[0].End != HeadEnd {
		t.Errorf("EC-14: %v", f)
	}
	ways, err := hits.ToShare()
	if err != nil || len(ways) != 3 || ways[0] != (Alteration{ConnectingRod: units.MM(-2)}) {
		t.Fatalf("EC-14: %v, %v", ways, err)
	}
	for _, a := range ways {
		c := clearance(t, altered(t, hits, a))
		if c.Head != units.MM(2) || c.Crank != units.MM(2) {
			t.Errorf("EC-14: %v leaves %v", a, c)
		}
	}
}

// EC-18: shims of 25 thou under the main bearings of a vertical engine of 3/4 by
// 3/4 in move the valve 25 thou away from the crank and the piston 25 thou nearer to
// the far cover: leads of -21.6 and +25.6 thou, cut-off at 63.2 and 82.0 per cent. The
// same figures come of a scan of the mechanism, worked out beforehand.
func TestCaseShims(t *testing.T) {
	in := units.InchFraction
	g := Gear{
		Stroke: in(3, 4), ConnectingRod: RodOf(in(29, 16)), Travel: in(3, 16), EccentricRod: RodOf(in(9, 4)),
		Ports: Ports{Steam: in(1, 16), Bar: in(3, 32), Exhaust: in(1, 8)},
		Valve: Valve{Length: in(17, 32), Cavity: in(5, 16)},
	}
	r := Room{Gear: withLead(t, g, units.Thou(2)), Length: in(17, 16), Piston: in(1, 4)}
	before := events(t, r.Gear)
	near(t, "EC-18 lead before, head", before.Head.Lead.Thou(), 3.42, 0.005)
	near(t, "EC-18 lead before, crank", before.Crank.Lead.Thou(), 0.58, 0.005)
	after := altered(t, r, Alteration{Shims: units.Thou(25)})
	if after.Gear.Valve.Offset != units.Thou(-25) {
		t.Errorf("EC-18: the valve goes to %v", after.Gear.Valve.Offset)
	}
	if moved := clearance(t, r).Head.Sub(clearance(t, after).Head); moved != units.Thou(25) {
		t.Errorf("EC-18: the piston goes %v nearer to the far cover", moved)
	}
	e := events(t, after.Gear)
	near(t, "EC-18 lead, head", e.Head.Lead.Thou(), -21.6, 0.05)
	near(t, "EC-18 lead, crank", e.Crank.Lead.Thou(), 25.6, 0.05)
	near(t, "EC-18 cut-off, head", 100*e.Head.CutOff.Stroke, 63.2, 0.05)
	near(t, "EC-18 cut-off, crank", 100*e.Crank.CutOff.Stroke, 82.0, 0.05)
	if back := altered(t, r, Alteration{Shims: units.Thou(25), EccentricRod: units.Thou(-25)}); back.Gear.Valve != r.Gear.Valve {
		t.Errorf("EC-18: an eccentric rod shorter by as much leaves the valve at %v", back.Gear.Valve.Offset)
	}
}

func anyAlteration(t *rapid.T) Alteration {
	size := func(name string) units.Length {
		return units.Micron(math.Round(1000 * rapid.Float64Range(-1.5, 1.5).Draw(t, name)))
	}
	return Alteration{Shims: size("shims"), ConnectingRod: size("connecting rod"), EccentricRod: size("eccentric rod")}
}

// The pins, rods and lever are placed from the cylinder, with the shaft so much
// nearer to it and the rods so much longer, and tell where piston and valve stand.
func TestAlteredAgainstTheMechanism(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		g.LeverRatio = rapid.SampledFrom([]float64{0, 0, -1, 1, 0.6, -1.7}).Draw(t, "lever")
		g.Valve.Offset = units.Micron(rapid.Float64Range(-400, 400).Draw(t, "offset"))
		lever := 1.0
		if g.LeverRatio != 0 {
			lever = g.LeverRatio
			g.EccentricRod = RodOf(g.EccentricOffset().Scale(5))
		}
		a := anyAlteration(t)
		r := Room{Gear: g, Length: units.MM(38), Piston: units.MM(8)}
		after, err := r.Altered(a)
		if err != nil {
			t.Fatal(err)
		}
		crank := units.Angle(rapid.Float64Range(0, 360).Draw(t, "crank")) * units.Degree
		offset := g.EccentricOffset().MM()
		// Distance from the shaft of the end of a rod whose pin stands at an angle
		// from the line to the cylinder.
		end := func(pin, rod, angle float64) float64 {
			return pin*math.Cos(angle) + math.Sqrt(rod*rod-math.Pow(pin*math.Sin(angle), 2))
		}
		rod, _ := g.EccentricRod.Length()
		sheave := crank.Radians() + g.Advance.Radians() + math.Pi/2
		if (lever < 0) != g.InsideAdmission {
			sheave -= math.Pi
		}
		middle := rod.MM() // of the rod's end, from where the shaft was
		away := a.Shims.MM() + end(offset, rod.MM()+a.EccentricRod.MM(), sheave) - middle
		x, err := after.Gear.Displacement(crank)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "valve", x.MM(), g.Valve.Offset.MM()-lever*away, 1e-8)

		long, _ := g.ConnectingRod.Length()
		half := g.Stroke.MM() / 2
		before, now := clearance(t, r), clearance(t, after)
		// The faces of the covers, from where the shaft was.
		head := end(half, long.MM(), 0) + before.Head.MM()
		near(t, "head", now.Head.MM(), head-a.Shims.MM()-end(half, long.MM()+a.ConnectingRod.MM(), 0), 1e-8)
		crankCover := end(half, long.MM(), math.Pi) - before.Crank.MM()
		near(t, "crank", now.Crank.MM(), a.Shims.MM()+end(half, long.MM()+a.ConnectingRod.MM(), math.Pi)-crankCover, 1e-8)

		if back := altered(t, after, a.Undone()); back != r {
			t.Errorf("undone: %v, was %v", back, r)
		}
	})
}

// Shims that share the room and bring on a fault of the valve are not named.
func TestShimsThatSpoilTheValve(t *testing.T) {
	r := room()
	for _, test := range []struct {
		shift float64
		ways  int
	}{{0.1, 3}, {1.2, 2}, {-1.2, 2}} {
		r.Shift = units.MM(test.shift)
		all := r.Check()
		if len(all) == 0 || len(all[0].Remedies) != test.ways {
			t.Errorf("shift %v: %v", r.Shift, all)
		}
	}
	// What shims have spoilt they put right again.
	shimmed := altered(t, room(), Alteration{Shims: units.MM(1.2)})
	all := shimmed.Check()
	if len(all) == 0 || len(all[0].Remedies) != 3 || !strings.Contains(all[0].Remedies[2], "shims of 1.2 mm (47.2 thou) out") {
		t.Errorf("%v", all)
	}
}

// What a finding tells to do does it: the room is then shared, or large enough.
func TestRemediesOfTheRoom(t *testing.T) {
	said := map[finding.Code]int{}
	rapid.Check(t, func(t *rapid.T) {
		r := room()
		f := func(name string, low, high float64) units.Length {
			return units.Micron(math.Round(1000 * rapid.Float64Range(low, high).Draw(t, name)))
		}
		r.Length, r.Shift = f("length", 32, 40), f("shift", -2, 2)
		r.Wear, r.Least = f("wear", 0, 0.3), f("least", 0, 0.6)
		wanted := r.least().Add(r.Wear)
		for _, found := range r.Check() {
			said[found.Code]++
			if found.Code == LargeClearance {
				continue
			}
			if found.Code != UnequalClearance && found.Severity <= finding.Note || len(found.Remedies) == 0 {
				t.Fatalf("%v", found)
			}
			if strings.Contains(found.Remedies[0], "spigot") {
				short := wanted.Scale(2).Sub(r.total())
				if alone := wanted.Sub(clearance(t, r).At(BothEnds)).Scale(2); short.Sign() <= 0 {
					short = alone
				}
				cut := r
				cut.Length = r.Length.Add(rounded(short.Scale(0.5), units.Up).Scale(2))
				if short.Cmp(wanted.Scale(2).Sub(r.total())) == 0 {
					cut.Shift = units.Length{}
				}
				if left := clearance(t, cut).At(BothEnds); left.Cmp(wanted) < 0 || left.Sub(wanted).Cmp(units.Micron(60)) > 0 {
					t.Fatalf("%v: leaves %v of %v", found, left, wanted)
				}
				continue
			}
			for _, a := range r.toShare() {
				c := clearance(t, altered(t, r, a))
				if c.Head.Sub(c.Crank).Abs().Cmp(units.Micron(10)) > 0 {
					t.Fatalf("%v: %v leaves %v", found, a, c)
				}
				if c.At(BothEnds).Add(units.Micron(5)).Cmp(wanted) < 0 {
					t.Fatalf("%v: %v leaves %v of %v", found, a, c, wanted)
				}
			}
		}
	})
	for _, code := range []finding.Code{PistonStrikes, LittleClearance, UnequalClearance, LargeClearance} {
		if said[code] == 0 && !testing.Short() {
			t.Errorf("%s was never said", code)
		}
	}
}

func TestRoomCheck(t *testing.T) {
	mm := units.MM
	for _, test := range []struct {
		name     string
		change   func(*Room)
		code     finding.Code
		severity finding.Severity
		end      End
		says     string
	}{
		{"no room", func(r *Room) { r.Piston = mm(9.2) }, PistonStrikes, finding.Danger, BothEnds, "0.2 mm (7.9 thou) more"},
		{"strikes the head", func(r *Room) { r.Shift = mm(-0.8) }, PistonStrikes, finding.Danger, HeadEnd, "0.3 mm (11.8 thou) before"},
		{"touches the crank end", func(r *Room) { r.Shift = mm(0.5) }, PistonStrikes, finding.Danger, CrankEnd, "no clearance at all"},
		{"worn through", func(r *Room) { r.Wear = mm(0.5) }, LittleClearance, finding.Fails, HeadEnd, "the piston strikes the cover"},
		{"little", func(r *Room) { r.Wear = mm(0.2) }, LittleClearance, finding.Caution, CrankEnd, "0.3 mm (11.8 thou) when the brasses"},
		{"below what is stated", func(r *Room) { r.Least = mm(0.6) }, LittleClearance, finding.Caution, HeadEnd, "is the least that is stated"},
		{"unequal", func(r *Room) { r.Length, r.Shift = mm(34.5), mm(0.2) }, UnequalClearance, finding.Note, BothEnds, "1.2 mm (47.2 thou) at the head"},
		{"large", func(r *Room) { r.Length = mm(40) }, LargeClearance, finding.Note, CrankEnd, "15.0 % of the swept volume"},
	} {
		r := room()
		test.change(&r)
		all := r.Check()
		f, ok := find(all, test.code, test.end)
		if !ok || f.Severity != test.severity || !says(f, test.says) {
			t.Errorf("%s: %v", test.name, all)
		}
		if f.Severity > finding.Note && !strings.Contains(f.Text, "by hand") {
			t.Errorf("%s: nobody is told to turn it by hand: %s", test.name, f.Text)
		}
	}
	if all := room().Check(); all != nil {
		t.Errorf("a sound room: %v", all)
	}
	if all := (Room{}).Check(); len(all) != 1 || all[0].Code != NotAGear {
		t.Errorf("no room: %v", all)
	}
}

func TestRoomRefuses(t *testing.T) {
	far := units.Picometres(math.MinInt64 + 1)
	for name, change := range map[string]func(*Room){
		"cylinder length": func(r *Room) { r.Length = units.Length{} },
		"piston length":   func(r *Room) { r.Piston = units.MM(33.5) },
		"gaskets":         func(r *Room) { r.Gaskets = units.MM(-0.1) },
		"wear":            func(r *Room) { r.Wear = units.MM(-0.1) },
		"least clearance": func(r *Room) { r.Least = far },
		"dimensions":      func(r *Room) { r.Shift = far },
		"stroke":          func(r *Room) { r.Gear.Stroke = units.Length{} },
	} {
		r := room()
		change(&r)
		_, err := r.Clearance()
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := r.ToShare(); err == nil {
			t.Errorf("%s is taken", name)
		}
		if _, err := r.Altered(Alteration{}); err == nil {
			t.Errorf("%s is taken", name)
		}
		if _, err := r.WithHeadClearance(units.MM(1)); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
	for name, a := range map[string]Alteration{
		"shims": {Shims: far}, "change of the connecting rod": {ConnectingRod: units.MM(-63)},
		"change of the eccentric rod": {EccentricRod: units.MM(-60)}, "eccentric rod": {EccentricRod: units.MM(-58)},
	} {
		if _, err := room().Altered(a); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := room().WithHeadClearance(far); err == nil {
		t.Error("a clearance of 9000 km is taken")
	}
}

// A slotted crosshead has no length to alter, but what it drives is moved.
func TestAlteredInfiniteRods(t *testing.T) {
	r := room()
	r.Gear.ConnectingRod, r.Gear.EccentricRod = InfiniteRod(), InfiniteRod()
	after := altered(t, r, Alteration{ConnectingRod: units.MM(0.2), EccentricRod: units.MM(0.1)})
	if !after.Gear.ConnectingRod.Infinite() || !after.Gear.EccentricRod.Infinite() ||
		after.Gear.Valve.Offset != units.MM(-0.1) || clearance(t, after).Head != units.MM(0.3) {
		t.Errorf("%v", after)
	}
}

// A thou more of exhaust lap moves both events of a gear with lost motion, off
// centre and with ends that differ by the difference of two arcsines at each edge.
func TestMovedByExhaustLap(t *testing.T) {
	g := demo()
	g.ConnectingRod, g.EccentricRod = InfiniteRod(), InfiniteRod()
	g.Ports.CrankSteam, g.Ports.CrankBar = units.MM(1.8), units.MM(2.3)
	g.Valve = Valve{
		Length: units.MM(15.4), Cavity: units.MM(8.6),
		Offset: units.MM(0.2), CavityOffset: units.MM(0.1), LostMotion: units.MM(0.3),
	}
	// E is 4/2 + 2.5 + 0.1 - 8.6/2 = 0.3 mm at the head end and 4/2 + 2.3 - 0.1 - 8.6/2 = -0.1 mm at the crank end; the
	// valve is off centre by 0.2 mm, and late by half the lost motion either way.
	want := 0.0
	for _, edge := range []float64{0.3 + 0.2, -0.1 - 0.2} {
		for _, late := range []float64{0.15, -0.15} {
			at := func(more float64) float64 { return math.Asin((edge + late + more) / 3.2) }
			want += (at(0.0254) - at(0)) / 4
		}
	}
	moved, err := g.MovedByExhaustLap(units.Thou(1))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "a thou moves", moved.Degrees(), want*180/math.Pi, 1e-7)
	if d := moved.Degrees(); d < 0.45 || d > 0.46 {
		t.Errorf("a thou moves %v", moved)
	}
}
