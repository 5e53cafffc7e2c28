package cutting_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
)

// 20 mm turned to 16 mm at 0.2 mm and 100 rev/min: a ring of 18 mm mean diameter
// and 2 mm wall is gone, 20 mm of it in a minute; books with the outside diameter
// make it a ninth more.
func ExampleTurningRemoval() {
	d, a, f, n := units.MM(20), units.MM(2), units.MM(0.2), 100*units.RevPerMinute
	q, err := cutting.TurningRemoval(d, a, f, n)
	fmt.Printf("%.2f cm3/min %v\n", q.In(units.CubicCentimetrePerMinute), err)
	q, err = cutting.TurningRemovalOutside(d, a, f, n)
	fmt.Printf("%.2f cm3/min %v\n", q.In(units.CubicCentimetrePerMinute), err)
	// Output:
	// 2.26 cm3/min <nil>
	// 2.51 cm3/min <nil>
}

// A 10 mm drill at 0.1 mm and 800 rev/min: pi/4 x 1 cm2 x 8 cm/min.
func ExampleDrillingRemoval() {
	q, err := cutting.DrillingRemoval(units.MM(10), units.MM(0.1), 800*units.RevPerMinute)
	fmt.Printf("%.2f cm3/min %v\n", q.In(units.CubicCentimetrePerMinute), err)
	// Output: 6.28 cm3/min <nil>
}

// 2 mm deep, 6 mm wide at 50 mm/min.
func ExampleMillingRemoval() {
	q, err := cutting.MillingRemoval(units.MM(2), units.MM(6), 50*units.MillimetrePerMinute)
	fmt.Printf("%.2f cm3/min %v\n", q.In(units.CubicCentimetrePerMinute), err)
	// Output: 0.60 cm3/min <nil>
}

func TestRemoval(t *testing.T) {
	f := check.Open(t, "speeds/cutting/removal.csv")
	for r := range f.Rows() {
		depth, other := length(r, "depth", "unit"), length(r, "other", "unit")
		var q units.VolumeFlow
		var err error
		switch kind := r.Text("kind"); kind {
		case "outside":
			q, err = cutting.TurningRemovalOutside(length(r, "first", "unit"), depth, other,
				units.RotationalSpeed(r.Float("rpm"))*units.RevPerMinute)
		case "speed":
			d := units.MM(100) // any: it cancels
			n, e := speeds.SpindleSpeed(parse(t, r.Text("first")), d)
			if e != nil {
				t.Fatal(e)
			}
			q, err = cutting.TurningRemovalOutside(d, depth, other, n)
		case "milling":
			q, err = cutting.MillingRemoval(depth, other, parse(t, r.Text("first")))
		default:
			t.Fatalf("%s: kind %q", r.ID, kind)
		}
		if err != nil {
			t.Fatal(err)
		}
		unit, err := units.ParseVolumeFlow("1 " + r.Text("flow_unit"))
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("flow", float64(q/unit))
	}
	// The mean diameter makes it the volume of the ring that is gone.
	d, a := units.MM(20), units.MM(2)
	n, feed := 100*units.RevPerMinute, units.MM(0.2)
	q, err := cutting.TurningRemoval(d, a, feed, n)
	ring := math.Pi / 4 * (20*20 - 16*16) * 0.2 * 100 // mm3/min
	if err != nil || math.Abs(float64(q/units.CubicCentimetrePerMinute)*1000-ring) > 1e-9 {
		t.Errorf("%v, %v; the ring is %v mm3/min", q, err, ring)
	}
	outside, err := cutting.TurningRemovalOutside(d, a, feed, n)
	if err != nil || math.Abs(float64(outside/q)-1-2.0/18) > 1e-12 {
		t.Errorf("outside diameter: %v of it, %v", float64(outside/q), err)
	}
}
