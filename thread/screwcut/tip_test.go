package screwcut

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// The design root of each form, given as the tip of the tool, has the depth of
// the form.
func TestCutDepth(t *testing.T) {
	for _, tt := range []struct {
		thread string
		radius float64 // over the pitch
	}{
		{"M10", 0.1443376},       // H/6, ISO 68-1
		{"1/4-20 UNC", 0.162380}, // 3H/16, tangent to the flanks at B1.1's depth of 11H/16
		{"1/4 BSW", 0.137329},    // BS 84
		{"1/4x40 ME", 0.137329},  // Whitworth form
		{"2 BA", 0.1808346},      // BS 93
		{"G 1/8", 0.137329},      // ISO 228-1
	} {
		th := thread.MustParse(tt.thread)
		got, err := ToolTip{Radius: th.Pitch().Scale(tt.radius)}.DepthFor(th)
		// Basic diameters and some depths are rounded to a few micrometres.
		if err != nil || got.Depth.Sub(th.Depth()).Abs().Micron() > 3 || !got.Findings.OK() || got.Design != th.Depth() {
			t.Errorf("%s: %+v, %v; want %v", tt.thread, got, err, th.Depth())
		}
		sharp, err := (ToolTip{}).DepthFor(th)
		if err != nil || sharp.Depth.Cmp(got.Depth) <= 0 || !sharp.Findings.OK() {
			t.Errorf("%s, sharp tool: %+v, %v", tt.thread, sharp, err)
		}
		blunt, err := ToolTip{Flat: th.Pitch().Scale(0.3)}.DepthFor(th)
		if err != nil || blunt.Findings.OK() || blunt.Depth.Cmp(got.Depth) >= 0 {
			t.Errorf("%s, flat of 0.3 P: %+v, %v", tt.thread, blunt, err)
		}
	}
	// A flat of an eighth of the pitch is the basic form's own: 0.6495 P.
	m8 := thread.MustParse("M8")
	if got, err := (ToolTip{Flat: m8.Pitch().Scale(1.0 / 8)}).DepthFor(m8); err != nil ||
		math.Abs(got.Depth.Ratio(m8.Pitch())-0.6495) > 0.0005 {
		t.Errorf("M8, flat P/8: %+v, %v", got, err)
	}
	for _, bad := range []ToolTip{{Flat: units.MM(-1)}, {Flat: units.MM(0.1), Radius: units.MM(0.1)},
		{Flat: units.MM(0.7)}, {Radius: units.MM(1)}} {
		if got, err := bad.DepthFor(m8); err == nil {
			t.Errorf("%+v: %+v", bad, got)
		}
	}
}

func TestNoThread(t *testing.T) {
	if _, err := (ToolTip{}).DepthFor(thread.Thread{}); err == nil || err.Error() != (thread.Thread{}).Validate().Error() {
		t.Errorf("depth for no thread: %v", err)
	}
	if got, err := PitchErrorOnDiameter(thread.Thread{}, units.MM(1)); err != nil || !got.IsZero() {
		t.Errorf("no thread has an error of pitch: %v, %v", got, err)
	}
	if got, err := GroundTips(thread.Thread{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("tips for no thread: %v, %v", got, err)
	}
}

// The tool decides how far the slide travels: 40 threads to the inch with the three
// tips that people grind, metric and Whitworth likewise. Worked out by hand from
// depth / cos set; c + P/4 cot A is 7H/8 of 60 degrees, where H = 0.8660254 P, and
// 5H/6 of 55, where H = 0.9604906 P; a flat of P/8 takes H/8 off it, and a root of
// the form H/6 (metric), 3H/16 (UNR) and H/6 (Whitworth).
func TestInfeedByTip(t *testing.T) {
	const sixty, fiftyfive = 0.8660254, 0.9604906 // H over the pitch
	for _, tt := range []struct {
		name, thread string
		set          units.Angle
		thou         []float64 // along the slide, in the order of GroundTips
	}{
		{"TH-15 at 29.5 degrees", "4-40 UNC", 29.5 * units.Degree, []float64{21.8, 18.7, 17.1}},
		{"TH-15 at 29 degrees", "4-40 UNC", 29 * units.Degree, []float64{21.7, 18.6, 17.0}},
		{"TH-15 metric, pitch 1 mm", "M6", 30 * units.Degree, []float64{
			1000 / 25.4 * sixty * 7 / 8 / math.Cos(math.Pi/6), 1000 / 25.4 * sixty * 6 / 8 / math.Cos(math.Pi/6),
			1000 / 25.4 * sixty * 17 / 24 / math.Cos(math.Pi/6)}},
		{"TH-15 Whitworth, 40 tpi", "1/4x40 ME", 0, []float64{
			25 * fiftyfive * 5 / 6, 25 * fiftyfive * (5.0/6 - 1.0/8), 25 * fiftyfive * 2 / 3}},
	} {
		th := thread.MustParse(tt.thread)
		tips, err := GroundTips(th)
		if err != nil || len(tips) != len(tt.thou) {
			t.Errorf("%s: %v, %v", tt.name, tips, err)
			continue
		}
		for i, ground := range tips {
			cut, err := ground.Tip.DepthFor(th)
			if err != nil || !cut.Findings.OK() {
				t.Errorf("%s, %s: %v, %v", tt.name, ground.Name, cut, err)
				continue
			}
			travel, err := InfeedAlongSlide(cut.Depth, tt.set)
			if err != nil || math.Abs(travel.Thou()-tt.thou[i]) > 0.05 {
				t.Errorf("%s, %s: %.2f thou, %v; want %.2f", tt.name, ground.Name, travel.Thou(), err, tt.thou[i])
			}
		}
	}
}

// Every form has the tips that people grind for it, the deepest first; that of the
// form cuts to the depth of the form.
func TestGroundTips(t *testing.T) {
	for name, want := range map[string]int{
		"M10": 3, "1/4-20 UNC": 3, "1/2 BSW": 3, "2 BA": 3, "1/4x26 BSC": 3, "1/8 NPT": 2, "Tr 10x2": 1, "1/2-10 Acme": 1, "G 1/8": 3,
	} {
		th := thread.MustParse(name)
		tips, err := GroundTips(th)
		if err != nil || len(tips) != want {
			t.Errorf("%s: %v, %v", name, tips, err)
			continue
		}
		last := units.MM(100)
		asForm := false
		for _, ground := range tips {
			cut, err := ground.Tip.DepthFor(th)
			if err != nil || cut.Depth.Cmp(last) >= 0 || !cut.Findings.OK() {
				t.Errorf("%s, %s: %v after %v, %v", name, ground.Name, cut.Depth, last, err)
			}
			last = cut.Depth
			if strings.HasSuffix(ground.Name, "of the form") {
				asForm = true
				// BS 93 and ISO 228 round the depth, BS 93 to 0.005 mm.
				if cut.Depth.Sub(th.Depth()).Abs().Micron() > 2.5 {
					t.Errorf("%s, %s: %v, the form has %v", name, ground.Name, cut.Depth, th.Depth())
				}
			}
		}
		if !asForm {
			t.Errorf("%s: no tip of the form in %v", name, tips)
		}
	}
}

func TestParseToolTip(t *testing.T) {
	for text, want := range map[string]ToolTip{
		"sharp": {}, " Sharp ": {}, "flat 0.1 mm": {Flat: units.MM(0.1)}, "RADIUS 4 thou": {Radius: units.Thou(4)},
		"flat 1/64 in": {Flat: units.InchFraction(1, 64)},
	} {
		if got, err := ParseToolTip(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]error{
		"": units.ErrSyntax, "blunt": units.ErrSyntax, "flat": units.ErrSyntax, "flat 0.1": units.ErrSyntax, "0.1 mm": units.ErrSyntax,
		"flat 0 mm": units.ErrOutOfRange, "radius -1 mm": units.ErrOutOfRange, "flat 26 mm": units.ErrOutOfRange,
		"flat 1 mm, radius 1 mm": units.ErrSyntax,
	} {
		if got, err := ParseToolTip(text); !errors.Is(err, want) || !strings.Contains(err.Error(), "accepted") {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	if both := (ToolTip{Flat: units.MM(1), Radius: units.MM(2)}).String(); both != "flat 1 mm, radius 2 mm" {
		t.Errorf("both: %q", both)
	}
}

func FuzzParseToolTip(f *testing.F) {
	for _, s := range []string{"sharp", "flat 0.1 mm", "radius 4 thou", "flat 1/64 in", "flat", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		tip, err := ParseToolTip(s)
		if err != nil {
			return
		}
		text, err := tip.MarshalText()
		var back ToolTip
		if err != nil || back.UnmarshalText(text) != nil || back != tip {
			t.Errorf("%q: %s reads back as %v, %v", s, text, back, err)
		}
	})
}
