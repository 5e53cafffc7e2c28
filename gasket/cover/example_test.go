package cover_test

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket/cover"
	"github.com/valvechest/valvechest/units"
)

// Lineham, Text Book of Mechanical Engineering, example 8: a cylinder of 6 in
// bore and 18 in outside under 1 ton per square inch. The stress falls from 1.25
// at the bore to 0.25 at the outside; unit for unit, as the formula is
// homogeneous.
func ExampleWall_Lame_lineham() {
	w := cover.Wall{Bore: units.Inch(6), Thickness: units.Inch(6)}
	for _, r := range []float64{3, 4, 5, 6, 8, 9} {
		s, err := w.Lame(1, 0, units.Inch(r))
		if err != nil {
			panic(err)
		}
		fmt.Printf("%g in %.3f\n", r, float64(s.Hoop))
	}
	// Output:
	// 3 in 1.250
	// 4 in 0.758
	// 5 in 0.530
	// 6 in 0.406
	// 8 in 0.283
	// 9 in 0.250
}

// A made-up brass cover held on 38 mm, 3 mm thick, at 7 bar.
func ExampleRound_Under() {
	c := cover.Round{Diameter: units.MM(38), Thickness: units.MM(3), Elastic: 100 * units.Gigapascal, Poisson: 0.34}
	p, err := c.Under(7 * units.Bar)
	if err != nil {
		panic(err)
	}
	fmt.Printf("supported %.1f MPa, %s; clamped %.1f MPa, %s\n",
		p.Supported.Stress/units.Megapascal, p.Supported.Deflection.Text(units.Millimetres, 4),
		p.Clamped.Stress/units.Megapascal, p.Clamped.Deflection.Text(units.Millimetres, 4))
	// Output: supported 35.2 MPa, 0.0223 mm; clamped 21.1 MPa, 0.0056 mm
}
