package marking_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/units"
)

// An offset of 3.5 mm on a blank of 20 mm, EC-07: jaws that touch along one line, jaws of
// 3 mm, and wide ones.
func ExampleThreeJaw_Packing() {
	for _, jaw := range []units.Length{{}, units.MM(3), units.MM(8)} {
		p, err := marking.ThreeJaw{Blank: units.MM(20), Offset: units.MM(3.5), Jaw: jaw}.Packing()
		fmt.Printf("%s, and %.2f mm for each mm of offset (%v)\n", p.Thickness.Text(units.Millimetres, 2), p.PerOffset, err)
	}
	// Output:
	// 4.78 mm, and 1.22 mm for each mm of offset (<nil>)
	// 5.13 mm, and 1.37 mm for each mm of offset (<nil>)
	// 5.25 mm, and 1.50 mm for each mm of offset (<nil>)
}
