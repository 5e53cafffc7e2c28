package setting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

// A 25 mm roller in a vee of 90 degrees, 30 mm wide at the mouth.
func ExampleVeeHeight() {
	h, err := setting.VeeHeight(units.MM(25), 90*units.Degree)
	fmt.Println(h.Text(units.Millimetres, 3), err)
	h, err = setting.VeeHeightAboveFace(units.MM(25), 90*units.Degree, units.MM(30))
	fmt.Println(h.Text(units.Millimetres, 3), err)
	// Output:
	// 30.178 mm <nil>
	// 15.178 mm <nil>
}

// The vee back from that roller and one of 10 mm.
func ExampleVeeAngle() {
	a, err := setting.VeeAngle(units.MM(25), units.MM(10), units.MM(30.178), units.MM(12.071))
	fmt.Printf("%.1f deg %v\n", a.Degrees(), err)
	// Output: 90.0 deg <nil>
}
