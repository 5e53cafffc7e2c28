package casting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/marking/casting"
	"github.com/valvechest/valvechest/units"
)

func lengths(mm ...float64) (all []units.Length) {
	for _, v := range mm {
		all = append(all, units.MM(v))
	}
	return all
}

// EC-09: a rough rim, read at six places; figures invented. It goes 0.57 mm away from its
// high side.
func ExampleCasting_Centre() {
	c, err := casting.Casting{Rings: []casting.Ring{{Readings: lengths(0, 0.35, 0.95, 1.10, 0.85, 0.25)}}}.Centre()
	for _, l := range []casting.Lie{c.LeastSquares, c.Even} {
		fmt.Printf("%s off, high at %.0f degrees, %s to come off (%v)\n",
			l.Off.Text(units.Millimetres, 3), l.High.Degrees(), l.Allowance.Text(units.Millimetres, 3), err)
	}
	// Output:
	// 0.570 mm off, high at 174 degrees, 0.083 mm to come off (<nil>)
	// 0.553 mm off, high at 174 degrees, 0.075 mm to come off (<nil>)
}

// A face that stands out by 0.4 mm more on one side than on the other, read on 90 mm, with
// its jaws on 60 mm; figures invented.
func ExampleTilting_Shims() {
	tilt, err := casting.Casting{
		Faces:        []casting.Face{{Readings: lengths(0.40, 0.35, 0.20, 0.06, 0, 0.05, 0.20, 0.34)}},
		FaceDiameter: units.MM(90),
	}.Tilt()
	if err != nil {
		fmt.Println(err)
		return
	}
	shims, err := tilt.Shims(4, units.MM(60))
	for i, s := range shims {
		fmt.Printf("jaw %d: %s\n", i+1, s.Text(units.Millimetres, 2))
	}
	fmt.Println(err)
	// Output:
	// jaw 1: 0.00 mm
	// jaw 2: 0.13 mm
	// jaw 3: 0.27 mm
	// jaw 4: 0.14 mm
	// <nil>
}

// The six points of Gander, Golub and Strebel (BIT 34, 1994), from memory: two circles that
// both go by the name of algebraic, and the geometric one.
func ExampleFitCircle_gander() {
	var points []casting.Point
	for _, p := range [][2]float64{{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}} {
		points = append(points, casting.Point{X: units.MM(p[0]), Y: units.MM(p[1])})
	}
	for _, fit := range []casting.CircleFit{casting.UnitAlgebraic, casting.LinearAlgebraic, casting.Geometric} {
		c, err := casting.FitCircle(fit, points)
		fmt.Printf("%v: %.4f, %.4f; %.4f (%v)\n", fit, c.Centre.X.MM(), c.Centre.Y.MM(), c.Radius.MM(), err)
	}
	// Output:
	// unit algebraic: 5.3794, 7.2532; 3.0370 (<nil>)
	// linear algebraic: 4.7423, 3.8351; 4.1088 (<nil>)
	// geometric: 4.7398, 2.9835; 4.7142 (<nil>)
}
