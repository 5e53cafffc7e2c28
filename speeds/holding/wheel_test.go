package holding_test

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

// A rim of 1.2 kg on a radius of 60 mm at 300 rev/min, which gives and takes 0.1 J
// in a turn.
func ExampleWheel() {
	w := holding.Wheel{Mass: 1.2, Gyration: units.MM(60)}
	e, err := w.Energy(300 * units.RevPerMinute)
	fmt.Printf("%.2f J %v\n", float64(e), err)
	swing, err := w.SpeedSwing(0.1, 300*units.RevPerMinute)
	fmt.Printf("%.1f rev/min %v\n", swing.In(units.RevPerMinute), err)
	// Output:
	// 2.13 J <nil>
	// 7.0 rev/min <nil>
}
