package joint_test

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/units"
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
	torque, err := joint.Torque(0.2, load.Preload, studs.Diameter)
	if err != nil {
		panic(err)
	}
	least, most, err := joint.PreloadFor(torque, 0.15, 0.25, studs.Diameter) // a dry thread, by Moss
	if err != nil {
		panic(err)
	}
	times, _ := load.Margin()
	fmt.Printf("%.0f N in all, %.0f N on each stud; preload %.0f N, %.1f times that\n", force, load.Working, load.Preload, times)
	fmt.Printf("%.2f N m, which gives %.0f to %.0f N\n", torque, least, most)
	// Output:
	// 1115 N in all, 186 N on each stud; preload 373 N, 2.0 times that
	// 0.22 N m, which gives 299 to 498 N
}

// Mechanical Fastening, Joining, and Assembly, p. 85: a No. 10 screw, 0.190 in,
// with K = 0.2 and 1,275 lbf; the book prints 48.5 lbf in.
func ExampleTorque_joiningAndAssembly() {
	t, err := joint.Torque(0.2, 1275*units.PoundForce, units.Inch(0.190))
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.2f lbf in\n", t/units.PoundForceInch)
	// Output: 48.45 lbf in
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
