package screwcut

import (
	"math"
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
	if !PitchErrorOnDiameter(thread.Thread{}, units.MM(1)).IsZero() {
		t.Error("no thread has an error of pitch")
	}
}
