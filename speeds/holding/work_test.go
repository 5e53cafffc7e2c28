package holding_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

// The speed at which the casting of the other Example shakes the lathe with 50 N.
func ExampleWork_Speed() {
	w := holding.Work{Mass: 2, Offset: units.MM(20)}
	n, err := w.Speed(50)
	fmt.Printf("%.0f rev/min %v\n", n.In(units.RevPerMinute), err)
	// Output: 338 rev/min <nil>
}

// A 2 kg casting whose weight sits 20 mm off the axis.
func ExampleWork() {
	w := holding.Work{Mass: 2, Offset: units.MM(20)}
	for _, n := range []units.RotationalSpeed{60, 200, 600} {
		f, _ := w.Force(n * units.RevPerMinute)
		fmt.Printf("%.0f rev/min: %.0f N\n", float64(n), float64(f))
	}
	m, _ := w.Counterweight(units.MM(80))
	fmt.Printf("balanced by %.2f kg at 80 mm\n", float64(m))
	// Output:
	// 60 rev/min: 2 N
	// 200 rev/min: 18 N
	// 600 rev/min: 158 N
	// balanced by 0.50 kg at 80 mm
}

func TestWorkInverse(t *testing.T) {
	w := holding.Work{Mass: 3, Offset: units.MM(12)}
	f, err := w.Force(250 * units.RevPerMinute)
	if err != nil {
		t.Fatal(err)
	}
	n, err := w.Speed(f)
	if err != nil || math.Abs(float64(n/units.RevPerMinute)-250) > 1e-9 {
		t.Errorf("%v, %v", n, err)
	}
}

// The casting of the other Examples at two speeds of a lathe, and the one that it must
// not exceed.
func ExampleWork_Check() {
	w := holding.Work{Mass: 2, Offset: units.MM(20)}
	for _, n := range []units.RotationalSpeed{200, 400} {
		found, err := w.Check(n * units.RevPerMinute)
		fmt.Println(len(found), err)
		for _, f := range found {
			fmt.Println(f.Text)
		}
	}
	limit, err := w.Limit()
	fmt.Printf("%.0f rev/min %v\n", limit.Speed.In(units.RevPerMinute), err)
	steady, err := w.Steady()
	fmt.Printf("%.0f rev/min %v\n", steady.Speed.In(units.RevPerMinute), err)
	// Output:
	// 0 <nil>
	// 1 <nil>
	// At 400 rev/min the work pulls round and round with 70 N, 3.6 times its own weight: it shakes the lathe and works its clamps loose.
	// 669 rev/min <nil>
	// 211 rev/min <nil>
}

// By the mechanics: at sqrt(g/e) the force is the weight, at sqrt(10 g/e) ten of it.
func TestWorkBounds(t *testing.T) {
	w := holding.Work{Mass: 5, Offset: units.MM(9.80665)} // g/e = 1000 per second squared
	own := math.Sqrt(1000)                                // rad/s
	for share, want := range map[float64]int{1 - 1e-9: 0, 1 + 1e-9: 1} {
		if found, err := w.Check(units.RotationalSpeed(own * share)); err != nil || len(found) != want {
			t.Errorf("%v of the speed: %v, %v", share, found, err)
		}
	}
	limit, err := w.Limit()
	if err != nil || math.Abs(float64(limit.Speed)-100) > 1e-9 {
		t.Errorf("limit %v, %v, want 100 rad/s", limit.Speed, err)
	}
	if steady, err := w.Steady(); err != nil || math.Abs(float64(steady.Speed)-own) > 1e-9 {
		t.Errorf("steady %v, %v, want %v rad/s", steady.Speed, err, own)
	}
	for _, n := range []units.RotationalSpeed{0, -1, units.RotationalSpeed(math.NaN())} {
		if found, err := w.Check(n); err == nil {
			t.Errorf("%v: %v", n, found)
		}
	}
	if l, err := (holding.Work{Mass: 1}).Limit(); err == nil {
		t.Errorf("no offset: %v", l)
	}
	if l, err := (holding.Work{Mass: 1}).Steady(); err == nil {
		t.Errorf("no offset: %v", l)
	}
}
