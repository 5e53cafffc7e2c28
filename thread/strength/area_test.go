package strength

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// BA, Whitworth and the rest: their derived stress area lies between the core
// and the pitch diameter's circle, as every stress area does.
func TestStressAreaLiesBetween(t *testing.T) {
	for series := thread.MetricCoarse; series <= thread.Acme; series++ {
		for th := range series.All() {
			area := float64(StressAreaOf(th).Area)
			circle := func(d units.Length) float64 { return math.Pi / 4 * d.Metres() * d.Metres() }
			if area <= circle(th.Root()) || area >= circle(th.PitchDiameter()) {
				t.Errorf("%v: stress area %.4g m2 between core %.4g and pitch circle %.4g", th, area, circle(th.Root()),
					circle(th.PitchDiameter()))
			}
		}
	}
}
