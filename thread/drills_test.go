package thread_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
)

// suits stands for a drill without a finding.
const suits finding.Code = ""

func verdict(c thread.Choice) finding.Code {
	if c.Suits() {
		return suits
	}
	return c.Findings[0].Code
}

// TH-02: the same hole for stainless steel, mild steel and brass out of the number
// drills: 50, 60 to 65 and 70 % of three quarters of the height.
func TestTappingByMaterial(t *testing.T) {
	th := thread.MustParse("1/4-20")
	for _, test := range []struct {
		material, first string
		least, most     float64 // on the three-quarter height
	}{
		{"stainless steel 304", "#2", 0.40, 0.50}, // #3 (0.213) would be 57 %, #2 (0.221) is 45 %
		{"mild steel", "#4", 0.60, 0.65},          // 0.209: 63 %
		{"brass", "#6", 0.68, 0.72},               // 0.204: 71 %, against 70 asked for
		{"cast iron", "#6", 0.70, 0.75},
	} {
		choices, err := th.TappingDrillsIn(metal(t, test.material), gauge.Number())
		if err != nil {
			t.Error(err)
			continue
		}
		depth, err := th.DepthOfThread(choices[0].Drill.Diameter, thread.ThreeQuarterHeight)
		if err != nil || choices[0].Drill.Name != test.first || depth < test.least || depth > test.most {
			t.Errorf("%s: %v, which is %.3f, %v; want %s", test.material, choices[0], depth, err, test.first)
		}
		if test.material == "stainless steel 304" {
			for i, c := range choices[1:] {
				if c.Over.Sign() >= 0 && choices[i].Over.Sign() < 0 {
					t.Errorf("%v stands behind the smaller %v", c, choices[i])
				}
			}
		}
	}
	if _, err := th.TappingDrillsIn(metal(t, "PTFE"), gauge.Number()); !errors.Is(err,
		units.ErrUnknown) || !strings.Contains(err.Error(), "bronzes") {
		t.Errorf("plastic: %v", err)
	}
}

// TH-03: a chart of BA tapping drills, judged: several are over 85 %, and
// the drill for 14 BA is below the minor diameter. Worked from D - 1.2 p.
func TestChartOfBATappingDrills(t *testing.T) {
	for _, test := range []struct {
		thread, drill string
		percent       float64
		want          finding.Code
	}{
		{"0 BA", "#10", 90.4, thread.TightDrill},
		{"2 BA", "#24", 86.3, thread.TightDrill},
		{"4 BA", "#32", 82.5, suits},
		{"6 BA", "#43", 84.8, thread.TightDrill}, // below 3 mm, in a metal that is not known, 80 %
		{"7 BA", "#46", 76.8, suits},
		{"8 BA", "#50", 81.8, thread.TightDrill},
		{"10 BA", "#55", 90.3, thread.TightDrill},
		{"12 BA", "#60", 84.5, thread.TightDrill}, // below 2 mm the limit is 80 %
		{"14 BA", "#70", 104.6, thread.SmallDrill},
	} {
		th := thread.MustParse(test.thread)
		c, err := th.CheckTappingDrill(size(t, test.drill), thread.FullDepth)
		if err != nil || math.Abs(100*c.Depth-test.percent) > 0.06 || verdict(c) != test.want {
			t.Errorf("%s with %s: %v, %v; want %.1f %% and %v", test.thread, test.drill, c, err, test.percent, test.want)
		}
	}
	for name, want := range map[string]float64{"8 BA": 1.84, "10 BA": 1.41, "12 BA": 1.06, "14 BA": 0.81} {
		hole, err := thread.MustParse(name).TappingHole(0.70, thread.FullDepth)
		if err != nil || math.Abs(hole.MM()-want) > 0.005 {
			t.Errorf("%s at 70 %%: %v, %v; want %.2f mm", name, hole, err, want)
		}
	}
}

// TH-13: a tap of 8 BA, 2.2 mm, breaks in a #50 hole in iron. By D - 1.2 p: 1.75 mm
// leaves 87.2 %, #50 81.8 %, 1.80 mm 77.5 % and 1.85 mm 67.8 %.
func TestSmallTapsByMetal(t *testing.T) {
	for _, tt := range []struct {
		thread, metal, drill string
		percent              float64
		want                 finding.Code
	}{
		{"8 BA", "cast iron", "1.75 mm", 87.2, thread.TightDrill},
		{"8 BA", "cast iron", "#50", 81.8, thread.TightDrill},
		{"8 BA", "gunmetal", "#50", 81.8, thread.TightDrill},
		{"8 BA", "mild steel", "#50", 81.8, thread.TightDrill},
		{"8 BA", "copper", "#50", 81.8, thread.TightDrill}, // no practice: as a metal that is not known
		{"8 BA", "brass", "#50", 81.8, suits},
		{"8 BA", "aluminium", "#50", 81.8, suits},
		{"8 BA", "brass", "1.75 mm", 87.2, thread.TightDrill},
		{"8 BA", "cast iron", "1.8 mm", 77.5, suits},
		{"8 BA", "cast iron", "1.85 mm", 67.8, suits},
		{"M2.5", "mild steel", "2.05 mm", 81.5, thread.TightDrill},
		{"M2.5", "brass", "2.05 mm", 81.5, suits},
		{"M3", "cast iron", "2.5 mm", 81.5, suits},
	} {
		c, err := thread.MustParse(tt.thread).CheckTappingDrillIn(metal(t, tt.metal), size(t, tt.drill), thread.FullDepth)
		if err != nil || math.Abs(100*c.Depth-tt.percent) > 0.06 || verdict(c) != tt.want {
			t.Errorf("%s with %s in %s: %v, %v; want %.1f %% and %q", tt.thread, tt.drill, tt.metal, c, err, tt.percent, tt.want)
		}
	}
	// In iron the hole that is wanted leaves no more than suits, and 1.8 mm is first.
	th, iron := thread.MustParse("8 BA"), metal(t, "cast iron")
	plan, err := th.PlanDrill(gauge.Metric(), thread.TapDepth{Material: iron})
	if err != nil || plan.Choices[0].Drill.Name != "1.8 mm" || math.Abs(plan.Hole.MM()-(2.2-0.8*1.2*0.43)) > 1e-6 {
		t.Errorf("%+v, %v", plan, err)
	}
}

// A drill may suit and still be over what the usual class of nut allows: 2.599 mm
// for M3 in 6H, 7.378 mm for M8x0.75 (ISO 965-1), 0.2067 in for 1/4-20 in 2B. The
// row says so.
func TestOutsideTheGauge(t *testing.T) {
	for _, tt := range []struct {
		thread, drill, verdict string
		gauged                 bool
	}{
		{"M3", "2.5 mm", "suits", true},
		{"M3", "2.59 mm", "suits", true},
		{"M3", "2.6 mm", "suits, outside class 6H", false},
		{"M3", "2.65 mm", "suits, outside class 6H", false},
		{"M3", "2.8 mm", "shallow thread", false},
		{"M3", "2.45 mm", "drill too small", false},
		{"M8x0.75", "7.3 mm", "suits", true},
		{"M8x0.75", "7.5 mm", "suits, outside class 6H", false},
		{"1/4-20", "#7", "suits", true},
		{"1/4-20", "#2", "shallow thread", false},
		{"1/4-20", "#4", "suits, outside class 2B", false},
		{"2 BA", "4 mm", "suits", true},
		{"8 BA", "1.85 mm", "suits, outside nut limits", false},
		{"1/4 BSW", "5.2 mm", "suits, outside normal nut limits", false},
		{"1/2-10 Acme", "10.4 mm", "suits, outside class 2G", false},
		{"1/4 x 40 ME", "5.7 mm", "suits", true}, // no limits: nothing to be outside of
	} {
		c, err := thread.MustParse(tt.thread).CheckTappingDrill(size(t, tt.drill), thread.FullDepth)
		if err != nil || c.Verdict() != tt.verdict || c.Gauged() != tt.gauged {
			t.Errorf("%s with %s: %q, gauged %v, %v; want %q", tt.thread, tt.drill, c.Verdict(), c.Gauged(), err, tt.verdict)
		}
		if outside := strings.Contains(tt.verdict, "outside"); outside &&
			(len(c.Findings) != 1 || c.Findings[0].Code != thread.OutsideClass || c.Findings[0].Severity != finding.Note ||
				!c.Findings.OK() || c.Findings[0].Refs.IsZero() || !strings.Contains(c.Findings[0].Text, "work without one")) {
			t.Errorf("%s with %s: %v", tt.thread, tt.drill, c.Findings)
		}
	}
}

// TH-06: a formula asks for 6.25 mm for M7x0.75 and the set goes in halves, or has 6.2
// and 6.3: shares of the internal height, worked by hand.
func TestSetWithoutTheDrill(t *testing.T) {
	for _, d := range []float64{7, 8} {
		th := thread.MustParse(fmt.Sprintf("M%gx0.75", d))
		for hole, want := range map[float64]float64{6.0: 123.2, 6.2: 98.5, 6.25: 92.4, 6.3: 86.2, 6.5: 61.6} {
			depth, err := th.DepthOfThread(units.MM(hole+d-7), thread.InternalHeight)
			if err != nil || math.Abs(100*depth-want) > 0.06 {
				t.Errorf("%v with %v: %.4f, %v; want %.1f %%", th, hole, depth, err, want)
			}
		}
	}
	th := thread.MustParse("M7x0.75")
	if depth, err := th.DepthOfThread(units.MM(6.3),
		thread.ThreeQuarterHeight); err != nil || math.Abs(100*depth-71.8) > 0.06 {
		t.Errorf("6.3 mm is %.4f on the three-quarter height, %v; want 71.8 %%", depth, err)
	}
	halves, err := th.TappingDrills(set(t, "1-13x0.5 mm"), 0.75, thread.InternalHeight)
	if err != nil || len(halves) != 2 || halves[0].Drill.Name != "6.5 mm" || halves[1].Drill.Name != "6 mm" ||
		verdict(halves[1]) != thread.SmallDrill {
		t.Errorf("a set in halves: %v, %v; want 6.5 mm and the refused 6 mm", halves, err)
	}
	tenths, err := th.TappingDrills(set(t, "1-13x0.1 mm"), 0.75, thread.InternalHeight)
	if err != nil || tenths[0].Drill.Name != "6.4 mm" || tenths[1].Drill.Name != "6.3 mm" {
		t.Errorf("a set in tenths: %v, %v; want 6.4 mm, 6.3 mm", tenths, err)
	}
}

func TestTappingDrillsRank(t *testing.T) {
	m3 := thread.MustParse("M3")
	for _, test := range []struct {
		set, want string
		verdicts  []finding.Code
	}{
		{"1-6x0.1 mm", "2.5 mm 2.6 mm 2.4 mm", []finding.Code{suits, suits, thread.SmallDrill}},
		{"2.4 mm, 2.45 mm", "2.45 mm", []finding.Code{thread.SmallDrill}},
		{"2.46 mm, 2.8 mm, 2.9 mm", "2.8 mm 2.46 mm", []finding.Code{thread.ShallowThread, thread.TightDrill}},
		{"2.45 mm, 2.46 mm, 2.55 mm", "2.55 mm 2.46 mm", []finding.Code{suits, thread.TightDrill}},
	} {
		choices, err := m3.TappingDrills(set(t, test.set), 0.75, thread.FullDepth)
		if err != nil {
			t.Error(err)
			continue
		}
		var names []string
		for i, c := range choices {
			names = append(names, c.Drill.Name)
			if i < len(test.verdicts) && verdict(c) != test.verdicts[i] {
				t.Errorf("%q: %v, want %v", test.set, c, test.verdicts[i])
			}
			if c.Basis != thread.FullDepth || c.Full == 0 || c.Max == 0 || c.Drill.Refs.IsZero() {
				t.Errorf("%q: %v lacks basis, reason or source", test.set, c)
			}
		}
		if got := strings.Join(names, " "); got != test.want {
			t.Errorf("%q: %s, want %s", test.set, got, test.want)
		}
	}
}

// Of two drills equally near the larger is first.
func TestTappingDrillsTie(t *testing.T) {
	m3 := thread.MustParse("M3")
	choices, err := m3.TappingDrills(set(t, "2.5 mm, 2.6 mm"), 0.45/(0.5*1.2268693220), thread.FullDepth)
	if err != nil || choices[0].Over != units.MM(0.05) || choices[1].Over != units.MM(-0.05) {
		t.Errorf("%v, %v", choices, err)
	}
}

// Hard metal has a lower limit, and takes the larger drill, as a small thread
// does in any metal. Worked by hand: M6 in 5.06 mm is 0.94 / 1.22687 = 76.6 %
// of the full depth; brass asks for 0.7 x 1.2990 p, a hole of 2.091 mm for M2.5
// and 2.545 mm for M3.
func TestTappingDrillsForCare(t *testing.T) {
	for _, test := range []struct {
		thread, material, set, first string
		last                         finding.Code
	}{
		{"M6", "stainless steel 304", "5.06 mm, 5.3 mm", "5.3 mm", thread.TightDrill},
		{"M6", "mild steel", "5.06 mm, 5.3 mm", "5.3 mm", suits},
		{"M2.5", "brass", "2.05 mm, 2.15 mm", "2.15 mm", suits},
		{"M3", "brass", "2.5 mm, 2.6 mm", "2.5 mm", suits},
	} {
		choices, err := thread.MustParse(test.thread).TappingDrillsIn(metal(t, test.material), set(t, test.set))
		if err != nil || choices[0].Drill.Name != test.first || verdict(choices[len(choices)-1]) != test.last {
			t.Errorf("%s in %s: %v, %v", test.thread, test.material, choices, err)
		}
	}
}

func TestTappingRefuses(t *testing.T) {
	m3, taper := thread.MustParse("M3"), thread.MustParse("R 1/8")
	drills := set(t, "1-6x0.1 mm")
	for name, test := range map[string]struct {
		call func() error
		want error
		says string
	}{
		"per cent": {func() error { _, err := m3.TappingHole(75, thread.FullDepth); return err }, units.ErrOutOfRange,
			"write 0.75"},
		"zero": {func() error { _, err := m3.TappingHole(0, thread.FullDepth); return err }, units.ErrOutOfRange,
			"such as 0.75"},
		"negative": {func() error { _, err := m3.TappingHole(-0.5, thread.FullDepth); return err }, units.ErrOutOfRange,
			"above 0"},
		"not a number": {func() error { _, err := m3.TappingHole(math.NaN(), thread.FullDepth); return err },
			units.ErrNotFinite, "share"},
		"infinite": {func() error {
			_, err := m3.ConvertDepth(math.Inf(1), thread.FullDepth, thread.InternalHeight)
			return err
		}, units.ErrNotFinite, "finite"},
		"over 100 %": {func() error { _, err := m3.TappingHole(0.9, thread.FullDepth); return err },
			units.ErrOutOfRange, "up to 0.882 of the full depth"},
		"over 100 % of 3H/4": {func() error { _, err := m3.TappingHole(0.85, thread.ThreeQuarterHeight); return err },
			units.ErrOutOfRange, "up to 0.833"},
		"no basis": {func() error { _, err := m3.TappingHole(0.75, 0); return err }, units.ErrUnknown,
			"full depth"},
		"3H/4 of BA": {func() error {
			_, err := thread.MustParse("2 BA").TappingHole(0.7, thread.ThreeQuarterHeight)
			return err
		}, units.ErrUnknown, "full depth or internal height"},
		"taper": {func() error { _, err := taper.TappingHole(0.7, thread.FullDepth); return err }, units.ErrUnknown,
			"taper"},
		"no thread": {func() error { _, err := (thread.Thread{}).TappingHole(0.7, thread.FullDepth); return err },
			units.ErrMissing, "a thread"},
		"hole too large": {func() error { _, err := m3.DepthOfThread(units.MM(3), thread.FullDepth); return err },
			units.ErrOutOfRange, "leaves no thread"},
		"hole of nothing": {func() error { _, err := m3.DepthOfThread(units.MM(-1), thread.FullDepth); return err },
			units.ErrOutOfRange, "above zero"},
		"empty set": {func() error { _, err := m3.TappingDrills(gauge.Set{}, 0.7, thread.FullDepth); return err },
			units.ErrMissing, "at least one drill"},
		"no drill near": {func() error {
			_, err := thread.MustParse("M16").TappingDrills(drills, 0.7, thread.FullDepth)
			return err
		}, units.ErrOutOfRange, "no drill near"},
		"forming per cent": {func() error { _, err := m3.FormingHole(65); return err }, units.ErrOutOfRange, "write 0.65"},
		"forming BA": {func() error { _, err := thread.MustParse("2 BA").FormingHole(0.65); return err },
			units.ErrUnknown, "60-degree"},
		"cutting drill": {func() error { _, err := m3.FormingDepth(units.MM(2.5)); return err }, units.ErrOutOfRange,
			"cutting tap"},
		"no blind hole": {func() error { _, err := m3.ThreadInBlindHole(units.MM(0), thread.TaperTap); return err },
			units.ErrOutOfRange, "above zero"},
		"no tap": {func() error { _, err := m3.ThreadInBlindHole(units.MM(10), 0); return err },
			units.ErrUnknown, "taper, second, bottoming"},
		"thread without end": {func() error {
			_, err := m3.BlindHole(units.Picometres(math.MaxInt64),
				thread.SecondTap)
			return err
		}, units.ErrOutOfRange, "up to 1 m"},
		"thread of nothing": {func() error { _, err := m3.BlindHole(units.Length{}, thread.SecondTap); return err },
			units.ErrOutOfRange, "above zero"},
		"no class": {func() error { _, err := m3.ClearanceFor(0); return err }, units.ErrUnknown, "ISO 273"},
		"ISO 273 for BA": {func() error {
			_,
				err := thread.MustParse("2 BA").ClearanceFor(thread.MediumISO273)
			return err
		}, units.ErrUnknown, "chart or cover"},
		"not in ISO 273": {func() error {
			_,
				err := thread.MustParse("M1.1").ClearanceFor(thread.MediumISO273)
			return err
		}, units.ErrOutOfRange, "not in the table"},
		"no chart": {func() error {
			_,
				err := thread.MustParse("17 BA").ClearanceFor(thread.ChartClearance)
			return err
		}, units.ErrUnknown, "cover"},
		"screw does not pass": {func() error { _, err := m3.ClearanceOf(units.MM(3)); return err }, units.ErrOutOfRange,
			"does not pass"},
	} {
		if err := test.call(); !errors.Is(err, test.want) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v; want %v saying %q", name, err, test.want, test.says)
		}
	}
}

// A drill that leaves next to no thread does not work; one that leaves a weak
// thread is a caution. By hand on M3, full depth 1.2269 p: 2.8 mm leaves 32.6 %,
// 2.9 mm 16.3 %.
func TestNextToNoThread(t *testing.T) {
	for mm, want := range map[float64]finding.Severity{2.8: finding.Caution, 2.9: finding.Fails} {
		drill, err := gauge.Parse(fmt.Sprint(mm, " mm"))
		if err != nil {
			t.Fatal(err)
		}
		c, err := thread.MustParse("M3").CheckTappingDrill(drill, thread.FullDepth)
		if err != nil || c.Verdict() != "shallow thread" || c.Findings[0].Severity != want {
			t.Errorf("%g mm: %v, %v", mm, c, err)
		}
	}
	if verdict := (thread.Choice{}).Verdict(); verdict != "" {
		t.Errorf("no choice %q", verdict)
	}
}
