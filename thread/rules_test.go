package thread

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// Depths of thread by material as users of taps hold them, on three quarters of
// the height: common practice.
func TestAdvisedDepth(t *testing.T) {
	for _, test := range []struct {
		material    string
		least, most float64
		hard        bool
	}{
		{"stainless steel 304", 0.50, 0.50, true},
		{"tool steel", 0.55, 0.55, true},
		{"silver steel", 0.55, 0.60, true},
		{"mild steel", 0.60, 0.65, false},
		{"aluminium", 0.65, 0.65, false},
		{"brass", 0.70, 0.70, false},
		{"gunmetal", 0.65, 0.70, false},
		{"cast iron", 0.70, 0.75, false},
	} {
		m, err := material.Lookup(test.material)
		if err != nil {
			t.Error(err)
			continue
		}
		got, err := AdvisedDepth(m)
		if err != nil || got.Least != test.least || got.Most != test.most || got.Hard != test.hard {
			t.Errorf("%s: %+v, %v; want %g to %g, hard %v", test.material, got, err, test.least, test.most, test.hard)
		}
	}
}

// A rounded crest is tangent to both flanks and stands as far inside the sharp
// triangle as the depth of thread leaves: r (1/sin A - 1) = (H - depth)/2.
func TestCrestRadiusIsTangent(t *testing.T) {
	for _, name := range []string{"1/2 BSW", "1/4 BSF", "1/4x40 ME", "0 BA", "1/4x26 BSC"} {
		th := MustParse(name)
		p := th.Pitch().MM()
		depth := map[Form]float64{FormWhitworth: 0.640327, FormBA: 0.6, FormCycle: 0.5327}[th.Form()] * p
		cut := (th.Form().FundamentalHeight(th.Pitch()).MM() - depth) / 2
		if want := cut / (1/math.Sin(th.halfAngle()) - 1); math.Abs(th.crestRadius()-want) > 1e-4*p {
			t.Errorf("%s: radius %.5f mm, tangent with %.5f", name, th.crestRadius(), want)
		}
	}
}

// What Identify allows a crest is near what class 6g does.
func TestCrestAllowanceIsNear6g(t *testing.T) {
	compared := 0
	for th := range MetricCoarse.All() {
		l, err := th.Limits("6g")
		if err != nil {
			continue
		}
		compared++
		if want := th.Major().Sub(l.Major.Min).MM(); math.Abs(crestAllowance(th)/want-1) > 0.1 {
			t.Errorf("%v: %.3f mm, 6g has %.3f", th, crestAllowance(th), want)
		}
	}
	if compared < 25 {
		t.Errorf("only %d sizes", compared)
	}
}

// K is common practice, the scatter that of the article the doc comment names.
func TestNutFactors(t *testing.T) {
	if got := DryThreads(); got.K != 0.20 || got.Scatter != 0.35 || got.Ref.Kind != source.CommonPractice {
		t.Errorf("dry: %+v", got)
	}
	if got := OiledThreads(); got.K != 0.15 || got.Scatter != 0.25 || got.Ref.Kind != source.CommonPractice {
		t.Errorf("oiled: %+v", got)
	}
}
