package thread_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units/finding"
)

// What the charts recommend leaves a thread, but for the drills known to be bad.
func TestChartDrills(t *testing.T) {
	bad := map[string]string{
		"14 BA #70":   "below the minor diameter 0.720 mm",
		"3/8x32 ME Q": "below the minor diameter 8.509 mm",
	}
	verdicts := map[finding.Code]int{}
	rows := 0
	for s := thread.MetricCoarse; s <= thread.Acme; s++ {
		for th := range s.All() {
			for _, d := range th.ChartDrills() {
				rows++
				if d.Refs.IsZero() {
					t.Errorf("%v: a chart without a source", th)
				}
				for _, drill := range d.Tapping {
					c, err := th.CheckTappingDrill(drill, thread.FullDepth)
					if err != nil {
						t.Errorf("%v: %v", th, err)
						continue
					}
					verdicts[verdict(c)]++
					key := th.Designation() + " " + drill.Name
					// A drill may be a whisker under the basic minor diameter: half a
					// tenth of a millimetre, or what a numbered drill rounds to.
					if under := th.Minor().Sub(drill.Diameter); under.MM() > 0.07 && bad[key] == "" {
						t.Errorf("%s: %v", key, c)
					}
					if why, ok := bad[key]; ok && !strings.Contains(c.String(), why) {
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
	if rows != 226 { // and 16 for taper pipes, in PipeHoles
		t.Errorf("%d rows of charts belong to listed threads", rows)
	}
	t.Logf("%d rows: %v", rows, verdicts)
}
