package setting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

// A 27 degree angle on a 5 in sine bar: 2.27 in (a tool maker's note).
func ExampleSineBar() {
	h, err := setting.SineBar(units.Inch(5), 27*units.Degree)
	fmt.Println(h.Text(units.Inches, 4), err)
	a, err := setting.SineBarAngle(units.Inch(5), h)
	fmt.Printf("%.1f deg %v\n", a.Degrees(), err)
	// Output:
	// 2.2700 in <nil>
	// 27.0 deg <nil>
}
