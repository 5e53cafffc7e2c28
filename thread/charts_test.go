package thread_test

import (
	"math"
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
	if rows == 0 {
		t.Error("no charts")
	}
	t.Logf("%d rows: %v", rows, verdicts)
}

// A chart headed 65 to 75 % thread gives up to 85 % of three quarters of the
// height, and two of its drills are under the least minor diameter of 2B; it says so
// wherever it is shown. The drills of a tap maker, which stand beside them, are not.
func TestChartOfSharesThatItDoesNotGive(t *testing.T) {
	under, drills := map[string][]string{}, map[string]int{}
	least, most := 1.0, 0.0
	for _, s := range []thread.Series{thread.UNC, thread.UNF} {
		for th := range s.All() {
			for _, d := range th.ChartDrills() {
				ref := d.Refs.First()
				selector := ref.Title == "Tap drill selector chart"
				if !selector && !strings.HasPrefix(ref.Title, "Technical data of a tap maker") {
					continue
				}
				drills[ref.Title]++
				share, err1 := th.DepthOfThread(d.Tapping[0].Diameter, thread.ThreeQuarterHeight)
				l, err2 := th.Limits("2B")
				if err1 != nil || err2 != nil {
					t.Fatal(err1, err2)
				}
				if d.Tapping[0].Diameter.Cmp(l.Minor.Min) < 0 {
					under[ref.Title] = append(under[ref.Title], th.Designation())
				}
				if selector {
					least, most = min(least, share), max(most, share)
					for _, says := range []string{"gives 66 to 85 %", "2B for 3-48 and 4-48"} {
						if !strings.Contains(ref.Note, says) {
							t.Errorf("%v: %q does not say %q", th, ref.Note, says)
						}
					}
				}
			}
		}
	}
	if math.Floor(100*least) != 66 || math.Round(100*most) != 85 {
		t.Errorf("from %.1f to %.1f %%", 100*least, 100*most)
	}
	if got := strings.Join(under["Tap drill selector chart"], ", "); got != "3-48 UNC, 4-48 UNF" || len(under) != 1 {
		t.Errorf("under the least minor diameter: %v", under)
	}
	if len(drills) != 2 || drills["Tap drill selector chart"] != 24 {
		t.Errorf("%v", drills)
	}
}
