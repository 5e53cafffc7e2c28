package thread

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// The usable range over the pitch: for 60 degrees handbooks print 0.505182,
// 0.577350 and 1.010363, for Whitworth 0.8527 at most, for Acme 0.487263 to
// 0.650013 (recalled).
func TestWireRange(t *testing.T) {
	for _, tt := range []struct {
		thread            string
		least, best, most float64
	}{
		{"M64", 0.50518, 0.57735, 1.01036},
		{"1-8 UNC", 0.50518, 0.57735, 1.01036},
		{"1 BSW", 0, 0.56369, 0.85273},
		{"0 BA", 0, 0.54626, 0},
		{"1-5 Acme", 0.48726, 0.51645, 0.65001},
		{"Tr 10x2", 0, 0.51764, 0},
	} {
		th := MustParse(tt.thread)
		w := th.Wires()
		for _, v := range []struct {
			name string
			got  units.Length
			want float64
		}{{"least", w.Least, tt.least}, {"best", w.Best, tt.best}, {"most", w.Most, tt.most}} {
			// Basic sizes are rounded, by up to half a micrometre or 1.3.
			if got := v.got.Ratio(th.Pitch()); v.want != 0 && math.Abs(got-v.want) > 0.0008 {
				t.Errorf("%s: %s wire %.5f P, want %.5f", tt.thread, v.name, got, v.want)
			}
		}
	}
	for series := MetricCoarse; series <= Acme; series++ {
		for th := range series.All() {
			if w := th.Wires(); w.Least.Cmp(w.Best) >= 0 || w.Best.Cmp(w.Most) >= 0 {
				t.Errorf("%v: wires %v, %v, %v", th, w.Least, w.Best, w.Most)
			}
			// The least wire does not touch the bottom of the groove.
			g, w := th.groove(), th.Wires().Least.MM()
			bottom := th.PitchDiameter().MM()/2 + w/2/math.Sin(g.half) - g.pitch/4/math.Tan(g.half) - w/2
			if bottom < th.Root().MM()/2 {
				t.Errorf("%v: a wire of %.4f mm reaches a radius of %.4f, the root is at %.4f", th, w, bottom, th.Root().MM()/2)
			}
		}
	}
}

// A trade article measures a 9/16-18 UNF screw over wires of 0.0395 in. Its
// constant is right, 3W - 1.5155 P = 0.0343; but it adds that to the limits of
// the major diameter, 0.561 and 0.552, and accepts 0.595 down to 0.586. The
// limits of the pitch diameter in class 2A are 0.5250 and 0.5205.
func TestWindowFromPitchDiameter(t *testing.T) {
	th := MustParse("9/16-18 UNF")
	wire := units.Inch(0.0395)
	if w := th.Wires(); wire.Cmp(w.Least) < 0 || wire.Cmp(w.Most) > 0 ||
		math.Abs(w.Least.Inch()-0.0281) > 0.00006 || math.Abs(w.Best.Inch()-0.0321) > 0.00006 || math.Abs(w.Most.Inch()-0.0561) > 0.00006 {
		t.Errorf("wires %v, want 0.0281, 0.0321, 0.0561 in", w)
	}
	basic, err := th.OverWires(th.PitchDiameter(), wire, NoLeadCorrection)
	if err != nil || math.Abs(basic.Sub(th.Major()).Inch()-0.0343) > 0.00006 {
		t.Errorf("over wires less major diameter %.5f in, %v; the article has 0.0343", basic.Sub(th.Major()).Inch(), err)
	}
	limits, err := th.Limits("2A")
	if err != nil {
		t.Fatal(err)
	}
	window, err := th.WireWindow(limits.PitchDiameter.Min, limits.PitchDiameter.Max, wire, NoLeadCorrection)
	if err != nil || math.Abs(window.Max.Inch()-0.5954) > 0.0001 || math.Abs(window.Min.Inch()-0.5909) > 0.0001 {
		t.Errorf("window %.5f to %.5f in, %v; want 0.5909 to 0.5954", window.Min.Inch(), window.Max.Inch(), err)
	}
	if window.Holds(units.Inch(0.586)) || !window.Holds(units.Inch(0.593)) {
		t.Error("the window holds 0.586 or not 0.593 in")
	}
	// 0.552 + 0.0343: a screw that the article passes.
	small, err := th.PitchDiameterOverWires(units.Inch(0.5863), wire, NoLeadCorrection)
	if under := limits.PitchDiameter.Min.Sub(small).Thou(); err != nil || math.Abs(under-4.6) > 0.05 {
		t.Errorf("a screw that measures 0.5863 in is %.2f thou under the least pitch diameter, %v; want 4.6", under, err)
	}
}

func TestOverWiresProperties(t *testing.T) {
	var all []Thread
	for series := MetricCoarse; series <= Acme; series++ {
		for th := range series.All() {
			if _, taper := th.Taper(); !taper {
				all = append(all, th)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		th := rapid.SampledFrom(all).Draw(t, "thread")
		w := th.Wires()
		wire := w.Least.Add(w.Most.Sub(w.Least).Scale(rapid.Float64Range(0.01, 0.99).Draw(t, "wire")))
		e := th.PitchDiameter().Sub(th.Depth().Scale(rapid.Float64Range(-0.1, 0.2).Draw(t, "under")))
		for c := NoLeadCorrection; c <= HelicoidLeadCorrection; c++ {
			over, err := th.OverWires(e, wire, c)
			if err != nil {
				t.Fatal(err)
			}
			back, err := th.PitchDiameterOverWires(over, wire, c)
			if err != nil || back.Sub(e).Abs().Micron() > 0.0001 {
				t.Fatalf("%v, %v: %v comes back as %v, %v", th, c, e, back, err)
			}
		}
	})
}

// On the threads of an engine the lead angle is worth less than a micrometer
// shows; on a coarse traversing screw it is worth several hundredths.
func TestLeadCorrectionMatters(t *testing.T) {
	for _, tt := range []struct {
		thread      string
		least, most float64 // micrometres
	}{
		{"M6", 0, 4}, {"2 BA", 0, 5}, {"1/4x40 ME", 0, 1}, {"Tr 10x2", 3, 12}, {"1-5 Acme", 3, 25},
	} {
		th := MustParse(tt.thread)
		plain, errP := th.OverWires(th.PitchDiameter(), th.BestWire(), NoLeadCorrection)
		solved, errS := th.OverWires(th.PitchDiameter(), th.BestWire(), HelicoidLeadCorrection)
		if errP != nil || errS != nil {
			t.Fatal(errP, errS)
		}
		if got := solved.Sub(plain).Abs().Micron(); got < tt.least || got > tt.most {
			t.Errorf("%s: the lead angle is worth %.2f um, want %g to %g", tt.thread, got, tt.least, tt.most)
		}
	}
}

func TestOverWiresRefuses(t *testing.T) {
	m6 := MustParse("M6")
	for _, tt := range []struct {
		name    string
		th      Thread
		e, wire units.Length
		c       LeadCorrection
		want    string
	}{
		{"no thread", Thread{}, units.MM(5), units.MM(0.5), 0, "thread"},
		{"taper", MustParse("1/8 NPT"), units.MM(9.5), units.MM(0.5), 0, "taper"},
		{"thin wire", m6, units.MM(5.35), units.MM(0.3), 0, "best 0.5774 mm"},
		{"thick wire", m6, units.MM(5.35), units.MM(1.2), 0, "wire for M6x1"},
		{"major for pitch diameter", m6, units.MM(6), units.MM(0.58), 0, "pitch diameter"},
		{"no correction", m6, units.MM(5.35), units.MM(0.58), 9, "none, H28, helicoid"},
	} {
		if got, err := tt.th.OverWires(tt.e, tt.wire, tt.c); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, %v; want %q", tt.name, got, err, tt.want)
		}
		if got, err := tt.th.PitchDiameterOverWires(tt.e.Add(units.MM(3)), tt.wire, tt.c); err == nil {
			t.Errorf("%s, inverse: %v", tt.name, got)
		}
	}
	if _, err := m6.WireWindow(units.MM(5.4), units.MM(5.3), units.MM(0.58), 0); err == nil || !strings.Contains(err.Error(), "above the largest") {
		t.Errorf("limits the wrong way round: %v", err)
	}
}

func TestLeadCorrectionText(t *testing.T) {
	for c := NoLeadCorrection; c <= HelicoidLeadCorrection; c++ {
		text, err := c.MarshalText()
		var back LeadCorrection
		if err != nil || back.UnmarshalText(text) != nil || back != c {
			t.Errorf("%v: %s, %v, %v", int(c), text, err, back)
		}
	}
	if _, err := ParseLeadCorrection("some"); err == nil || !strings.Contains(err.Error(), "helicoid") {
		t.Errorf("some: %v", err)
	}
}

func TestPitchErrorOnDiameter(t *testing.T) {
	for _, tt := range []struct {
		thread string
		factor float64
	}{{"M6", 1.732}, {"1/4 BSW", 1.921}, {"2 BA", 2.273}} {
		if got := MustParse(tt.thread).PitchErrorOnDiameter(units.Micron(-10)).Micron(); math.Abs(got-10*tt.factor) > 0.01 {
			t.Errorf("%s: 10 um of pitch is %.3f um on the diameter, want %.2f", tt.thread, got, 10*tt.factor)
		}
	}
}

func TestErrataOfMeasuring(t *testing.T) {
	g := groove{half: 30 * degree, pitch: 0.25, lead: 0.25}
	pitchDiameter := 2.75 - 0.75*math.Sqrt(3)/2*0.25
	check.Errata(t, "thread/measure", map[string]float64{
		"over-wires-2-3_4-4": g.over(pitchDiameter, 0.150, NoLeadCorrection),
	})
}

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
		th := MustParse(tt.thread)
		got, err := th.CutDepth(ToolTip{Radius: th.Pitch().Scale(tt.radius)})
		// Basic diameters and some depths are rounded to a few micrometres.
		if err != nil || got.Depth.Sub(th.Depth()).Abs().Micron() > 3 || !got.Clears || got.Design != th.Depth() {
			t.Errorf("%s: %+v, %v; want %v", tt.thread, got, err, th.Depth())
		}
		sharp, err := th.CutDepth(ToolTip{})
		if err != nil || sharp.Depth.Cmp(got.Depth) <= 0 || !sharp.Clears {
			t.Errorf("%s, sharp tool: %+v, %v", tt.thread, sharp, err)
		}
		blunt, err := th.CutDepth(ToolTip{Flat: th.Pitch().Scale(0.3)})
		if err != nil || blunt.Clears || blunt.Depth.Cmp(got.Depth) >= 0 {
			t.Errorf("%s, flat of 0.3 P: %+v, %v", tt.thread, blunt, err)
		}
	}
	// A flat of an eighth of the pitch is the basic form's own: 0.6495 P.
	m8 := MustParse("M8")
	if got, err := m8.CutDepth(ToolTip{Flat: m8.Pitch().Scale(1.0 / 8)}); err != nil || math.Abs(got.Depth.Ratio(m8.Pitch())-0.6495) > 0.0005 {
		t.Errorf("M8, flat P/8: %+v, %v", got, err)
	}
	for _, bad := range []ToolTip{{Flat: units.MM(-1)}, {Flat: units.MM(0.1), Radius: units.MM(0.1)}, {Flat: units.MM(0.7)}, {Radius: units.MM(1)}} {
		if got, err := m8.CutDepth(bad); err == nil {
			t.Errorf("%+v: %+v", bad, got)
		}
	}
}

func TestThreadLead(t *testing.T) {
	for _, tt := range []struct{ thread, want string }{
		{"M8", "1.25 mm"}, {"1/4-20 UNC", "20 tpi"}, {"1/8-27 NPT", "27 tpi"}, {"1/2 NPT", "14 tpi"},
		{"1 NPT", "11.5 tpi"}, {"2 BA", "0.81 mm"}, {"1/4x40 ME", "40 tpi"}, {"Tr 10x2", "2 mm"},
	} {
		if got := MustParse(tt.thread).Lead(); got.String() != tt.want {
			t.Errorf("%s: lead %v, want %s", tt.thread, got, tt.want)
		}
	}
	if got := (Thread{}).Lead(); got != (Lead{}) {
		t.Errorf("no thread: %v", got)
	}
}

// The zero Thread is no thread: errors and zero sizes, never a panic.
func TestNoThread(t *testing.T) {
	var none Thread
	if none.Wires() != (WireRange{}) || !none.BestWire().IsZero() || !none.PitchErrorOnDiameter(units.MM(1)).IsZero() || none.StressArea().Area != 0 {
		t.Error("no thread has sizes")
	}
	if got := Distinguish(none, none, units.MM(0.01), units.MM(0.01)); len(got) != 0 {
		t.Errorf("no thread is told from itself by %v", got)
	}
	for name, err := range map[string]error{
		"OverWires":              second(none.OverWires(units.MM(5), units.MM(0.5), 0)),
		"PitchDiameterOverWires": second(none.PitchDiameterOverWires(units.MM(5), units.MM(0.5), 0)),
		"WireWindow":             second(none.WireWindow(units.MM(5), units.MM(5.1), units.MM(0.5), 0)),
		"CutDepth":               second(none.CutDepth(ToolTip{})),
		"Hexagon":                second(none.Hexagon()),
		"BoltStrength":           second(none.BoltStrength("8.8")),
		"TorqueForPull":          second(none.TorqueForPull(1000, DryThreads())),
		"PullFromTorque":         second(none.PullFromTorque(1, DryThreads())),
		"NutFactorFromFriction":  second(none.NutFactorFromFriction(0.1, 0.1, units.Length{})),
		"TappingTorque":          second(none.TappingTorque(units.MM(5), "Ck 45", SecondTap)),
		"EngagementByRule":       second(none.EngagementByRule(BrassIronSteel)),
		"Engagement":             second(Joint{Stud: units.Megapascal, Nut: units.Megapascal}.Engagement()),
		"Mate":                   second(Mate(none, none)),
		"Substitutes":            second(Substitutes(none)),
	} {
		if err == nil || err.Error() != noThread().Error() {
			t.Errorf("%s: error %v, want %v", name, err, noThread())
		}
	}
}

func second[T any](_ T, err error) error { return err }
