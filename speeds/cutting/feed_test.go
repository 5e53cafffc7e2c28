package cutting_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
)

// A drill at 0.1 mm a turn and 800 rev/min.
func ExampleFeedSpeed() {
	vf, err := cutting.FeedSpeed(800*units.RevPerMinute, units.MM(0.1))
	fmt.Printf("%.0f mm/min %v\n", vf.In(units.MillimetrePerMinute), err)
	// Output: 80 mm/min <nil>
}

// A cutter of two teeth at 0.025 mm a tooth and 1000 rev/min, and back.
func ExampleTableFeed() {
	vf, err := cutting.TableFeed(1000*units.RevPerMinute, units.MM(0.025), 2)
	fmt.Printf("%.0f mm/min %v\n", vf.In(units.MillimetrePerMinute), err)
	fz, err := cutting.FeedPerTooth(vf, 1000*units.RevPerMinute, 2)
	fmt.Println(fz, err)
	// Output:
	// 50 mm/min <nil>
	// 0.025 mm <nil>
}

func TestTableFeed(t *testing.T) {
	f := check.Open(t, "speeds/cutting/table_feed.csv")
	for r := range f.Rows() {
		n, teeth := units.RotationalSpeed(r.Float("rpm"))*units.RevPerMinute, int(r.Float("teeth"))
		fz := length(r, "per_tooth", "length_unit")
		vf, err := cutting.TableFeed(n, fz, teeth)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("feed", float64(vf/parse(t, "1 "+r.Text("unit"))))
		back, err := cutting.FeedPerTooth(vf, n, teeth)
		if err != nil || math.Abs(back.MM()-fz.MM()) > 1e-9 {
			t.Errorf("%s: back to %v, %v", r.ID, back, err)
		}
	}
}
