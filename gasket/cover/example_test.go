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

// "I machined the cover 1 mm too thin": a made-up flange of 4 mm, cut once too
// often on the face that the gasket lies on.
func ExampleCutThin() {
	t, err := cover.CutThin(units.MM(4), units.MM(1), cover.JointFace)
	if err != nil {
		panic(err)
	}
	fmt.Printf("(4/3)^2 = %.2f times the stress: good for %.0f %% of the pressure\n", t.Stress, 100*t.Strength)
	fmt.Printf("studs stand out by %s (%s) more, end clearance %s (%s)\n", t.Projection.Text(units.Millimetres, 1), t.Projection.Text(units.Thousandths, 0),
		t.EndClearance.Text(units.Millimetres, 1), t.EndClearance.Text(units.Thousandths, 0))
	for _, f := range t.Findings {
		fmt.Println(f.Severity, "-", f.Text, f.Remedies[0])
	}
	for _, s := range t.Saved {
		fmt.Println("saved -", s)
	}
	for _, s := range t.Lost {
		fmt.Println("lost -", s)
	}
	// Output:
	// (4/3)^2 = 1.78 times the stress: good for 56 % of the pressure
	// studs stand out by 1.0 mm (39 thou) more, end clearance -1.0 mm (-39 thou)
	// danger - The spigot reaches 1.00 mm deeper into the bore: the piston may strike it. Turn the engine over by hand, with something soft in the end, before any air or steam.
	// saved - A metal ring of 1.00 mm under the flange, with a gasket on each side, or a gasket thicker by that, puts the cover back where it was: clearance, studs and gland.
	// saved - Or 1.00 mm off the spigot restores the clearance alone.
	// saved - A loose plate of the same material behind it, at least 2.76 mm thick, brings the stress back; 1.00 mm would do next to nothing.
	// lost - Neither restores strength: the flange stays thin. A thick soft gasket is easier to blow out than a ring.
}
