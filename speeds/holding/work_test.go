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
