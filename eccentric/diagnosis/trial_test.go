package diagnosis_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/units"
)

// drawnDemo is the invented engine of the demonstration.
func drawnDemo() eccentric.Gear {
	return eccentric.Gear{
		Stroke: units.MM(25), ConnectingRod: eccentric.RodOf(units.MM(63)),
		Travel: units.MM(6.4), EccentricRod: eccentric.RodOf(units.MM(60)), Advance: 26 * units.Degree,
		Ports: eccentric.Ports{Steam: units.MM(2), Bar: units.MM(2.5), Exhaust: units.MM(4), Length: units.MM(10)},
		Valve: eccentric.Valve{Length: units.MM(15.4), Cavity: units.MM(9)},
	}
}

func trials(t *testing.T, g eccentric.Gear) map[string]diagnosis.Trial {
	t.Helper()
	list, err := diagnosis.FirstRun(g)
	if err != nil {
		t.Fatal(err)
	}
	byKey := map[string]diagnosis.Trial{}
	for i, trial := range list {
		if byKey[trial.Key].Key != "" {
			t.Errorf("%s twice", trial.Key)
		}
		if i > 0 && list[i-1].Air && !trial.Air && trial.Key != "steam" && trial.Key != "starts" {
			t.Errorf("%s by hand after air", trial.Key)
		}
		byKey[trial.Key] = trial
	}
	if last := list[len(list)-1].Key; last != "steam" && last != "starts" || list[0].Air {
		t.Errorf("steam is not last, or air first: %v", list)
	}
	return byKey
}

// What a wrong place of the sheave shows at the head-end dead centre, on the gear of
// testdata/eccentric/fault_signatures.csv: its rows half-turn (-4.15 mm), square (-2.00)
// and in-line (-5.00). EC-03 on the gear of half travel 3, lap 1 and lead 0.2: the valve
// stands 1.2 mm from the middle, the mirrored sheave is turned by 132.84 degrees.
func TestFirstRunFigures(t *testing.T) {
	gear := func(lap, exhaust, lead, port, crank float64) eccentric.Gear {
		ports := eccentric.Ports{Steam: units.MM(port), Bar: units.MM(3), Exhaust: units.MM(8)}
		g := eccentric.Gear{Stroke: units.MM(20), ConnectingRod: eccentric.RodOf(units.MM(crank)), Travel: units.MM(6),
			EccentricRod: eccentric.InfiniteRod(), Ports: ports,
			Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(lap), Exhaust: units.MM(exhaust)})}
		g, err := g.WithLead(units.MM(lead), eccentric.BothEnds)
		if err != nil {
			t.Fatal(err)
		}
		return g
	}
	signatures, ec03, demo := trials(t, gear(2, 0.3, 0.15, 2.5, 50)), trials(t, gear(1, 0, 0.2, 3, 50)), trials(t, drawnDemo())
	for _, test := range []struct{ where, text, want string }{
		{"signatures", signatures["head_lead"].See, "open by 0.15 mm (5.9 thou)"},
		{"half turn", signatures["head_lead"].IfNot, "Half a turn out shows it shut by 4.15 mm"},
		{"square", signatures["head_lead"].IfNot, "left out shows it shut by 2 mm"},
		{"in line", signatures["head_lead"].IfNot, "shut by 5 mm"},
		{"slipped-back, -0.2460", signatures["crank_lead"].IfNot, "shut by 0.25 mm"},
		{"cut-off, 57.1443 %", signatures["cut_offs"].See, "(57.1 %)"},
		{"release, 90.3574 %", signatures["exhausts"].See, "(90.4 %)"},
		{"EC-03 stands", ec03["head_lead"].See, "the valve stands 1.2 mm"},
		{"EC-03 half turn", ec03["head_lead"].IfNot, "Half a turn out shows it shut by 2.2 mm"}, // -1.2 from the middle, less the lap
		{"EC-03 in line", ec03["head_lead"].IfNot, "shut by 4 mm"},                              // -3.0
		{"EC-03 mirrored", ec03["head_opens"].IfNot, "turn it 132.8 deg backwards"},
		{"EC-17 head", demo["crank_lead"].IfNot, "the head end's port shut by 0.24 mm"},
		{"EC-17 crank", demo["crank_lead"].IfNot, "the crank end's shut by 0.4 mm"},
		{"demo", demo["openings"].See, "just wide open, 2 mm"},
		{"demo reversed", demo["head_opens"].IfNot, "turn it 128 deg backwards"},
		{"demo starts", demo["starts"].See, "0 deg to 133.4 deg past the head-end dead centre"},
	} {
		if !strings.Contains(test.text, test.want) {
			t.Errorf("%s: no %q in %q", test.where, test.want, test.text)
		}
	}
}

// No air is told of for an engine that does not start with it: with the sheave of the
// other hand, and with ports that never open.
func TestFirstRunWithoutAir(t *testing.T) {
	other, shut := drawnDemo(), drawnDemo()
	other.Advance = 154 * units.Degree
	shut.Valve.Length = units.MM(20)
	for _, g := range []eccentric.Gear{other, shut} {
		all := trials(t, g)
		if all["runs"].Key != "" || all["steam"].Key != "" {
			t.Error("it is told to run")
		}
		if trial := all["starts"]; trial.Air || !strings.HasPrefix(trial.Try, "Do not give this engine air") {
			t.Errorf("%+v", trial)
		}
	}
	if got := trials(t, other)["head_opens"]; got.Expect[0].Opens != diagnosis.Exhaust || !strings.Contains(got.See, "shuts") {
		t.Errorf("%+v", got)
	}
	if _, err := diagnosis.FirstRun(eccentric.Gear{}); err == nil {
		t.Error("no gear is tried")
	}
}

// What the next trial says of the head end's port, by where the port stands at the dead
// centre and 10 degrees on: half travel times sin(d + t) less lap, with endless rods. The sheave on the other hand
// stands at the same place and goes back to half travel times sin(d - 10 deg) less lap.
func TestFirstRunHeadOpens(t *testing.T) {
	// a random gear: 1 mm of port, lap 0.231445, sheave a degree ahead; it comes to the port's
	// edge, to an opening of 0.8 micron, 10 degrees past the dead centre
	drawn := func(rods eccentric.Rod, travel, lap, advance float64) eccentric.Gear {
		ports := eccentric.Ports{Steam: units.MM(1), Bar: units.MM(1.2), Exhaust: units.MM(3)}
		return eccentric.Gear{Stroke: units.MM(12), ConnectingRod: eccentric.RodOf(units.MM(30)), Travel: units.MM(travel),
			EccentricRod: rods, Advance: units.Angle(advance) * units.Degree, Ports: ports,
			Valve: ports.ValveWith(eccentric.Laps{Steam: units.MM(lap), Exhaust: units.MM(0.3)})}
	}
	endless := eccentric.InfiniteRod()
	for _, test := range []struct {
		name       string
		gear       eccentric.Gear
		see, ifNot string
	}{
		{"rounds to nothing", drawn(eccentric.RodOf(units.MM(28)), 2.2166015625, 0.2314453125, 1),
			"The port comes just to its edge, and begins to open.", "The valve goes back, further over the port: the sheave"},
		// 1.2 sin 1 - 0.4 = -0.379, 1.2 sin 11 - 0.4 = -0.171
		{"still shut", drawn(endless, 2.4, 0.4, 1), "which is still shut.", "The valve goes back, further over the port: "},
		// 1.2 sin 15 - 0.4 = -0.089, 1.2 sin 25 - 0.4 = 0.107
		{"was shut", drawn(endless, 2.4, 0.4, 15), "The port opens, to 0.11 mm (4.2 thou).", "The valve goes back, further over"},
		// 1.2 sin 25 - 0.4 = 0.107, 1.2 sin 35 - 0.4 = 0.288, 1.2 sin 15 - 0.4 < 0
		{"open", drawn(endless, 2.4, 0.4, 25), "The port opens further, to 0.29 mm (11.4 thou).", "The valve goes back and shuts the port: "},
		// 1.2 sin 50 - 0.4 = 0.519, 1.2 sin 60 - 0.4 = 0.639, 1.2 sin 40 - 0.4 = 0.371
		{"wide lead", drawn(endless, 2.4, 0.4, 50), "The port opens further, to 0.64 mm", "The valve goes back, towards shutting the port: "},
		// 3 sin 30 - 0.4 = 1.1, and the port is 1 wide
		{"wide open", drawn(endless, 6, 0.4, 30), "The port stays wide open, and the valve goes on past it.", "The valve goes back, towards"},
		// advance 155: the same lead as at 25, and it goes back
		{"other direction", drawn(endless, 2.4, 0.4, 155), "The valve goes back and shuts the port, as the gear is drawn", "It goes on towards opening: "},
		// 1.2 sin(-30) - 0.4 = -1: it goes on, from further away
		{"follows", drawn(endless, 2.4, 0.4, -30), "which is still shut.", "The valve goes back, further over the port: "},
	} {
		trial := trials(t, test.gear)["head_opens"]
		if !strings.HasSuffix(trial.See, test.see) && !strings.HasPrefix(trial.See, test.see) {
			t.Errorf("%s: %q, want %q", test.name, trial.See, test.see)
		}
		if !strings.HasPrefix(trial.IfNot, test.ifNot) {
			t.Errorf("%s: %q, want %q", test.name, trial.IfNot, test.ifNot)
		}
	}
	// half a travel of 0.401 less the lap of 0.4 is a micron
	if see := trials(t, drawn(endless, 0.802, 0.4, 30))["openings"].See; see !=
		"The port of the head end comes just to its edge. The port of the crank end comes just to its edge." {
		t.Error(see)
	}
}

// anyGear is a sound gear as engines have them: lever, either admission, ends that
// differ, lost motion.
func anyGear(t *rapid.T) eccentric.Gear {
	mm := func(name string, low, high int) units.Length {
		return units.Micron(10 * float64(rapid.IntRange(low*100, high*100).Draw(t, name)))
	}
	port := mm("port", 1, 4)
	ports := eccentric.Ports{Steam: port, Bar: port.Scale(1.2), Exhaust: port.Scale(3)}
	laps := eccentric.Laps{Steam: port.Scale(rapid.Float64Range(0, 1).Draw(t, "lap")), Exhaust: port.Scale(rapid.Float64Range(-0.1, 0.3).Draw(t, "exhaust lap"))}
	g := eccentric.Gear{
		Stroke: port.Scale(12), ConnectingRod: eccentric.RodOf(port.Scale(30)), EccentricRod: eccentric.RodOf(port.Scale(28)), Ports: ports,
		Travel: laps.Steam.Add(port).Scale(rapid.Float64Range(1.8, 2.4).Draw(t, "travel")),
	}
	if rapid.Bool().Draw(t, "ends differ") {
		g.Ports.CrankSteam = port.Scale(1.1)
	}
	if rapid.Bool().Draw(t, "inside") {
		g.InsideAdmission, laps.Steam, laps.Exhaust = true, laps.Exhaust, laps.Steam
	}
	g.Valve = g.Ports.ValveWith(laps)
	g.Valve.LostMotion = port.Scale(rapid.SampledFrom([]float64{0, 0, 0.05}).Draw(t, "lost motion"))
	g.LeverRatio = rapid.SampledFrom([]float64{0, 0, -1, 1.2}).Draw(t, "lever")
	if rapid.IntRange(0, 4).Draw(t, "endless") == 0 {
		g.EccentricRod = eccentric.InfiniteRod()
	}
	g.Advance = units.Angle(rapid.IntRange(-180, 180).Draw(t, "advance")) * units.Degree
	return g
}

// odd is what no sentence for a builder has in it.
var odd = regexp.MustCompile(`NaN|Inf|-0\.0+ |%!|  |\(0 thou\)|- |\.\.`)

// What the trials expect is what a gear that is placed and moved by hand does: the
// openings and the displacement at those angles.
func TestExpectedReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(t)
		list, err := diagnosis.FirstRun(g)
		if err != nil {
			t.Fatal(err)
		}
		for _, trial := range list {
			if text := trial.Try + trial.See + trial.IfNot; odd.MatchString(text) {
				t.Fatalf("%q in %s", odd.FindString(text), text)
			}
			for _, r := range trial.Expect {
				on, err := r.On(g)
				if err != nil || on != r {
					t.Fatalf("%s expects %v, and on the gear it is %v, %v", trial.Key, r, on, err)
				}
				isSeen(t, g, r)
			}
		}
	})
}

// isSeen looks at the ports of a gear that is turned to where a reading was taken.
func isSeen(t *rapid.T, g eccentric.Gear, r diagnosis.Reading) {
	t.Helper()
	crank := 0.0
	if r.End == eccentric.CrankEnd {
		crank = 180
	}
	open := func(deg float64) eccentric.Opening {
		o, err := g.OpeningsAt(units.Angle(crank+deg) * units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		if r.End == eccentric.CrankEnd {
			return o.Crank
		}
		return o.Head
	}
	differs := func(a, b units.Length) bool { return math.Abs(a.Sub(b).MM()) > 1e-6 }
	switch r.Kind {
	case diagnosis.Lead:
		if seen := open(0).Steam; r.Length.Sign() > 0 && differs(seen, r.Length) || r.Length.Sign() <= 0 && !seen.IsZero() {
			t.Fatalf("%v: the port is open by %v", r, seen)
		}
	case diagnosis.Opening:
		widest := units.Length{}
		for deg := range 720 {
			if o := open(float64(deg) / 2).Steam; o.Cmp(widest) > 0 {
				widest = o
			}
		}
		if math.Abs(widest.Sub(r.Length).MM()) > 0.002 {
			t.Fatalf("%v: the port is open by %v", r, widest)
		}
	case diagnosis.CutOff:
		if d := r.Angle.Degrees(); !r.Never && (!open(d+0.01).Steam.IsZero() || open(d-0.5).Steam.IsZero()) {
			t.Fatalf("%v: open by %v before and %v after", r, open(d-0.5).Steam, open(d+0.01).Steam)
		}
	case diagnosis.Release:
		if d := r.Angle.Degrees(); !r.Never && (open(d+0.5).Exhaust.IsZero() || !open(d-0.01).Exhaust.IsZero()) {
			t.Fatalf("%v: open by %v before and %v after", r, open(d-0.01).Exhaust, open(d+0.5).Exhaust)
		}
	case diagnosis.OpensNext:
		before, after := open(0), open(10)
		if r.Opens == diagnosis.Steam && (after.Steam.Cmp(before.Steam) < 0 || after.Exhaust.Cmp(before.Exhaust) > 0) ||
			r.Opens == diagnosis.Exhaust && (after.Steam.Cmp(before.Steam) > 0 || after.Exhaust.Cmp(before.Exhaust) < 0) {
			t.Fatalf("%v: %v, then %v", r, before, after)
		}
	}
}

// A reading on a gear is one in its own measure.
func TestReadingOn(t *testing.T) {
	for _, test := range []struct{ kind, value, end, crank, name, want string }{
		{"admission", "3 deg", "head", "", "admission at the head end", "-5.4 deg"},
		{"cut_off", "80 %", "head", "", "cut-off at the head end", "87 %"},
		{"lead", "0 mm", "crank", "", "lead at the crank end", "0.13 mm (5.3 thou)"},
		{"exhaust_opening", "0 mm", "head", "", "greatest opening to exhaust at the head end", "2 mm (78.7 thou)"},
		{"travel", "0 mm", "both", "", "travel of the valve", "6.4 mm (252 thou)"},
		{"valve_at", "0 mm", "both", "90 deg", "place of the valve with the crank at 90 deg", "2.89 mm (113.9 thou)"},
		{"opens_next", "exhaust", "head", "", "way in which the port goes next at the head end", "to steam"},
	} {
		kind, err := diagnosis.ParseKind(test.kind)
		if err != nil {
			t.Fatal(err)
		}
		r, err := kind.Read(test.value, "")
		if err != nil {
			t.Fatal(err)
		}
		if r.End, err = eccentric.ParseEnd(test.end); err != nil {
			t.Fatal(err)
		}
		if test.crank != "" {
			if r.Crank, err = units.ParseAngle(test.crank); err != nil {
				t.Fatal(err)
			}
		}
		on, err := r.On(drawnDemo())
		if err != nil || on.Value() != test.want || r.Name() != test.name {
			t.Errorf("%s of %s: %s, %v; want %s", r.Name(), test.kind, on.Value(), err, test.want)
		}
	}
	if _, err := (diagnosis.Reading{}).On(drawnDemo()); err == nil {
		t.Error("a reading of nothing")
	}
	if _, err := (diagnosis.Reading{Kind: diagnosis.Travel}).On(eccentric.Gear{}); err == nil {
		t.Error("a reading on no gear")
	}
}
