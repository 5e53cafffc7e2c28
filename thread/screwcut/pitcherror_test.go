package screwcut

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

func TestPitchErrorOnDiameter(t *testing.T) {
	for _, tt := range []struct {
		thread string
		factor float64
	}{{"M6", 1.732}, {"1/4 BSW", 1.921}, {"2 BA", 2.273}} {
		if got := PitchErrorOnDiameter(thread.MustParse(tt.thread),
			units.Micron(-10)).Micron(); math.Abs(got-10*tt.factor) > 0.01 {
			t.Errorf("%s: 10 um of pitch is %.3f um on the diameter, want %.2f", tt.thread, got, 10*tt.factor)
		}
	}
}
