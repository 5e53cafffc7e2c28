package cover_test

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket/cover"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
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
		p.Supported.Stress.In(units.Megapascal), p.Supported.Deflection.Text(units.Millimetres, 4),
		p.Clamped.Stress.In(units.Megapascal), p.Clamped.Deflection.Text(units.Millimetres, 4))
	// Output: supported 35.2 MPa, 0.0223 mm; clamped 21.1 MPa, 0.0056 mm
}

// A made-up flange of 5 mm, cut by 0.8 mm too much on the face that the gasket lies
// on.
func ExampleCutThin() {
	t, err := cover.CutThin(units.MM(5), units.MM(0.8), cover.JointFace)
	if err != nil {
		panic(err)
	}
	fmt.Printf("(5/4.2)^2 = %.2f times the stress: good for %.0f %% of the pressure\n", t.Stress, 100*t.Strength)
	fmt.Printf("studs stand out by %s (%s) more, end clearance %s (%s)\n", t.Projection.Text(units.Millimetres, 1), t.Projection.Text(units.Thousandths, 0),
		t.EndClearance.Text(units.Millimetres, 1), t.EndClearance.Text(units.Thousandths, 0))
	for _, f := range t.Findings {
		fmt.Println(f.Severity, "-", f.Text)
		for _, r := range f.Remedies {
			fmt.Println("  >", r)
		}
	}
	// Output:
	// (5/4.2)^2 = 1.42 times the stress: good for 71 % of the pressure
	// studs stand out by 0.8 mm (31 thou) more, end clearance -0.8 mm (-31 thou)
	// danger - The spigot reaches 0.80 mm deeper into the bore: the piston may strike it.
	//   > Turn the engine over by hand, with something soft in the end, before any air or steam.
	//   > A metal ring of 0.80 mm under the flange, with a gasket on each side, or a gasket thicker by that, puts the cover back where it was: clearance, studs and gland.
	//   > Or 0.80 mm off the spigot restores the clearance alone.
	// caution - The flange is stressed 1.42 times as much as drawn and stands 71 percent of the pressure. Neither a ring nor a gasket restores strength, and a thick soft gasket is easier to blow out than a ring.
	//   > A loose plate of the same material behind it, at least 3.14 mm thick, brings the stress back; 0.80 mm would do next to nothing.
}

// How thick must that brass cover be for 20 MPa?
func ExampleRound_Solve() {
	c := cover.Round{Diameter: units.MM(38), Poisson: 0.34}
	supported, clamped, err := c.Solve(7*units.Bar, 20*units.Megapascal)
	if err != nil {
		panic(err)
	}
	fmt.Println(supported.Text(units.Millimetres, 2), clamped.Text(units.Millimetres, 2))
	for _, stress := range cover.HeadStresses()[:1] {
		fmt.Printf("%s allows %s %.0f to %.0f MPa\n", stress.Rule, stress.Material, stress.Min.In(units.Megapascal), stress.Max.In(units.Megapascal))
	}
	// Output:
	// 3.98 mm 3.08 mm
	// Lobben, flat head bolted to a flange allows cast iron 10 to 17 MPa
}

// The cover of a made-up steam chest, held on 23 by 33 mm, at 4 bar.
func ExampleRectangular_Under() {
	c := cover.Rectangular{Short: units.MM(23), Long: units.MM(33), Thickness: units.MM(3), Elastic: 110 * units.Gigapascal}
	p, err := c.Under(4 * units.Bar)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f and %.1f MPa\n", p.Supported.Stress.In(units.Megapascal), p.Clamped.Stress.In(units.Megapascal))
	// Output: 11.4 and 11.0 MPa
}

// A made-up cover of cast iron, turned to 1.25 mm: the stress in it is above both
// rules for such covers.
func ExamplePlate_Check() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		panic(err)
	}
	c := cover.Round{Diameter: units.MM(28), Thickness: units.MM(1.25), Elastic: iron.Elasticity.Value, Poisson: iron.Poisson.Value}
	p, err := c.Under(4 * units.Bar)
	if err != nil {
		panic(err)
	}
	for _, f := range p.Check(iron) {
		fmt.Printf("%v: %s\n%s\n", f.Severity, f.Text, f.Remedies[0])
	}
	// Output:
	// danger: The cover would be stressed to 61.3 MPa and may break; the rules for covers of cast iron allow 10.3 to 17.2 MPa and 30.0 to 50.0 MPa.
	// Make the cover 2.40 mm (0.094 in) thick, for 17.2 MPa, or set the studs closer in.
}

// Lobben, p. 220: a cast-iron head of 30 in at 100 psi, with 2,000 psi allowed.
func ExampleHeadRules_lobben() {
	rules, err := cover.HeadRules(units.Inch(30), 100*units.PSI, 2000*units.PSI)
	if err != nil {
		panic(err)
	}
	for _, r := range rules {
		fmt.Printf("%s: %s\n", r.Name, r.Thickness.Text(units.Inches, 2))
	}
	// Output:
	// Lobben, flat head bolted to a flange: 2.74 in
	// gas-engine cylinder head: 2.12 in
}

// A made-up cylinder of 25.4 mm bore with a wall of 4.5 mm at 7 bar.
func ExampleWall_Hoop() {
	h, err := cover.Wall{Bore: units.MM(25.4), Thickness: units.MM(4.5)}.Hoop(7 * units.Bar)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.2f, %.2f, %.2f MPa round it, %.2f along\n", h.Thin.In(units.Megapascal), h.Lame.In(units.Megapascal), h.Barlow.In(units.Megapascal), h.Longitudinal.In(units.Megapascal))
	// Output: 1.98, 2.38, 2.68 MPa round it, 0.99 along
}

// Lineham's example 8 turned round: the wall of a bore of 6 in that 1 ton per
// square inch stresses to 1.25.
func ExampleWall_Solve_lineham() {
	w, err := cover.Wall{Bore: units.Inch(6)}.Solve(1, 1.25)
	if err != nil {
		panic(err)
	}
	fmt.Println(w.Lame.Text(units.Inches, 2))
	// Output: 6.00 in
}

// What a club in the United Kingdom does with a new boiler shell for 60 psi.
func ExampleTestPractice_Pressure() {
	practice := cover.TestPractices()[0]
	p, err := practice.Pressure(60 * units.PSI)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%s: %.0f psi, %s\n", practice.Case, p.In(units.PSI), practice.Medium)
	fmt.Println(cover.TestPrecautions()[0])
	// Output:
	// new boiler shell: 120 psi, hydraulic
	// Local codes, your insurer and a licensed or club inspector decide how a boiler or vessel is tested, not a figure given here.
}

// A made-up head of cast iron, 30 in across and 3 in thick, at 100 psi: it is judged by
// the stress of an edge that is free to bend.
func ExamplePlate_Stress() {
	c := cover.Round{Diameter: units.Inch(30), Thickness: units.Inch(3), Elastic: 15e6 * units.PSI, Poisson: 0.26}
	p, err := c.Under(100 * units.PSI)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.0f psi: supported %.0f, clamped %.0f\n", p.Stress().In(units.PSI), p.Supported.Stress.In(units.PSI), p.Clamped.Stress.In(units.PSI))
	// Output: 3056 psi: supported 3056, clamped 1875
}

// Which stress do the old rules for heads of cast iron allow?
func ExampleHeadStresses() {
	for _, s := range cover.HeadStresses() {
		fmt.Printf("%s: %.0f to %.0f psi\n", s.Rule, s.Min.In(units.PSI), s.Max.In(units.PSI))
	}
	// Output:
	// Lobben, flat head bolted to a flange: 1500 to 2500 psi
	// Lobben, flat head bolted to a flange: 4000 to 6000 psi
	// gas-engine cylinder head: 4351 to 7252 psi
}

// How far may the pressure of a boiler of 60 psi rise in a steam test?
func ExampleTestPractices() {
	for _, p := range cover.TestPractices() {
		if p.Medium != "steam" {
			continue
		}
		most, err := p.Pressure(60 * units.PSI)
		if err != nil {
			panic(err)
		}
		fmt.Printf("%s: %.0f psi\n", p.Case, most.In(units.PSI))
	}
	// Output: steam test: 66 psi
}

// What comes first in any pressure test.
func ExampleTestPrecautions() {
	for _, p := range cover.TestPrecautions() {
		if p.Code == cover.TestByWater {
			fmt.Println(p)
		}
	}
	// Output: Test with water, never with compressed air or steam: what bursts full of water only leaks.
}

// From which thickness on is a wall no longer thin? Books disagree.
func ExampleThinLimits() {
	for _, l := range cover.ThinLimits() {
		fmt.Println(l)
	}
	// Output:
	// share 0.1, from Machinery's Handbook, 31st edition, p. 290
	// share 0.05, from Huston, Practical Stress Analysis in Engineering Design, abstract of chapter 25 (a tenth of the inside radius; lecture notes agree)
}

// The faces of a cover that may be cut too far.
func ExampleFaces() {
	for _, f := range cover.Faces() {
		fmt.Println(f)
	}
	// Output:
	// outside
	// joint
	// spigot
}

func ExampleParseFace() {
	f, err := cover.ParseFace("joint")
	fmt.Println(f, err)
	_, err = cover.ParseFace("back")
	fmt.Println(err)
	// Output:
	// joint <nil>
	// cover: face that was cut "back": unknown; accepted: outside, joint, spigot
}

// Khurmi and Gupta's rule for flat heads of engines, as quoted, t = D sqrt(0.1 p / s):
// 100 mm at 1 N/mm2 with 40 N/mm2 allowed are 5.00 mm.
func ExampleHeadRules_khurmi() {
	rules, err := cover.HeadRules(units.MM(100), units.Megapascal, 40*units.Megapascal)
	if err != nil {
		panic(err)
	}
	fmt.Println(rules[len(rules)-1].Thickness.Text(units.Millimetres, 2))
	// Output: 5.00 mm
}
