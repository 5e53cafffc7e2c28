package holding_test

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
)

// A cast-iron rim at 100 ft/s, and a plain disc with that rim speed.
func ExampleRingStress() {
	v := 100 * units.FootPerSecond
	ring, err := holding.RingStress(holding.CastIronDensity, v)
	fmt.Printf("%.1f MPa %v\n", ring.In(units.Megapascal), err)
	disc, err := holding.DiscStress(holding.CastIronDensity, v, 0.27)
	fmt.Printf("%.1f MPa %v\n", disc.In(units.Megapascal), err)
	// Output:
	// 6.7 MPa <nil>
	// 2.7 MPa <nil>
}
