package thread

import (
	"testing"

	"github.com/valvechest/valvechest/units/material"
)

// Depths of thread by material as users of taps hold them, on three quarters of
// the height: common practice.
func TestAdvisedDepth(t *testing.T) {
	for _, test := range []struct {
		material string
		min, max float64
		hard     bool
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
		got, err := AdvisedDepthFor(m)
		if err != nil || got.Min != test.min || got.Max != test.max || got.Hard != test.hard {
			t.Errorf("%s: %+v, %v; want %g to %g, hard %v", test.material, got, err, test.min, test.max, test.hard)
		}
	}
}
