package screwcut

import (
	"errors"
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
		got, err := PitchErrorOnDiameter(thread.MustParse(tt.thread), units.Micron(-10))
		if err != nil || math.Abs(got.Micron()-10*tt.factor) > 0.01 {
			t.Errorf("%s: 10 um of pitch is %v on the diameter, %v, want %.2f um", tt.thread, got, err, 10*tt.factor)
		}
	}
	if got, err := PitchErrorOnDiameter(thread.MustParse("2 BA"), units.Picometres(math.MaxInt64)); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("9000 km: %v, %v", got, err)
	}
}
