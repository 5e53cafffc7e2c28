package thread_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

func set(t testing.TB, text string) gauge.Set {
	t.Helper()
	s, err := gauge.ParseSet(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func size(t testing.TB, text string) gauge.Size {
	t.Helper()
	s, err := gauge.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func metal(t testing.TB, name string) material.Material {
	t.Helper()
	m, err := material.Lookup(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestPercentOfThreadPrinted(t *testing.T) {
	open(t, "percent.csv", "thread", func(row *check.Row, th thread.Thread) {
		depth, err := th.DepthOfThread(units.Inch(row.Float("drill_in")), thread.ThreeQuarterHeight)
		if err != nil {
			t.Error(err)
			return
		}
		row.Within("percent", 100*depth, row.Float("tolerance"))
	})
}

// Two answers to 75 % of 10-32, both by formulas of Machinery's Handbook: with
// 1.08253 / n the drill is 0.1646 in, with 1.299 / n it is 0.1595 in.
func TestTwoFormulasForOneShare(t *testing.T) {
	th := thread.MustParse("10-32")
	for basis, want := range map[thread.Basis]float64{thread.InternalHeight: 0.1646, thread.ThreeQuarterHeight: 0.1595} {
		hole, err := th.TappingHole(0.75, basis)
		if err != nil || math.Abs(hole.Inch()-want) > 0.00006 { // 0.15955 is printed 0.1595
			t.Errorf("%v: %v, %v; want %v in", basis, hole, err, want)
		}
	}
}

// A builder's question: is M6 in a 5 mm hole 82, 77 or 92 %? All three, each on
// its own basis. Worked from the profile of ISO 68-1.
func ExampleThread_DepthOfThread() {
	m6 := thread.MustParse("M6")
	for _, basis := range []thread.Basis{thread.FullDepth, thread.InternalHeight, thread.ThreeQuarterHeight} {
		depth, err := m6.DepthOfThread(units.MM(5), basis)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f %% of %v\n", 100*depth, basis)
	}
	// Output:
	// 81.5 % of full depth
	// 92.4 % of internal height
	// 77.0 % of three-quarter height
}

// 1/4-20 by D - share 1.299 / n, worked by hand.
func TestTappingHoleByShare(t *testing.T) {
	th := thread.MustParse("1/4-20")
	for share, want := range map[float64]float64{0.50: 0.2175, 0.60: 0.2110, 0.65: 0.2078, 0.70: 0.2045, 0.75: 0.2013} {
		hole, err := th.TappingHole(share, thread.ThreeQuarterHeight)
		if err != nil || math.Abs(hole.Inch()-want) > 0.0001 {
			t.Errorf("%.0f %%: %v, %v; want %v in", 100*share, hole, err, want)
		}
	}
	depth, err := th.DepthOfThread(size(t, "#7").Diameter, thread.ThreeQuarterHeight)
	if err != nil || math.Abs(depth-0.754) > 0.0005 {
		t.Errorf("#7 gives %.4f, %v; want 0.754", depth, err)
	}
}

// The same hole for stainless steel, mild steel and brass out of the number
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
		choices, err := th.TappingDrillsFor(gauge.Number(), metal(t, test.material))
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
	if _, err := th.TappingDrillsFor(gauge.Number(), metal(t, "PTFE")); !errors.Is(err, units.ErrUnknown) || !strings.Contains(err.Error(), "bronzes") {
		t.Errorf("plastic: %v", err)
	}
}

// A builder's chart of BA tapping drills, judged: several are over 85 %, and
// the drill for 14 BA is below the minor diameter. Worked from D - 1.2 p.
func TestChartOfBATappingDrills(t *testing.T) {
	for _, test := range []struct {
		thread, drill string
		percent       float64
		want          thread.DrillVerdict
	}{
		{"0 BA", "#10", 90.4, thread.Tight},
		{"2 BA", "#24", 86.3, thread.Tight},
		{"4 BA", "#32", 82.5, thread.Suits},
		{"6 BA", "#43", 84.8, thread.Suits},
		{"7 BA", "#46", 76.8, thread.Suits},
		{"8 BA", "#50", 81.8, thread.Suits},
		{"10 BA", "#55", 90.3, thread.Tight},
		{"12 BA", "#60", 84.5, thread.Tight}, // below 2 mm the limit is 80 %
		{"14 BA", "#70", 104.6, thread.TooSmall},
	} {
		th := thread.MustParse(test.thread)
		c, err := th.CheckTappingDrill(size(t, test.drill), thread.FullDepth)
		if err != nil || math.Abs(100*c.Depth-test.percent) > 0.06 || c.Verdict != test.want {
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

// The clearance drills of the same chart, and the error of position that each
// forgives.
func TestChartOfBAClearanceDrills(t *testing.T) {
	for _, test := range []struct {
		thread, drill string
		room          float64 // mm
	}{
		{"6 BA", "#34", 0.019}, {"9 BA", "#50", -0.122}, {"9 BA", "#47", 0.094}, {"4 BA", "#27", 0.058},
		{"5 BA", "#30", 0.064}, {"7 BA", "#38", 0.078}, {"2 BA", "#12", 0.101},
	} {
		c, err := thread.MustParse(test.thread).ClearanceOf(size(t, test.drill).Diameter)
		if test.room < 0 {
			if !errors.Is(err, units.ErrOutOfRange) {
				t.Errorf("%s through %s: %v, %v; want an error", test.thread, test.drill, c, err)
			}
			continue
		}
		if err != nil || math.Abs(c.Room.MM()-test.room) > 0.0006 || c.Position != c.Room.Scale(0.5) {
			t.Errorf("%s through %s: %v, %v; want %.3f mm and half of it", test.thread, test.drill, c, err, test.room)
		}
	}
}

// A formula asks for 6.25 mm for M7x0.75 and the set goes in halves, or has 6.2
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
	if depth, err := th.DepthOfThread(units.MM(6.3), thread.ThreeQuarterHeight); err != nil || math.Abs(100*depth-71.8) > 0.06 {
		t.Errorf("6.3 mm is %.4f on the three-quarter height, %v; want 71.8 %%", depth, err)
	}
	halves, err := th.TappingDrills(set(t, "1-13x0.5 mm"), 0.75, thread.InternalHeight)
	if err != nil || len(halves) != 2 || halves[0].Drill.Name != "6.5 mm" || halves[1].Drill.Name != "6 mm" || halves[1].Verdict != thread.TooSmall {
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
		verdicts  []thread.DrillVerdict
	}{
		{"1-6x0.1 mm", "2.5 mm 2.6 mm 2.4 mm", []thread.DrillVerdict{thread.Suits, thread.Suits, thread.TooSmall}},
		{"2.4 mm, 2.45 mm", "2.45 mm", []thread.DrillVerdict{thread.TooSmall}},
		{"2.46 mm, 2.8 mm, 2.9 mm", "2.8 mm 2.46 mm", []thread.DrillVerdict{thread.Shallow, thread.Tight}},
		{"2.45 mm, 2.46 mm, 2.55 mm", "2.55 mm 2.46 mm", []thread.DrillVerdict{thread.Suits, thread.Tight}},
	} {
		choices, err := m3.TappingDrills(set(t, test.set), 0.75, thread.FullDepth)
		if err != nil {
			t.Error(err)
			continue
		}
		var names []string
		for i, c := range choices {
			names = append(names, c.Drill.Name)
			if i < len(test.verdicts) && c.Verdict != test.verdicts[i] {
				t.Errorf("%q: %v, want %v", test.set, c, test.verdicts[i])
			}
			if c.Basis != thread.FullDepth || c.Why == "" || c.Drill.Refs.IsZero() {
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
		last                         thread.DrillVerdict
	}{
		{"M6", "stainless steel 304", "5.06 mm, 5.3 mm", "5.3 mm", thread.Tight},
		{"M6", "mild steel", "5.06 mm, 5.3 mm", "5.3 mm", thread.Suits},
		{"M2.5", "brass", "2.05 mm, 2.15 mm", "2.15 mm", thread.Suits},
		{"M3", "brass", "2.5 mm, 2.6 mm", "2.5 mm", thread.Suits},
	} {
		choices, err := thread.MustParse(test.thread).TappingDrillsFor(set(t, test.set), metal(t, test.material))
		if err != nil || choices[0].Drill.Name != test.first || choices[len(choices)-1].Verdict != test.last {
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
		"per cent":     {func() error { _, err := m3.TappingHole(75, thread.FullDepth); return err }, units.ErrOutOfRange, "write 0.75"},
		"zero":         {func() error { _, err := m3.TappingHole(0, thread.FullDepth); return err }, units.ErrOutOfRange, "such as 0.75"},
		"negative":     {func() error { _, err := m3.TappingHole(-0.5, thread.FullDepth); return err }, units.ErrOutOfRange, "above 0"},
		"not a number": {func() error { _, err := m3.TappingHole(math.NaN(), thread.FullDepth); return err }, units.ErrNotFinite, "share"},
		"infinite": {func() error {
			_, err := m3.ConvertDepth(math.Inf(1), thread.FullDepth, thread.InternalHeight)
			return err
		}, units.ErrNotFinite, "finite"},
		"over 100 %":         {func() error { _, err := m3.TappingHole(0.9, thread.FullDepth); return err }, units.ErrOutOfRange, "up to 0.882 of the full depth"},
		"over 100 % of 3H/4": {func() error { _, err := m3.TappingHole(0.85, thread.ThreeQuarterHeight); return err }, units.ErrOutOfRange, "up to 0.833"},
		"no basis":           {func() error { _, err := m3.TappingHole(0.75, 0); return err }, units.ErrUnknown, "FullDepth"},
		"3H/4 of BA": {func() error {
			_, err := thread.MustParse("2 BA").TappingHole(0.7, thread.ThreeQuarterHeight)
			return err
		}, units.ErrUnknown, "full depth or internal height"},
		"taper":           {func() error { _, err := taper.TappingHole(0.7, thread.FullDepth); return err }, units.ErrUnknown, "taper"},
		"no thread":       {func() error { _, err := (thread.Thread{}).TappingHole(0.7, thread.FullDepth); return err }, units.ErrMissing, "a thread"},
		"hole too large":  {func() error { _, err := m3.DepthOfThread(units.MM(3), thread.FullDepth); return err }, units.ErrOutOfRange, "leaves no thread"},
		"hole of nothing": {func() error { _, err := m3.DepthOfThread(units.MM(-1), thread.FullDepth); return err }, units.ErrOutOfRange, "above zero"},
		"empty set":       {func() error { _, err := m3.TappingDrills(gauge.Set{}, 0.7, thread.FullDepth); return err }, units.ErrMissing, "empty"},
		"no drill near": {func() error {
			_, err := thread.MustParse("M16").TappingDrills(drills, 0.7, thread.FullDepth)
			return err
		}, units.ErrOutOfRange, "no drill near"},
		"forming per cent":   {func() error { _, err := m3.FormingHole(65); return err }, units.ErrOutOfRange, "write 0.65"},
		"forming BA":         {func() error { _, err := thread.MustParse("2 BA").FormingHole(0.65); return err }, units.ErrUnknown, "60-degree"},
		"cutting drill":      {func() error { _, err := m3.FormingDepth(units.MM(2.5)); return err }, units.ErrOutOfRange, "cutting tap"},
		"shallow blind hole": {func() error { _, err := m3.ThreadInBlindHole(units.MM(4), thread.TaperTap); return err }, units.ErrOutOfRange, "deeper than 4 mm"},
		"no tap":             {func() error { _, err := m3.ThreadInBlindHole(units.MM(10), 0); return err }, units.ErrUnknown, "taper, second, bottoming"},
		"thread without end": {func() error { _, err := m3.BlindHoleFor(units.Picometres(math.MaxInt64), thread.SecondTap); return err }, units.ErrOutOfRange, "up to 1 m"},
		"depth without end": {func() error {
			_, err := thread.InfeedAlongSlide(units.Picometres(math.MaxInt64), 30*units.Degree)
			return err
		}, units.ErrOutOfRange, "up to 100 mm"},
		"thread of nothing":   {func() error { _, err := m3.BlindHoleFor(units.Length{}, thread.SecondTap); return err }, units.ErrOutOfRange, "above zero"},
		"no class":            {func() error { _, err := m3.ClearanceHole(0); return err }, units.ErrUnknown, "ISO 273"},
		"ISO 273 for BA":      {func() error { _, err := thread.MustParse("2 BA").ClearanceHole(thread.MediumISO273); return err }, units.ErrUnknown, "chart or cover"},
		"not in ISO 273":      {func() error { _, err := thread.MustParse("M1.1").ClearanceHole(thread.MediumISO273); return err }, units.ErrOutOfRange, "not in the table"},
		"no chart":            {func() error { _, err := thread.MustParse("17 BA").ClearanceHole(thread.ChartClearance); return err }, units.ErrUnknown, "cover"},
		"screw does not pass": {func() error { _, err := m3.ClearanceOf(units.MM(3)); return err }, units.ErrOutOfRange, "does not pass"},
	} {
		if err := test.call(); !errors.Is(err, test.want) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v; want %v saying %q", name, err, test.want, test.says)
		}
	}
}

// Two rules for forming taps, worked by hand: 0.25 - 0.68 x 0.65 x 0.05 in, and
// D - 0.42 p or 0.49 p.
func TestFormingHole(t *testing.T) {
	for _, test := range []struct {
		thread           string
		byDepth, byPitch units.Length
	}{
		{"1/4-20", units.Inch(0.2279), units.Inch(0.2255)},
		{"M3", units.MM(2.779), units.MM(2.79)},
		{"M5", units.MM(4.6464), units.MM(4.664)}, // 0.8 mm still takes 0.42
		{"M10", units.MM(9.337), units.MM(9.265)},
	} {
		h, err := thread.MustParse(test.thread).FormingHole(0.65)
		if err != nil || h.ByDepth.Sub(test.byDepth).Abs().Cmp(units.Micron(1)) > 0 || h.ByPitch.Sub(test.byPitch).Abs().Cmp(units.Micron(1)) > 0 {
			t.Errorf("%s: %v, %v; want %v and %v", test.thread, h, err, test.byDepth, test.byPitch)
		}
	}
	share, err := thread.MustParse("M3").FormingDepth(units.MM(2.8))
	if err != nil || math.Abs(share-0.588) > 0.0005 {
		t.Errorf("2.8 mm for M3: %.4f, %v", share, err)
	}
}

// A builder's broken tap: M3 in a hole 0.300 in deep in aluminium. Leads of 7, 3
// and 1.5 pitches leave 4.1, 6.1 and 6.9 mm before the tap stands on the bottom,
// and half a millimetre less with room for chips; the tap jammed at 0.250 in
// (6.35 mm).
func TestBlindHole(t *testing.T) {
	m3 := thread.MustParse("M3")
	for tap, want := range map[thread.Tap][2]float64{thread.TaperTap: {4.12, 3.62}, thread.SecondTap: {6.12, 5.62}, thread.BottomingTap: {6.87, 6.37}} {
		h, err := m3.ThreadInBlindHole(units.Inch(0.3), tap)
		if err != nil || math.Abs(h.Jam.MM()-want[0]) > 0.001 || math.Abs(h.Thread.MM()-want[1]) > 0.001 {
			t.Errorf("%v tap: %v, %v; want %v", tap, h, err, want)
		}
		back, err := m3.BlindHoleFor(h.Thread, tap)
		if err != nil || back.Depth != units.Inch(0.3) || back != h {
			t.Errorf("%v tap: %v needs %v, %v", tap, h.Thread, back, err)
		}
	}
	if h, _ := m3.ThreadInBlindHole(units.Inch(0.3), thread.SecondTap); h.Diameters < 1.7 || h.Diameters > 2 {
		t.Errorf("%.2f diameters of thread", h.Diameters)
	}
	if got := strings.Join(thread.BrokenTap(metal(t, "aluminium")), " "); !strings.Contains(got, "alum dissolves") || !strings.Contains(got, "extraction") {
		t.Errorf("aluminium: %s", got)
	}
	if got := strings.Join(thread.BrokenTap(metal(t, "mild steel")), " "); !strings.Contains(got, "would dissolve a steel") {
		t.Errorf("steel: %s", got)
	}
	if small, large := m3.TappingCautions(true), thread.MustParse("M8").TappingCautions(false); len(small) != len(large)+2 {
		t.Errorf("cautions for a small blind hole: %q", small)
	}
}

// What the charts recommend leaves a thread, but for the drills known to be bad.
func TestChartDrills(t *testing.T) {
	bad := map[string]string{
		"14 BA #70":   "below the minor diameter 0.720 mm",
		"3/8x32 ME Q": "below the minor diameter 8.509 mm",
	}
	verdicts := map[thread.DrillVerdict]int{}
	rows := 0
	for s := thread.MetricCoarse; s <= thread.Acme; s++ {
		for th := range s.All() {
			for _, d := range th.ChartDrills() {
				rows++
				if d.Ref == (source.Ref{}) {
					t.Errorf("%v: a chart without a source", th)
				}
				for _, drill := range d.Tapping {
					if _, taper := th.Taper(); taper {
						if drill.Diameter.Cmp(th.Minor()) > 0 && th.Series() == thread.NPT {
							t.Errorf("%v: %v", th, drill)
						}
						continue
					}
					c, err := th.CheckTappingDrill(drill, thread.FullDepth)
					if err != nil {
						t.Errorf("%v: %v", th, err)
						continue
					}
					verdicts[c.Verdict]++
					key := th.Designation() + " " + drill.Name
					// A drill may be a whisker under the basic minor diameter: half a
					// tenth of a millimetre, or what a numbered drill rounds to.
					if under := th.Minor().Sub(drill.Diameter); under.MM() > 0.07 && bad[key] == "" {
						t.Errorf("%s: %v", key, c)
					}
					if why, ok := bad[key]; ok && !strings.Contains(c.Why, why) {
						t.Errorf("%s: %v", key, c)
					}
				}
				for _, drill := range d.Clearance {
					if c, err := th.ClearanceOf(drill.Diameter); err != nil || c.Room.MM() > min(0.12*th.Major().MM()+0.1, 0.8) {
						t.Errorf("%v through %v: %v, %v", th, drill, c, err)
					}
				}
			}
		}
	}
	if rows != 242 {
		t.Errorf("%d rows of charts belong to listed threads", rows)
	}
	t.Logf("%d rows: %v", rows, verdicts)
}

// The drill for an NPT hole that is not reamed lies between the cores at the
// small end and at the gauge plane.
func TestNPTDrills(t *testing.T) {
	compared := 0
	for th := range thread.NPT.All() {
		taper, _ := th.Taper()
		for _, chart := range th.ChartDrills() {
			small, large := taper.SmallEnd.Sub(th.Depth()), th.Minor()
			if d := chart.Tapping[0].Diameter; d.Cmp(small) <= 0 || d.Cmp(large) >= 0 {
				t.Errorf("%v: %v is not between %v and %v", th, chart.Tapping[0], small, large)
			}
			compared++
		}
	}
	if compared != 9 {
		t.Errorf("%d drills compared", compared)
	}
}

// BS 4186, read in a handbook, is the witness of ISO 273, read elsewhere or
// recalled: they agree but at M12, M14 and M16.
func TestClearanceStandards(t *testing.T) {
	pairs := [][2]thread.ClearanceClass{{thread.FineISO273, thread.CloseBS4186}, {thread.MediumISO273, thread.MediumBS4186}, {thread.CoarseISO273, thread.FreeBS4186}}
	compared, kinds := 0, map[source.Kind]int{}
	for th := range thread.MetricCoarse.All() {
		for i, pair := range pairs {
			iso, err1 := th.ClearanceHole(pair[0])
			bs, err2 := th.ClearanceHole(pair[1])
			if err1 != nil || err2 != nil {
				continue
			}
			compared++
			kinds[iso.Ref.Kind]++
			differ := i > 0 && (th.Major() == units.MM(12) || th.Major() == units.MM(14) || th.Major() == units.MM(16))
			if (iso.Hole != bs.Hole) != differ || differ && bs.Hole.Sub(iso.Hole) != units.MM(0.5) {
				t.Errorf("%v: %v %v, %v %v", th, pair[0], iso.Hole, pair[1], bs.Hole)
			}
		}
	}
	if compared < 80 {
		t.Errorf("%d holes compared", compared)
	}
	t.Logf("%d holes compared, %d of them published in both, %d recalled in ISO 273", compared, kinds[source.Published], kinds[source.FromMemory])
	cover, err := thread.MustParse("6 BA").ClearanceHole(thread.CoverClearance)
	if err != nil || cover.Hole != units.MM(3) || cover.Position != units.MM(0.1) {
		t.Errorf("cover: %v, %v", cover, err)
	}
	chart, err := thread.MustParse("2 BA").ClearanceHole(thread.ChartClearance)
	if err != nil || chart.Hole != size(t, "#10").Diameter {
		t.Errorf("chart: %v, %v", chart, err)
	}
}

// A hole and its share are inverse on every basis, and bases convert back.
func TestTappingRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"M3", "M10x1", "1/4-20", "2 BA", "1/4 BSF", "1/4x40 ME", "G 1/8", "Tr 10x2", "1/8x40 BSC"}).Draw(t, "thread")
		basis := rapid.SampledFrom([]thread.Basis{thread.FullDepth, thread.InternalHeight, thread.ThreeQuarterHeight}).Draw(t, "basis")
		share := rapid.Float64Range(0.05, 1).Draw(t, "share")
		th := thread.MustParse(name)
		hole, err := th.TappingHole(share, basis)
		if err != nil {
			return
		}
		back, err := th.DepthOfThread(hole, basis)
		if err != nil || math.Abs(back-share) > 1e-8 {
			t.Fatalf("%s, %.4f of %v: hole %v is %.10f, %v", name, share, basis, hole, back, err)
		}
		for _, other := range []thread.Basis{thread.FullDepth, thread.InternalHeight} {
			there, err1 := th.ConvertDepth(share, basis, other)
			again, err2 := th.ConvertDepth(there, other, basis)
			if err1 != nil || err2 != nil || math.Abs(again-share) > 1e-12 {
				t.Fatalf("%s: %v to %v: %v, %v, %v, %v", name, basis, other, there, again, err1, err2)
			}
		}
	})
}

func TestTappingText(t *testing.T) {
	roundTrip(t, []thread.Basis{thread.FullDepth, thread.InternalHeight, thread.ThreeQuarterHeight})
	roundTrip(t, []thread.Tap{thread.TaperTap, thread.SecondTap, thread.BottomingTap})
	roundTrip(t, []thread.ClearanceClass{thread.FineISO273, thread.MediumISO273, thread.CoarseISO273, thread.CloseBS4186, thread.MediumBS4186, thread.FreeBS4186, thread.ChartClearance, thread.CoverClearance})
	roundTrip(t, []thread.Form{thread.FormISO, thread.FormUnified, thread.FormWhitworth, thread.FormBA, thread.FormCycle, thread.FormNPT, thread.FormTrapezoidal, thread.FormAcme})
	var series []thread.Series
	for s := thread.MetricCoarse; s <= thread.Acme; s++ {
		series = append(series, s)
	}
	roundTrip(t, series)
	roundTrip(t, []thread.Thread{thread.MustParse("M3"), thread.MustParse("G 1/8")})
	if got := fmt.Sprint(thread.Basis(9), thread.Tap(9), thread.ClearanceClass(9), thread.Form(99), thread.Series(99), thread.DrillVerdict(9)); got != "Basis(9) Tap(9) ClearanceClass(9) Form(99) Series(99) DrillVerdict(9)" {
		t.Error(got)
	}
}

func roundTrip[T comparable, P interface {
	*T
	UnmarshalText([]byte) error
	MarshalText() ([]byte, error)
}](t *testing.T, values []T) {
	t.Helper()
	for _, v := range values {
		var back T
		text, err := P(&v).MarshalText()
		if err != nil || P(&back).UnmarshalText(text) != nil || back != v {
			t.Errorf("%v: text %q, %v, reads back as %v", v, text, err, back)
		}
	}
	var v, zero T
	if err := P(&v).UnmarshalText([]byte("nonsense")); err == nil || v != zero {
		t.Errorf("%T reads nonsense as %v", v, v)
	}
}
