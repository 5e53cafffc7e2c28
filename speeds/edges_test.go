package speeds_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

const rpm = units.RevPerMinute

// stepsOf are n steps of 10, 11, 12 ... rev/min.
func stepsOf(n int) []speeds.Step {
	var all []speeds.Step
	for i := range n {
		all = append(all, speeds.Step{Speed: units.RotationalSpeed(10+i) * rpm})
	}
	return all
}

// What is accepted ends where it is said to: just inside a call answers, just outside
// it refuses, and says so in these words.
func TestEdges(t *testing.T) {
	var none units.Length
	lathe := speeds.Job{Operation: speeds.Turning, Material: metal("brass"), Diameter: units.MM(20)}
	job := func(change func(*speeds.Job)) error {
		j := lathe
		change(&j)
		_, err := j.Plan()
		return err
	}
	preferred := func(series, step int, least, most float64) error {
		_, err := speeds.PreferredNumbers(series, step, least, most)
		return err
	}
	ladderOf := func(n int) error { _, err := speeds.NewLadder(stepsOf(n)...); return err }
	stepless := func(n int) error { _, err := speeds.Stepless(stepsOf(n)...); return err }
	at := func(n units.RotationalSpeed) error { _, err := speeds.NewLadder(speeds.Step{Speed: n}); return err }
	ends := func(a, b float64) error {
		_, err := speeds.Stepless(speeds.Step{Speed: units.RotationalSpeed(a) * rpm}, speeds.Step{Speed: units.RotationalSpeed(b) * rpm})
		return err
	}
	cone := func(gear float64) error { _, err := speeds.ConeLadder(gear, 700*rpm, 350*rpm); return err }
	parsed := func(text string) error { _, err := speeds.ParseLadder(text); return err }
	deep := func(depth, drill units.Length) error { _, err := speeds.DeepHoleFor(depth, drill); return err }
	pecks := func(depth, drill units.Length) error { _, err := speeds.PecksFor(depth, drill); return err }
	along := func(pitch units.Length, n units.RotationalSpeed) error {
		_, err := speeds.ThreadSpeed(pitch, n)
		return err
	}
	marked := func(limit, n units.RotationalSpeed) error { _, err := speeds.Limit{Speed: limit}.Check(n); return err }
	mm, hair := units.MM, units.Micron(0.001)
	for _, tt := range []struct {
		name string
		err  error
		want string // blank: accepted
	}{
		{"series 5", preferred(5, 5, 1, 10000), ""},
		{"series 4", preferred(4, 1, 1, 10), "speeds: series of preferred numbers R4: unknown; accepted: R5, R10, R20, R40"},
		{"series 41", preferred(41, 1, 1, 10), "speeds: series of preferred numbers R41: unknown; accepted: R5, R10, R20, R40"},
		{"a step more than the series", preferred(10, 11, 1, 10), "speeds: step of the series 11: out of range; accepted: 1 to 10"},
		{"no step", preferred(10, 0, 1, 10), "speeds: step of the series 0: out of range; accepted: 1 to 10"},
		{"step 1", preferred(10, 1, 1, 10), ""}, {"step 10", preferred(10, 10, 1, 10), ""},
		{"from below 1", preferred(10, 1, 0.999, 10), "speeds: ends of the series 0.999 to 10: out of range; accepted: from 1 to 10,000, the lower first"},
		{"to above 10000", preferred(10, 1, 1, 10000.1), "speeds: ends of the series 1 to 10000.1: out of range; accepted: from 1 to 10,000, the lower first"},
		{"one number", preferred(10, 1, 10, 10), "speeds: ends of the series 10 to 10: out of range; accepted: from 1 to 10,000, the lower first"},
		{"from none", preferred(10, 1, 1.06, 10), "speeds: first preferred number 1.06: not a number of R10; accepted: a rounded number of R10, such as 31.5"},
		{"near one", preferred(10, 1, 1.25000001, 10), "speeds: first preferred number 1.25: not a number of R10; accepted: a rounded number of R10, such as 31.5"},

		{"64 steps", ladderOf(64), ""}, {"1 step", ladderOf(1), ""},
		{"65 steps", ladderOf(65), "speeds: spindle speeds 65 of them: out of range; accepted: 1 to 64 speeds"},
		{"no steps", ladderOf(0), "speeds: spindle speeds 0 of them: out of range; accepted: 1 to 64 speeds"},
		{"64 ends", stepless(64), ""}, {"2 ends", stepless(2), ""},
		{"66 ends", stepless(66), "speeds: stepless range 66 ends: out of range; accepted: the slow and the fast end of each gear"},
		{"3 ends", stepless(3), "speeds: stepless range 3 ends: out of range; accepted: the slow and the fast end of each gear"},
		{"no ends", stepless(0), "speeds: stepless range 0 ends: out of range; accepted: the slow and the fast end of each gear"},
		{"the fastest there is", at(100_000 * rpm), ""},
		{"faster", at(100_000.1 * rpm), "speeds: spindle speed 100000.1 rev/min: out of range; accepted: up to 100,000 rev/min"},
		{"ends in order", ends(50, 50.1), ""},
		{"ends alike", ends(50, 50), "speeds: stepless range 50 rev/min to 50 rev/min: out of range; accepted: the slow end first"},
		{"a slow end of nothing", ends(0, 50), "speeds: spindle speed 0 rev/min: out of range; accepted: above zero"},
		{"a fast end too fast", ends(50, 100_001), "speeds: spindle speed 100001 rev/min: out of range; accepted: up to 100,000 rev/min"},
		{"no back gear", cone(0), ""}, {"a back gear", cone(1.001), ""}, {"the largest back gear", cone(100), ""},
		{"a back gear of nothing", cone(1), "speeds: back gear 1:1: out of range; accepted: a ratio above 1, up to 100"},
		{"a larger back gear", cone(100.5), "speeds: back gear 100.5:1: out of range; accepted: a ratio above 1, up to 100"},
		{"a back gear the wrong way", cone(-6), "speeds: back gear -6:1: out of range; accepted: a ratio above 1, up to 100"},

		{"1000 characters", parsed("60" + strings.Repeat(" ", 994) + "1100"), ""},
		{"20 digits", parsed("00000000000000000060 110"), ""},
		{"back gear 6:1", parsed("cone 600, back gear 6:1"), ""}, {"back gear 6 : 1", parsed("cone 600, back gear 6 : 1"), ""},

		{"depth of six diameters", deep(mm(60), mm(10)), ""},
		{"a hair deeper", deep(mm(60).Add(hair), mm(10)), "speeds: depth 6 drill diameters: deeper than the table goes; drill from both ends, or in stages with a stiffer drill first; accepted: up to 6 diameters"},
		{"no depth", deep(none, mm(10)), "speeds: depth 0 mm: out of range; accepted: above zero"},
		{"no drill", deep(mm(1), none), "speeds: diameter 0 mm: out of range; accepted: a diameter above zero"},
		{"pecks to 40 diameters", pecks(mm(80), mm(2)), ""},
		{"pecks deeper", pecks(mm(80).Add(hair), mm(2)), "speeds: depth 80.000001 mm: out of range; accepted: up to 40 drill diameters"},
		{"pecks of no depth", pecks(none, mm(2)), "speeds: depth 0 mm: out of range; accepted: above zero"},
		{"no pitch", along(none, 1), "speeds: pitch 0 mm: out of range; accepted: above zero"},
		{"it stands still", along(mm(1), 0), "speeds: spindle speed 0 rev/min: out of range; accepted: above zero"},
		{"a limit", marked(100*rpm, 90*rpm), ""},
		{"no limit", marked(0, 90*rpm), "speeds: speed limit 0 rev/min: out of range; accepted: above zero"},

		{"no depth in a job", job(func(j *speeds.Job) { j.Depth = none }), ""},
		{"depth below zero", job(func(j *speeds.Job) { j.Depth = mm(-1) }), "speeds: depth -1 mm: out of range; accepted: above zero, or zero when it is not looked at"},
		{"pitch below zero", job(func(j *speeds.Job) { j.Pitch = mm(-1) }), "speeds: pitch -1 mm: out of range; accepted: above zero, or zero when it is not looked at"},
		{"overhang alone", job(func(j *speeds.Job) { j.Overhang = mm(9) }), "speeds: overhang and section 9 mm, 0 mm: one says nothing without the other; accepted: both, or neither"},
		{"both", job(func(j *speeds.Job) { j.Overhang, j.Section = mm(9), mm(9) }), ""},
		{"overhang below zero", job(func(j *speeds.Job) { j.Overhang, j.Section = mm(-9), mm(9) }), "speeds: overhang -9 mm: out of range; accepted: above zero, or zero when it is not looked at"},
		{"section below zero", job(func(j *speeds.Job) { j.Overhang, j.Section = mm(9), mm(-9) }), "speeds: section -9 mm: out of range; accepted: above zero, or zero when it is not looked at"},
		{"no pitch to cut", job(func(j *speeds.Job) { j.Operation = speeds.Screwcutting }), "speeds: pitch: missing; accepted: that of the thread, such as 1.5 mm: with the spindle speed it says how soon the tool is at the shoulder"},
		{"a pitch to cut", job(func(j *speeds.Job) { j.Operation, j.Pitch = speeds.Screwcutting, mm(1) }), ""},
		{"a speed by hand", job(func(j *speeds.Job) { j.Operation, j.Min, j.Max = speeds.DieCutting, 1, 2 }), "speeds: cutting speed 60 m/min to 120 m/min: Dies are turned by hand; accepted: none"},
		{"half a speed by hand", job(func(j *speeds.Job) { j.Operation, j.Diameter, j.Min = speeds.Tapping, mm(3), 1 }), "speeds: cutting speed 60 m/min to 0 m/min: Taps up to 4 mm are turned by hand; accepted: none"},
		{"carbide by hand", job(func(j *speeds.Job) { j.Operation, j.Tool = speeds.DieCutting, speeds.Carbide }), "speeds: pairing die cutting in brass with carbide: solid carbide taps and dies break in a hand-held or hobby machine; accepted: HSS, carbon steel"},
		{"chilled iron by hand", job(func(j *speeds.Job) { j.Operation, j.Material = speeds.DieCutting, metal("chilled iron") }), "speeds: pairing die cutting in chilled iron with HSS: chilled iron can be ground, and turned with carbide; it cannot be threaded or knurled; accepted: facing, turning, boring"},
		{"one speed", job(func(j *speeds.Job) { j.Min, j.Max = 1, 1 }), ""},
		{"speeds in disorder", job(func(j *speeds.Job) { j.Min, j.Max = 1, 0.99 }), "speeds: cutting speed 60 m/min to 59.4 m/min: out of range; accepted: the lower figure first"},
		{"the lower alone", job(func(j *speeds.Job) { j.Min = 1 }), "speeds: cutting speed 0 m/min: out of range; accepted: above zero"},
		{"own speed, a tool that is none", job(func(j *speeds.Job) { j.Min, j.Max, j.Tool = 1, 2, 9 }), "speeds: tool material Tool(9): unknown; accepted: carbon steel, early HSS, HSS, carbide"},
		{"own speed in chilled iron", job(func(j *speeds.Job) {
			j.Min, j.Max, j.Operation, j.Material = 1, 2, speeds.Knurling, metal("chilled iron")
		}), "speeds: pairing knurling in chilled iron with HSS: chilled iron can be ground, and turned with carbide; it cannot be threaded or knurled; accepted: facing, turning, boring"},
		{"a centre drill of carbide", job(func(j *speeds.Job) { j.Operation, j.Tool = speeds.CentreDrilling, speeds.Carbide }), "speeds: pairing centre drilling in brass with carbide: the tip of a carbide centre drill breaks in a lathe that is not dead in line; accepted: HSS"},
		{"a tap of carbide", job(func(j *speeds.Job) { j.Operation, j.Tool = speeds.Tapping, speeds.Carbide }), "speeds: pairing tapping in brass with carbide: solid carbide taps and dies break in a hand-held or hobby machine; accepted: HSS, carbon steel"},
		{"a die without a speed", job(func(j *speeds.Job) { j.Operation = speeds.DieCutting }), ""},
	} {
		got := ""
		if tt.err != nil {
			got = tt.err.Error()
		}
		if got != tt.want {
			t.Errorf("%s: %s; want %s", tt.name, got, tt.want)
		}
	}
	if n, err := speeds.ShopRule(9).SpindleSpeed(1, mm(10)); n != 0 || !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a rule that is none: %v, %v", n, err)
	}
	if x, err := speeds.ShopRule(0).Excess(1); x != 0 || !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a rule that is none exceeds by %v, %v", x, err)
	}
}

// What is printed of an answer has its fields by name.
func TestPrints(t *testing.T) {
	deep, _ := speeds.DeepHoleFor(units.MM(30), units.MM(6))
	plan, _ := speeds.Job{Operation: speeds.Turning, Material: metal("brass"), Diameter: units.MM(20)}.Plan()
	pecks, _ := speeds.PecksFor(units.MM(5), units.MM(2))
	feed, _ := speeds.FeedFor(speeds.Drilling, metal("brass"), units.MM(5))
	numbers, _ := speeds.PreferredNumbers(10, 1, 1, 2)
	limit := speeds.Limit{Speed: 60 * rpm, Reason: "it trembles"}
	for _, v := range []fmt.Stringer{deep, plan, pecks, feed, numbers, limit, plan.Range, plan.Range.Published, speeds.Choice{Wanted: 60 * rpm}} {
		if text := v.String(); len(text) < 15 || !strings.ContainsAny(text, " ") {
			t.Errorf("%T prints as %q", v, text)
		}
	}
	if op := speeds.Tapping; op.ByHand(units.MM(4.005)) || !op.ByHand(units.MM(4.005).Sub(units.Picometres(1))) {
		t.Error("taps for the hand end at 4.005 mm")
	}
	for _, d := range []units.Length{{}, units.MM(-1)} {
		if all, err := speeds.PublishedFeedsFor(speeds.Drilling, metal("brass"), d); all != nil || !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v, %v", all, err)
		}
	}
}

// The ends of a range are in it.
func TestContains(t *testing.T) {
	r := speeds.Range{Min: 1, Max: 2}
	for v, want := range map[units.Speed]bool{0.999: false, 1: true, 1.5: true, 2: true, 2.001: false} {
		if r.Contains(v) != want {
			t.Errorf("%v in %v to %v: %v", v, r.Min, r.Max, !want)
		}
	}
}

// The words of a machine that cannot be read: what is wrong, and of a long one its
// beginning alone.
func TestLadderComplaints(t *testing.T) {
	var p paper
	for _, text := range []string{
		"", "fast", "60 110 abc", "0 100", "100 100", "-5", "50-2500-", "50 - ", "low 50-", "2500-50", "50-2500, 30", "cone",
		"cone 600 355, back gear", "cone 600 355, back gear 1:1", "cone 600, back gear 6:2", "cone 600, back gear 101", "R7 31.5-2000",
		"R10 30-2000", "R10 2000-31.5", "R10/0 31.5-2000", "R10/x 31.5-2000", "Rx 31.5-2000", "R10", "R10 31.5", "200000", "31,5 63",
		"60.5.5 100", "50 \u20ac", strings.Repeat("x", 40), strings.Repeat("x", 41), "0" + strings.Repeat("1", 20),
	} {
		_, err := speeds.ParseLadder(text)
		if err == nil {
			t.Errorf("%q was read", text)
			continue
		}
		said, _, _ := strings.Cut(err.Error(), "; accepted: \"60 110") // what all forms are is said once
		p.line("%s", said)
	}
	_, err := speeds.ParseLadder("60" + strings.Repeat(" ", 995) + "1100")
	p.line("%s", strings.ReplaceAll(fmt.Sprint(err), "  ", ""))
	check.Kept(t, "speeds/kept/machines.txt", p.String())
}

// Names and texts of machines, as they are read and written again.
func TestLadderNames(t *testing.T) {
	var p paper
	for _, text := range []string{"cone 720 450 280, back gear 6:1", "cone 720 450.5", "cone 720, back gear 6.25:1", "slow belt 50-400; 5, high 300-2500", "60;110, 200",
		" 60 110 RPM", "low 50 - 1100", "R20/3 31.5 to 125", "R5 1-10000", "1/2"} {
		l, err := speeds.ParseLadder(text)
		back, errText := l.MarshalText()
		p.line("%q: %v; %q %v; %v", text, l.Steps(), back, errText, err != nil)
	}
	one, errOne := speeds.ConeLadder(0, 60*rpm)
	two, errTwo := speeds.ConeLadder(2, 60*rpm, 31*rpm)
	same, errSame := speeds.ConeLadder(2, 60*rpm, 30*rpm)
	p.line("%v %v %v; %v %v %v; %v %v", one, one.Steps(), errOne, two, two.Steps(), errTwo, same.Steps(), errSame)
	p.line("%v %v %v", speeds.Step{Speed: 59.96 * rpm}, speeds.Step{Speed: 0.04 * rpm}, speeds.Step{Speed: 60.26 * rpm, Name: "a"})
	p.line("%v | %v | %v", speeds.Ladder{}.Slowest(), speeds.Ladder{}.Fastest(), speeds.Ladder{}.Steps())
	p.line("%v", (&speeds.TooFastError{Wanted: 7 * rpm, Slowest: speeds.Step{Speed: 20 * rpm, Name: "b"}}))
	p.line("%v", (&speeds.TooFastError{Slowest: speeds.Step{Speed: 20 * rpm}}))
	check.Kept(t, "speeds/kept/ladders.txt", p.String())
}

// A machine keeps its speeds through gob's methods too.
func TestLadderGob(t *testing.T) {
	l := ladder(t, "cone 720 450, back gear 6:1")
	text, err := l.GobEncode()
	var back speeds.Ladder
	if err := errors.Join(err, back.GobDecode(text)); err != nil || back.String() != l.String() || !slices.Equal(back.Steps(), l.Steps()) {
		t.Errorf("%s: %v, %v", text, back, err)
	}
}

// Preferred numbers are the rounded powers of 10^(1/series), every step-th from the
// first, and none is left out up to the last.
func TestPreferredNumbersByPowers(t *testing.T) {
	for _, series := range []int{5, 10, 20, 40} {
		for step := 1; step <= series; step++ {
			for _, ends := range [][2]float64{{1, 10000}, {1, 9999}, {10, 100}, {63, 1000}, {100, 100.1}, {4000, 10000}} {
				all, err := speeds.PreferredNumbers(series, step, ends[0], ends[1])
				if err != nil {
					t.Fatal(err)
				}
				first := math.Round(float64(series) * math.Log10(ends[0]))
				n := 0
				for i := first; i <= float64(4*series); i += float64(step) {
					exact := math.Pow(10, i/float64(series))
					if exact > ends[1]*1.0127 { // none of the ends is as near to a number that is not in
						break
					}
					if n >= len(all.Numbers) {
						if exact < ends[1]*0.987 || ends[1] == math.Round(ends[1]) && math.Abs(exact/ends[1]-1) < 1e-6 {
							t.Errorf("R%d/%d from %v: %v, without %v", series, step, ends, all.Numbers, exact)
						}
						break
					}
					if got := all.Numbers[n]; math.Abs(got/exact-1) > 0.0127 || got > ends[1] {
						t.Errorf("R%d/%d from %v: number %d is %v, want %v", series, step, ends, n, got, exact)
					}
					n++
				}
				if n < len(all.Numbers) || n == 0 {
					t.Errorf("R%d/%d from %v: %v", series, step, ends, all.Numbers)
				}
			}
		}
	}
}

// Of a choice on steps: the fastest that is not above what is wanted, the next one
// above it, and a note where nothing is faster.
func TestChooseStep(t *testing.T) {
	l := ladder(t, "100 200 300")
	for _, tt := range []struct {
		want, step, above float64
		fastest           bool
	}{
		{100, 100, 200, false}, {199.9, 100, 200, false}, {200, 200, 300, false}, {200 - 1e-11, 200, 300, false}, {200 - 1e-8, 100, 200, false},
		{300 + 6e-7, 300, 0, true}, {299.99, 200, 300, false}, {300, 300, 0, false}, {300 + 1e-7, 300, 0, false}, {300.001, 300, 0, true},
	} {
		c, err := l.Choose(units.RotationalSpeed(tt.want) * rpm)
		if err != nil || math.Round(c.Step.Speed.In(rpm)) != tt.step || math.Round(c.Above.Speed.In(rpm)) != tt.above ||
			(len(c.Findings) == 1) != tt.fastest || c.Dial != 0 || c.Wanted != units.RotationalSpeed(tt.want)*rpm {
			t.Errorf("%v: %v, %v", tt.want, c, err)
		}
	}
	// On a dial: whole turns below 100, fives below 1000, tens from there.
	dial := ladder(t, "10.5-5000")
	for _, tt := range []struct{ want, step, dial float64 }{
		{10.5, 10.5, 0}, {10.9, 10.5, 0}, {11, 11, 1}, {99.99, 99, 1}, {100, 100, 5}, {104.9, 100, 5}, {105, 105, 5}, {105 - 1e-8, 100, 5}, {105 - 2e-9, 105, 5},
		{999.9, 995, 5},
		{1000, 1000, 10}, {1009, 1000, 10}, {4999, 4990, 10}, {5000, 5000, 0}, {6000, 5000, 0},
	} {
		c, err := dial.Choose(units.RotationalSpeed(tt.want) * rpm)
		if err != nil || math.Abs(c.Step.Speed.In(rpm)-tt.step) > 1e-9 || math.Abs(c.Dial.In(rpm)-tt.dial) > 1e-9 {
			t.Errorf("%v: %v, %v", tt.want, c, err)
		}
	}
	if c, err := ladder(t, "50-2500").Choose(50.5 * rpm); err != nil || c.Step.Speed != 50*rpm || c.Dial != 0 {
		t.Errorf("at the slow end: %v, %v", c, err)
	}
	// Between gears: the fast end of the lower, and the slow end of the next above.
	gears := ladder(t, "c 700-900, a 10-50, b 100-400")
	for _, tt := range []struct {
		want, step, above float64
		name              string
	}{{60, 50, 100, "a"}, {99.9, 50, 100, "a"}, {100, 100, 700, "b"}, {699, 400, 700, "b"}, {800, 800, 0, "c"}, {30, 30, 100, "a"}} {
		c, err := gears.Choose(units.RotationalSpeed(tt.want) * rpm)
		if err != nil || math.Abs(c.Step.Speed.In(rpm)-tt.step) > 1e-9 || math.Abs(c.Above.Speed.In(rpm)-tt.above) > 1e-9 ||
			c.Step.Name != tt.name {
			t.Errorf("%v: %v, %v", tt.want, c, err)
		}
	}
	if gears.Slowest().Name != "a" || gears.Fastest().Name != "c" {
		t.Errorf("%v to %v", gears.Slowest(), gears.Fastest())
	}
}

// The most that a limit allows is rounded down: to the tenth below 100 rev/min, whole
// from there; below a tenth it stays.
func TestMostIsRoundedDown(t *testing.T) {
	j := speeds.Job{Operation: speeds.Turning, Material: metal("brass"), Diameter: units.MM(1)}
	for _, tt := range []struct {
		limit, most float64
		text        string
	}{
		{0.06, 0.06, "0.1 rev/min"}, {0.1, 0.1, "0.1 rev/min"}, {0.19, 0.1, "0.1 rev/min"}, {38.26, 38.2, "38.2 rev/min"}, {99.99, 99.9, "99.9 rev/min"},
		{100, 100, "100 rev/min"}, {100.9, 100, "100 rev/min"}, {101, 101, "101 rev/min"}, {2499.99, 2499, "2499 rev/min"},
	} {
		j.Limits = []speeds.Limit{{Speed: units.RotationalSpeed(tt.limit) * rpm, Reason: "?"}}
		plan, err := j.Plan()
		if err != nil || math.Abs(plan.Most().In(rpm)-tt.most) > 1e-9 || plan.Most() > j.Limits[0].Speed ||
			!strings.Contains(plan.Findings[0].Text, "not above "+tt.text+":") {
			t.Errorf("%v: %v, %v, %v", tt.limit, plan.Most(), plan.Findings, err)
		}
	}
}

// The pecks are two diameters, then one each up to six, then halves, and the tip is
// deeper by half the drill over the tangent of half the point.
func TestPecksByHand(t *testing.T) {
	for _, diameters := range []float64{0.5, 2, 2.001, 3, 5.9, 6, 6.1, 6.5, 7, 12, 40} {
		d := units.MM(4)
		p, err := speeds.PecksFor(d.Scale(diameters), d)
		if err != nil {
			t.Fatal(err)
		}
		var want []float64
		for at := 2.0; at < diameters; {
			if want = append(want, at); at < 6 {
				at++
			} else {
				at += 0.5
			}
		}
		want = append(want, diameters)
		if len(p.Depths) != len(want) || len(p.Tips) != len(want) || p.Refs.Len() != 2 {
			t.Fatalf("%v diameters: %v", diameters, p)
		}
		for i, at := range want {
			if math.Abs(p.Depths[i].MM()-4*at) > 1e-9 || math.Abs(p.Tips[i].MM()-4*at-4/(2*math.Tan(59*math.Pi/180))) > 1e-9 {
				t.Errorf("%v diameters: %v at %v, want %v", diameters, p.Tips[i], p.Depths[i], 4*at)
			}
		}
	}
}
