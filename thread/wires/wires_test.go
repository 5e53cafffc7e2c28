package wires

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
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
		th := thread.MustParse(tt.thread)
		w, err := RangeOf(th)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range []struct {
			name string
			got  units.Length
			want float64
		}{{"least", w.Min, tt.least}, {"best", w.Best, tt.best}, {"most", w.Max, tt.most}} {
			// Basic sizes are rounded, by up to half a micrometre or 1.3.
			if got := v.got.Ratio(th.Pitch()); v.want != 0 && math.Abs(got-v.want) > 0.0008 {
				t.Errorf("%s: %s wire %.5f P, want %.5f", tt.thread, v.name, got, v.want)
			}
		}
	}
	for series := thread.MetricCoarse; series <= thread.Acme; series++ {
		for th := range series.All() {
			if w, err := rangeOf(th); err != nil || w.Min.Cmp(w.Best) >= 0 || w.Best.Cmp(w.Max) >= 0 {
				t.Errorf("%v: wires %v, %v, %v", th, w.Min, w.Best, w.Max)
			}
			// The least wire does not touch the bottom of the groove.
			least, _ := rangeOf(th)
			g, w := grooveOf(th), least.Min.MM()
			bottom := th.PitchDiameter().MM()/2 + w/2/math.Sin(g.half) - g.pitch/4/math.Tan(g.half) - w/2
			if bottom < th.Root().MM()/2 {
				t.Errorf("%v: a wire of %.4f mm reaches a radius of %.4f, the root is at %.4f", th, w, bottom, th.Root().MM()/2)
			}
		}
	}
}

// TH-12: a trade article measures a 9/16-18 UNF screw over wires of 0.0395 in. Its
// constant is right, 3W - 1.5155 P = 0.0343; but it adds that to the limits of
// the major diameter, 0.561 and 0.552, and accepts 0.595 down to 0.586. The
// limits of the pitch diameter in class 2A are 0.5250 and 0.5205.
func TestWindowFromPitchDiameter(t *testing.T) {
	th := thread.MustParse("9/16-18 UNF")
	wire := units.Inch(0.0395)
	if w, err := RangeOf(th); err != nil || wire.Cmp(w.Min) < 0 || wire.Cmp(w.Max) > 0 ||
		math.Abs(w.Min.Inch()-0.0281) > 0.00006 || math.Abs(w.Best.Inch()-0.0321) > 0.00006 ||
		math.Abs(w.Max.Inch()-0.0561) > 0.00006 {
		t.Errorf("wires %v, want 0.0281, 0.0321, 0.0561 in", w)
	}
	set := Set{Thread: th, Wire: wire}
	basic, err := set.Over(th.PitchDiameter())
	if err != nil || math.Abs(basic.Sub(th.Major()).Inch()-0.0343) > 0.00006 {
		t.Errorf("over wires less major diameter %.5f in, %v; the article has 0.0343", basic.Sub(th.Major()).Inch(), err)
	}
	limits, err := th.Limits("2A")
	if err != nil {
		t.Fatal(err)
	}
	window, err := set.Window(limits.PitchDiameter)
	if err != nil || math.Abs(window.Max.Inch()-0.5954) > 0.0001 || math.Abs(window.Min.Inch()-0.5909) > 0.0001 {
		t.Errorf("window %.5f to %.5f in, %v; want 0.5909 to 0.5954", window.Min.Inch(), window.Max.Inch(), err)
	}
	if window.Contains(units.Inch(0.586)) || !window.Contains(units.Inch(0.593)) {
		t.Error("the window holds 0.586 or not 0.593 in")
	}
	// 0.552 + 0.0343: a screw that the article passes.
	small, err := set.PitchDiameter(units.Inch(0.5863))
	if under := limits.PitchDiameter.Min.Sub(small).Thou(); err != nil || math.Abs(under-4.6) > 0.05 {
		t.Errorf("a screw that measures 0.5863 in is %.2f thou under the least pitch diameter, %v; want 4.6", under, err)
	}
}

func TestOverWiresProperties(t *testing.T) {
	var all []thread.Thread
	for series := thread.MetricCoarse; series <= thread.Acme; series++ {
		for th := range series.All() {
			if _, taper := th.Taper(); !taper {
				all = append(all, th)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		th := rapid.SampledFrom(all).Draw(t, "thread")
		w, err := RangeOf(th)
		if err != nil {
			t.Fatal(err)
		}
		wire := w.Min.Add(w.Max.Sub(w.Min).Scale(rapid.Float64Range(0.01, 0.99).Draw(t, "wire")))
		e := th.PitchDiameter().Sub(th.Depth().Scale(rapid.Float64Range(-0.1, 0.2).Draw(t, "under")))
		for c := NoLeadCorrection; c <= HelicoidLeadCorrection; c++ {
			set := Set{Thread: th, Wire: wire, Lead: c}
			over, err := set.Over(e)
			if err != nil {
				t.Fatal(err)
			}
			back, err := set.PitchDiameter(over)
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
		th := thread.MustParse(tt.thread)
		w, err := RangeOf(th)
		plain, errP := Set{Thread: th, Wire: w.Best}.Over(th.PitchDiameter())
		solved, errS := Set{Thread: th, Wire: w.Best, Lead: HelicoidLeadCorrection}.Over(th.PitchDiameter())
		if err != nil || errP != nil || errS != nil {
			t.Fatal(err, errP, errS)
		}
		if got := solved.Sub(plain).Abs().Micron(); got < tt.least || got > tt.most {
			t.Errorf("%s: the lead angle is worth %.2f um, want %g to %g", tt.thread, got, tt.least, tt.most)
		}
	}
}

func TestOverWiresRefuses(t *testing.T) {
	m6 := thread.MustParse("M6")
	for _, tt := range []struct {
		name    string
		th      thread.Thread
		e, wire units.Length
		c       LeadCorrection
		want    string
	}{
		{"no thread", thread.Thread{}, units.MM(5), units.MM(0.5), 0, "thread"},
		{"taper", thread.MustParse("1/8 NPT"), units.MM(9.5), units.MM(0.5), 0, "taper"},
		{"thin wire", m6, units.MM(5.35), units.MM(0.3), 0, "best 0.5774 mm"},
		{"thick wire", m6, units.MM(5.35), units.MM(1.2), 0, "wire for M6x1"},
		{"major for pitch diameter", m6, units.MM(6), units.MM(0.58), 0, "pitch diameter"},
		{"no correction", m6, units.MM(5.35), units.MM(0.58), 9, "none, H28, helicoid"},
	} {
		if got, err := (Set{tt.th, tt.wire, tt.c}).Over(tt.e); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, %v; want %q", tt.name, got, err, tt.want)
		}
		if got, err := (Set{tt.th, tt.wire, tt.c}).PitchDiameter(tt.e.Add(units.MM(3))); err == nil {
			t.Errorf("%s, inverse: %v", tt.name, got)
		}
	}
	if _, err := (Set{Thread: m6, Wire: units.MM(0.58)}).Window(thread.Range{Min: units.MM(5.4),
		Max: units.MM(5.3)}); err == nil || !strings.Contains(err.Error(), "above the largest") {
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

func TestErrataOfMeasuring(t *testing.T) {
	g := groove{half: 30 * degree, pitch: 0.25, lead: 0.25}
	pitchDiameter := 2.75 - 0.75*math.Sqrt(3)/2*0.25
	check.Errata(t, "thread/wires", map[string]float64{
		"over-wires-2-3_4-4": g.over(pitchDiameter, 0.150, NoLeadCorrection),
	})
}

// A rounded crest is tangent to both flanks and stands as far inside the sharp
// triangle as the depth of thread leaves: r (1/sin A - 1) = (H - depth)/2.
func TestCrestRadiusIsTangent(t *testing.T) {
	for _, name := range []string{"1/2 BSW", "1/4 BSF", "1/4x40 ME", "0 BA", "1/4x26 BSC"} {
		th := thread.MustParse(name)
		p := th.Pitch().MM()
		depth := map[thread.Form]float64{thread.FormWhitworth: 0.640327, thread.FormBA: 0.6,
			thread.FormCycle: 0.5327}[th.Form()] * p
		cut := (th.Form().FundamentalHeight(th.Pitch()).MM() - depth) / 2
		if want := cut / (1/math.Sin(grooveOf(th).half) - 1); math.Abs(crestRadius(th)-want) > 1e-4*p {
			t.Errorf("%s: radius %.5f mm, tangent with %.5f", name, crestRadius(th), want)
		}
	}
}

// Outside the window either way the screw does not do, and by how much.
func TestWindowCheck(t *testing.T) {
	w := Window{Min: units.MM(15.0085), Max: units.MM(15.1228)}
	for over, want := range map[float64]finding.Code{15.0085: "", 15.05: "", 15.1228: "", 15.13: OverSize, 15: UnderSize} {
		said := w.Check(units.MM(over))
		if w.Contains(units.MM(over)) != (want == "") || said.OK() != (want == "") || want != "" && said[0].Code != want {
			t.Errorf("%g: %v, want %q", over, said, want)
		}
	}
	if text := w.Check(units.MM(15))[0].Text; !strings.Contains(text, "0.0085 mm (0.33 thou)") {
		t.Error(text)
	}
}

// The zero Thread is no thread: an error, never a panic.
func TestNoThread(t *testing.T) {
	none := Set{Wire: units.MM(0.5)}
	for name, err := range map[string]error{
		"RangeOf":       second(RangeOf(none.Thread)),
		"Over":          second(none.Over(units.MM(5))),
		"PitchDiameter": second(none.PitchDiameter(units.MM(5))),
		"Window":        second(none.Window(thread.Range{Min: units.MM(5), Max: units.MM(5.1)})),
	} {
		if want := none.Thread.Validate(); err == nil || err.Error() != want.Error() {
			t.Errorf("%s: error %v, want %v", name, err, want)
		}
	}
}

func second[T any](_ T, err error) error { return err }
