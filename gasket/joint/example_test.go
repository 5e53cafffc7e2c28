package joint_test

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A made-up cylinder cover with a paper gasket inside the studs: the seating of
// the paper asks more of the studs than the steam does.
func ExampleGasket_Loads() {
	g := joint.Gasket{Outside: units.MM(38), Inside: units.MM(25.4), M: 1.75, Y: 1100 * units.PSI}
	l, err := g.Loads(5.5 * units.Bar)
	if err != nil {
		panic(err)
	}
	fmt.Printf("G %v, b %v\n", l.Reaction, l.EffectiveWidth)
	fmt.Printf("H %.0f N, Hp %.0f N, Wm1 %.0f N, Wm2 %.0f N\n", l.EndForce, l.Holding, l.Operating, l.Seating)
	// Output:
	// G 31.7 mm, b 3.15 mm
	// H 434 N, Hp 604 N, Wm1 1038 N, Wm2 2379 N
}

// How tight? A made-up cover of 50.8 mm under 5.5 bar on six M3 studs: the load of
// each, a preload of twice that and the torque for it, which by itself leaves the
// preload between wide limits, and the order to go round in.
func ExampleStuds_Load() {
	force, err := joint.EndForce(5.5*units.Bar, 2026.8*units.SquareMillimetre)
	if err != nil {
		panic(err)
	}
	studs := joint.Studs{Number: 6, Diameter: units.MM(3), StressArea: 5.03 * units.SquareMillimetre, Proof: 225 * units.Megapascal, Preload: 0.33}
	load, err := studs.Load(force)
	if err != nil {
		panic(err)
	}
	dry := strength.NutFactor{K: 0.2, Min: 0.15, Max: 0.25} // by Moss
	nut, err := strength.Tightening{Diameter: studs.Diameter, Factor: dry, Pull: load.Preload}.Solve()
	if err != nil {
		panic(err)
	}
	times, _ := load.Margin()
	fmt.Printf("%.0f N in all, %.0f N on each stud; preload %.0f N, %.1f times that\n", force, load.Working, load.Preload, times)
	fmt.Printf("%.2f N m, which gives %.0f to %.0f N\n", nut.Torque, nut.PullMin, nut.PullMax)
	// Output:
	// 1115 N in all, 186 N on each stud; preload 373 N, 2.0 times that
	// 0.22 N m, which gives 299 to 498 N
}

// Does the thread in the casting hold? Made-up studs M3 of class 8.8, six of them,
// tightened to 0.3 of their proof strength in cast iron, as deep as the rule has it.
func ExampleStudLoad_Grip() {
	iron, err := material.Lookup("cast iron")
	if err != nil {
		panic(err)
	}
	studs := joint.Studs{Number: 6, StressArea: 5.03 * units.SquareMillimetre, Proof: 580 * units.Megapascal, Preload: joint.InCasting}
	load, err := studs.Load(480)
	if err != nil {
		panic(err)
	}
	g, err := load.Grip(joint.Tapped{Thread: thread.MustParse("M3"), Material: iron})
	if err != nil {
		panic(err)
	}
	fmt.Printf("engaged %v: strips at %.0f N, a stud comes to %.0f N\n", g.Engaged, g.Strips, g.Pull)
	// Output:
	// engaged 3.75 mm: strips at 1290 N, a stud comes to 955 N
}

// The order for six studs on a circle.
func ExampleOrder() {
	p, err := gasket.BoltCircle(6, units.MM(40), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	order, err := joint.Order(p)
	if err != nil {
		panic(err)
	}
	for _, i := range order {
		fmt.Print(i, " ")
	}
	fmt.Println()
	// Output: 1 4 2 5 3 6
}

// The six studs of a made-up cover under 4 bar, tightened to 0.3 of their proof
// load, and the paper that they press.
func ExampleStudLoad_Press() {
	studs := joint.Studs{Number: 6, StressArea: 5.03 * units.SquareMillimetre, Proof: 225 * units.Megapascal, Preload: joint.InCasting}
	load, err := studs.Load(407)
	if err != nil {
		panic(err)
	}
	p, err := load.Press(633*units.SquareMillimetre, joint.Seating{Min: 1100 * units.PSI, Max: 1100 * units.PSI})
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f MPa, %.1f under pressure\n", p.Bolted.In(units.Megapascal), p.Left.In(units.Megapascal))
	for _, f := range p.Findings {
		fmt.Printf("%v: %s\n", f.Severity, f.Text)
		for _, cure := range f.Remedies {
			fmt.Println("-", cure)
		}
	}
	// Output:
	// 3.2 MPa, 2.6 under pressure
	// fails: The studs do not seat the gasket: they press it with 3.2 MPa, and its softest grade takes 3.8 MPa, half of its factor y as a code has it for gaskets inside the studs. It weeps.
	// - Take no sheet at all: lap both faces flat and joint them with a liquid jointing that its maker gives for the heat.
	// - Make it narrower: these studs seat 537 mm2 of it, and it has 633.
	// - Take 8 such studs, or stronger ones that bear 401 N each in place of 340.
	// - Or tighten each to 401 N, 36 percent of its proof load, if the tapped thread bears that.
}

// 0.2 N m on a small spanner is the weight of a bottle in the hand.
func ExampleSpannerPull() {
	pull, err := joint.SpannerPull(0.2*units.NewtonMetre, units.MM(50))
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.0f N at 50 mm\n", pull.In(units.Newton))
	// Output: 4 N at 50 mm
}

// Which stress area does the paper gasket ask for, at 50 MPa hot and 100 cold?
func ExampleRequiredArea() {
	g := joint.Gasket{Outside: units.MM(38), Inside: units.MM(25.4), M: 1.75, Y: 1100 * units.PSI}
	l, err := g.Loads(5.5 * units.Bar)
	if err != nil {
		panic(err)
	}
	area, err := joint.RequiredArea(l, 50*units.Megapascal, 100*units.Megapascal)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f mm2\n", area.In(units.SquareMillimetre))
	// Output: 23.8 mm2
}

// How many studs of M3 hold 1115 N with 35 MPa in each?
func ExampleStudsNeeded() {
	n, err := joint.StudsNeeded(1115, 5.03*units.SquareMillimetre, 35*units.Megapascal)
	if err != nil {
		panic(err)
	}
	fmt.Println(n)
	// Output: 7
}

// Six studs of M3 on a circle of 28 mm.
func ExampleSpacingOf() {
	p, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	s, err := joint.SpacingOf(p, units.MM(3))
	if err != nil {
		panic(err)
	}
	fmt.Println(s.Widest.Text(units.Millimetres, 1), "apart")
	for _, r := range s.Rules {
		fmt.Printf("%s, %s to %s: %v\n", r.Name, r.Min.Decimal(units.Millimetres, 0), r.Max.Text(units.Millimetres, 0), r.Contains(s.Widest))
	}
	// Output:
	// 14.0 mm apart
	// 3 to 6 diameters, 9 to 18 mm: true
	// 5 to 10 diameters, 15 to 30 mm: false
	// 19 to 28.5 times sqrt(d in mm), 33 to 49 mm: false
}

// A bore of 25.4 mm under 5.5 bar.
func ExampleEndForce() {
	force, err := joint.EndForce(5.5*units.Bar, 506.7*units.SquareMillimetre)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.0f N\n", force.In(units.Newton))
	// Output: 279 N
}

// Problem 142 of Singer's strength of materials: the cap of a steam pipe of 430 mm bore at
// 3.5 MPa, on bolts of 40 mm that are tightened to 55 MPa and may have 80.
func ExampleStudsNeeded_singer() {
	cap, err := joint.EndForce(3.5*units.Megapascal, 145220*units.SquareMillimetre)
	if err != nil {
		panic(err)
	}
	n, err := joint.StudsNeeded(cap, 1256.6*units.SquareMillimetre, (80-55)*units.Megapascal)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.0f kN, %d bolts\n", cap.In(units.Kilonewton), n)
	// Output: 508 kN, 17 bolts
}

// Six studs of 340 N press a gasket of 633 mm2.
func ExampleStressOnGasket() {
	s, err := joint.StressOnGasket(6*340, 633*units.SquareMillimetre)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f MPa\n", s.In(units.Megapascal))
	// Output: 3.2 MPa
}

// Which load decides, that of the steam or that which seats the paper?
func ExampleLoads_Greater() {
	l, err := joint.Gasket{Outside: units.MM(38), Inside: units.MM(25.4), M: 1.75, Y: 1100 * units.PSI}.Loads(5.5 * units.Bar)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.0f N, seating: %v\n", l.Greater(), l.Greater() == l.Seating)
	// Output: 2379 N, seating: true
}

// A preload of 340 N on each of six studs, under 1115 N of steam in all.
func ExampleStudLoad_Margin() {
	studs := joint.Studs{Number: 6, StressArea: 5.03 * units.SquareMillimetre, Proof: 225 * units.Megapascal, Preload: joint.InCasting}
	load, err := studs.Load(1115)
	if err != nil {
		panic(err)
	}
	times, loaded := load.Margin()
	fmt.Printf("%.2f times the working load, %v\n", times, loaded)
	// Output: 1.83 times the working load, true
}

// How far apart may studs of M3 stand?
func ExampleSpacingRules() {
	rules, err := joint.SpacingRules(units.MM(3))
	if err != nil {
		panic(err)
	}
	for _, r := range rules {
		fmt.Println(r.Min.Text(units.Millimetres, 1), "to", r.Max.Text(units.Millimetres, 1))
	}
	// Output:
	// 9.0 mm to 18.0 mm
	// 15.0 mm to 30.0 mm
	// 32.9 mm to 49.4 mm
}

// A textbook's rule for the studs of cylinder covers (Khurmi and Gupta, as quoted) worked
// for studs of 16 mm: 19 and 28.5 times the root of 16 are 76 and 114 mm.
func ExampleSpacingRules_khurmi() {
	rules, err := joint.SpacingRules(units.MM(16))
	if err != nil {
		panic(err)
	}
	last := rules[len(rules)-1]
	fmt.Println(last.Min.Text(units.Millimetres, 0), "to", last.Max.Text(units.Millimetres, 0))
	// Output: 76 mm to 114 mm
}

// Which rules does a spacing of 14 mm keep for M3 studs?
func ExampleSpacing_Kept() {
	p, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		panic(err)
	}
	s, err := joint.SpacingOf(p, units.MM(3))
	if err != nil {
		panic(err)
	}
	for _, r := range s.Kept() {
		fmt.Println(r.Name)
	}
	// Output: 3 to 6 diameters
}

// What to mind when a cover is tightened down.
func ExamplePrecautions() {
	for _, p := range joint.Precautions() {
		fmt.Println(p.Code)
	}
	// Output:
	// empty-before-undoing
	// tighten-cold
}

// The rules for the width that a gasket is reckoned with.
func ExampleWidthRules() {
	for _, r := range joint.WidthRules() {
		fmt.Println(r)
	}
	// Output:
	// inch
	// metric
}

func ExampleParseWidthRule() {
	r, err := joint.ParseWidthRule("metric")
	fmt.Println(r, err)
	_, err = joint.ParseWidthRule("cubit")
	fmt.Println(err)
	// Output:
	// metric <nil>
	// joint: rule for the effective width "cubit": unknown; accepted: inch, metric
}
