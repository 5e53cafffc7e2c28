package assembly_test

import (
	"fmt"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
)

// What is said of retaining compounds as a sort, before the data sheet is at hand.
func ExampleGenericRetainer() {
	a := assembly.GenericRetainer()
	fmt.Printf("%.0f to %.0f MPa, gap %s to %s, up to %.0f degrees C, from memory: %v\n",
		a.Shear.Min.In(units.Megapascal), a.Shear.Max.In(units.Megapascal), a.Gap.Min, a.Gap.Max,
		a.Service.Celsius(), a.Refs.Recalled())
	// Output:
	// 10 to 30 MPa, gap 0.02 mm to 0.15 mm, up to 150 degrees C, from memory: true
}

// A shaft of 20 mm chilled in dry ice contracts by less than its expansion at room
// temperature says.
func ExampleChilledSteel() {
	room, ice := units.Celsius(20), units.Celsius(-78)
	strain, err := assembly.ChilledSteel().Strain(room, ice)
	fmt.Printf("%.4f mm by the curve, %.4f mm by 11.6 ppm/K, %v\n", 20*strain, 20*11.6e-6*float64(ice.Sub(room)), err)
	// Output:
	// -0.0206 mm by the curve, -0.0227 mm by 11.6 ppm/K, <nil>
}

// Oiled steel, as a book that the reader trusts gives it.
func ExampleMu() {
	f := assembly.Mu(0.12)
	fmt.Println(f.Min, f.Max, f.Validate())
	fmt.Println(assembly.Mu(12).Validate())
	// Output:
	// 0.12 0.12 <nil>
	// assembly: friction 12 to 12: out of range; accepted: above 0 up to 1, the least first
}

func ExamplePackings() {
	fmt.Println(assembly.Packings())
	// Output:
	// [metal rings soft packing O-ring]
}

func ExampleParsePacking() {
	p, err := assembly.ParsePacking("soft packing")
	fmt.Println(p, err)
	// Output:
	// soft packing <nil>
}

// The seating torques of the small grub screws, and what is published of their hold.
func ExampleSetScrews() {
	for _, s := range assembly.SetScrews() {
		if s.Diameter.Cmp(units.MM(2.5)) <= 0 && s.Holding > 0 {
			fmt.Printf("%s: %.2f N m, holds %.0f N\n", s.Name, s.Seating.In(units.NewtonMetre), s.Holding.In(units.Newton))
		}
	}
	// Output:
	// #0: 0.11 N m, holds 222 N
	// #1: 0.20 N m, holds 289 N
	// #2: 0.20 N m, holds 378 N
}

// Bhavikatti, example 8.8.16, p. 348: a tube of 200 mm bore, 250 mm at the junction
// and 300 mm outside is to have 30 N/mm2 between its parts, of E 200 kN/mm2; the
// book's interference of 0.189 mm on the radius gives it.
func ExamplePress_Solve_bhavikatti() {
	steel := given("steel", 200*units.Gigapascal, 0.3, 12e-6)
	r, err := assembly.Press{
		Diameter: units.MM(250), Interference: units.MM(2 * 0.189), HubOutside: units.MM(300), ShaftBore: units.MM(200),
		Length: units.MM(100), Hub: steel, Shaft: steel, Friction: assembly.Mu(0.12),
	}.Solve()
	fmt.Printf("%.1f N/mm2, %v\n", r.Pressure.In(units.Megapascal), err)
	// Output:
	// 29.9 N/mm2, <nil>
}

// NCERT, Physics, textbook for class XI: an iron ring of 5.231 m goes on a wheel of
// 5.243 m, both at 27 degrees C, when it is heated to 218 degrees C.
func ExampleShrink_Solve_ncert() {
	iron, room := expanding("iron", 12e-6), units.Celsius(27)
	r, err := assembly.Shrink{
		Diameter: units.MM(5231), Interference: units.MM(12), Hub: iron, Shaft: iron, Room: room, HubAt: room, ShaftAt: room,
	}.Solve()
	fmt.Printf("%.0f degrees C, %v\n", r.HubNeeded.Celsius(), err)
	// Output:
	// 218 degrees C, <nil>
}

// NCERT, Physics, textbook for class XI: a hole of 4.24 cm in a copper sheet widens by
// 1.44e-2 cm from 27 to 227 degrees C.
func ExampleGrowth_ncert() {
	by, err := assembly.Growth(units.MM(42.4), expanding("copper", 17e-6), units.Celsius(227).Sub(units.Celsius(27)))
	fmt.Printf("%.4f cm, %v\n", by.MM()/10, err)
	// Output:
	// 0.0144 cm, <nil>
}
