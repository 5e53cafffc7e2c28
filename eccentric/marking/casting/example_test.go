package casting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/marking/casting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
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

// The jaws that bring it there, their screws of 1.5 mm.
func ExampleLie_Moves() {
	c, err := casting.Casting{Rings: []casting.Ring{{Readings: lengths(0, 0.35, 0.95, 1.10, 0.85, 0.25)}}}.Centre()
	if err != nil {
		fmt.Println(err)
		return
	}
	moves, err := c.Best().Moves(units.MM(1.5))
	for _, m := range moves {
		fmt.Printf("jaw %d in by %s, %.2f of a turn\n", m.Jaw, m.By.Text(units.Millimetres, 2), m.Turns)
	}
	fmt.Println(err)
	// Output:
	// jaw 3 in by 0.57 mm, 0.38 of a turn
	// jaw 2 in by 0.06 mm, 0.04 of a turn
	// <nil>
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

// A flywheel of 100 mm with a bore 15 mm long: on its shaft with 0.012 mm of clearance, and
// on a mandrel of the least taper that Lobben gives.
func ExampleSeat_RunOut() {
	for _, seat := range []casting.Seat{
		{Clearance: units.MM(0.012), Length: units.MM(15)},
		{Taper: casting.MandrelTaperFor().Min, Length: units.MM(15)},
	} {
		r, err := seat.RunOut(units.MM(100))
		fmt.Printf("rim %s, face %s (%v)\n", r.Rim.Text(units.Millimetres, 3), r.Face.Text(units.Millimetres, 3), err)
	}
	// Output:
	// rim 0.012 mm, face 0.080 mm (<nil>)
	// rim 0.004 mm, face 0.025 mm (<nil>)
}

// A rim of 100 by 12 mm whose faces are to be parallel within 0.05 mm.
func ExampleEdgesAgree() {
	edges, err := casting.EdgesAgree(units.MM(100), units.MM(12), units.MM(0.05))
	fmt.Println(edges, err)
	// Output: 0.012 mm <nil>
}

// Bevan, The Theory of Machines, ch. 14 example 2 (p. 491, in a transcription): four
// weights in one plane, balanced at 24 in. He finds 57.9 lb at 180 + 23.28 degrees.
func ExampleBalance_bevan() {
	var weights []casting.Weight
	for _, w := range [][3]float64{{200, 9, 0}, {300, 7, 45}, {240, 10, 120}, {260, 12, 255}} {
		weights = append(weights, casting.Weight{
			Mass: units.Mass(w[0]) * units.Pound, Radius: units.Inch(w[1]), At: units.Angle(w[2]) * units.Degree,
		})
	}
	w, err := casting.Balance(units.Inch(24), weights...)
	fmt.Printf("%.1f lb at %.2f degrees (%v)\n", w.Mass.In(units.Pound), w.At.Degrees(), err)
	// Output: 57.9 lb at 203.28 degrees (<nil>)
}

// A rim of cast iron, turned true outside, whose inside of 80 mm lies 0.4 mm off at 30
// degrees: a wheel of 0.44 kg that runs at 600 rev/min.
func ExampleBalance() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		fmt.Println(err)
		return
	}
	hollow, err := casting.HollowOff(iron, units.MM(80), units.MM(12), units.MM(0.4), 30*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := casting.Balance(units.MM(45), hollow)
	fmt.Printf("%.1f g more at %.0f degrees, or so much less opposite (%v)\n", w.Mass.In(units.Gram), w.At.Degrees(), err)
	work, err := hollow.Of(0.44)
	if err != nil {
		fmt.Println(err)
		return
	}
	force, err := work.Force(600 * units.RevPerMinute)
	fmt.Printf("%.2f N goes round with it (%v)\n", float64(force), err)
	allowed, err := casting.BalanceGrade(0.0063, 600*units.RevPerMinute)
	fmt.Printf("%s off, grade 6.3 allows %s (%v)\n", work.Offset.Text(units.Millimetres, 3), allowed.Text(units.Millimetres, 3), err)
	// Output:
	// 3.9 g more at 30 degrees, or so much less opposite (<nil>)
	// 0.70 N goes round with it (<nil>)
	// 0.400 mm off, grade 6.3 allows 0.100 mm (<nil>)
}
