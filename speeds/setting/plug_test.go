package setting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

// A taper that stands on its small end, measured over rollers of 10 mm on the
// plate and on 50 mm blocks.
func ExamplePlugTaper() {
	angle, err := setting.PlugTaper(units.MM(40.913), units.MM(49.662), units.MM(50))
	if err != nil {
		fmt.Println(err)
		return
	}
	end, err := setting.PlugEnd(units.MM(40.913), units.MM(10), angle)
	fmt.Printf("%.2f deg from %s, %v\n", angle.Degrees(), end.Text(units.Millimetres, 2), err)
	// Output: 10.00 deg from 20.00 mm, <nil>
}
