package seal_test

import (
	"fmt"
	"slices"

	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A box of 4 in round a shaft of 2 in, as Root Cause Failure Analysis, p. 226, packs it:
// packing of 1 in, its centre line 3 in across, 9.42 in long. (The book prints 9.43.)
func ExampleStuffingBox_Packing_rootCause() {
	p, err := seal.StuffingBox{Rod: units.Inch(2), Bore: units.Inch(4)}.Packing()
	if err != nil {
		panic(err)
	}
	fmt.Println(p.Width.Text(units.Inches, 2), "cut", p.Cut.Text(units.Inches, 2))
	// Output: 1.00 in cut 9.42 in
}

// The box of a rod of 1 in after Low, Machine Drawing and Design, 1890, p. 67: 1 3/4 in
// across and 2 in deep for the packing, 5.3 widths; a training text has 3 to 5.
func ExampleStuffingBox_Packing_low() {
	p, err := seal.StuffingBox{Rod: units.Inch(1), Bore: units.InchFraction(7, 4)}.Packing()
	if err != nil {
		panic(err)
	}
	fmt.Println(p.Width.Text(units.Inches, 3), "wide,", p.DepthMin.Text(units.Inches, 3), "to", p.DepthMax.Text(units.Inches, 3), "deep")
	// Output: 0.375 in wide, 1.125 in to 1.875 in deep
}

// A ring 111 on a made-up piston of 5/8 in.
func ExampleRing_OnPiston() {
	ring, err := seal.LookupRing("111")
	if err != nil {
		panic(err)
	}
	s, err := ring.OnPiston(units.InchFraction(5, 8), seal.Dynamic)
	if err != nil {
		panic(err)
	}
	fmt.Printf("bottom %s to %s, stretch %.1f %%, squeeze %.0f to %.0f %%\n", s.DiameterMin.Text(units.Inches, 3), s.DiameterMax.Text(units.Inches, 3),
		100*s.Stretch, 100*s.SqueezeMin, 100*s.SqueezeMax)
	// Output: bottom 0.445 in to 0.451 in, stretch 5.7 %, squeeze 8 to 16 %
}

// A size as it is written on the bag, and one that no list has.
func ExampleLookupRing() {
	ring, err := seal.LookupRing("012")
	if err != nil {
		panic(err)
	}
	fmt.Println(ring.Inside.Text(units.Inches, 3), "by", ring.Section.Text(units.Inches, 3))
	_, err = seal.LookupRing("-012")
	fmt.Println(err)
	// Output:
	// 0.364 in by 0.070 in
	// seal: O-ring size "-012": unknown; near it: 012
}

// The smallest ring of the table.
func ExampleRings() {
	smallest := slices.MinFunc(seal.Rings(), func(a, b seal.Ring) int { return a.Inside.Cmp(b.Inside) })
	fmt.Println(smallest.Size)
	// Output: 001
}

// How deep is a groove for a section of 0.103 in, whatever the ring does?
func ExampleGrooves() {
	for _, g := range seal.Grooves() {
		if g.Section == units.Inch(0.103) {
			fmt.Printf("%s: %s to %s\n", g.Duty, g.DepthMin.Decimal(units.Inches, 3), g.DepthMax.Text(units.Inches, 3))
		}
	}
	// Output:
	// dynamic: 0.087 to 0.090 in
	// static: 0.080 to 0.086 in
	// face: 0.075 to 0.081 in
}

// What to mind when the groove of a still ring of 0.103 in is cut.
func ExampleGroove_Advice() {
	g, err := seal.GrooveFor(units.Inch(0.103), seal.Static)
	if err != nil {
		panic(err)
	}
	for _, a := range g.Advice() {
		fmt.Println("-", a.Text)
	}
	// Output:
	// - The bottom corners of the groove have a radius of 0.13 to 0.51 mm (5 to 20 thou). Break every edge that the ring passes and give bore or rod a lead-in.
	// - The surfaces that the ring touches want a finish of 0.8 um Ra (32 microinch) or finer.
	// - The clearance on the diameter is 0.13 mm (5 thou) at most, half of that for silicone; the runout of the groove is 0.08 mm (3 thou) at most.
	// - No back-up ring is needed below about 100 bar.
}

// What kinds of limit are known of EPDM?
func ExampleLimitsFor() {
	epdm, err := material.Lookup("EPDM")
	if err != nil {
		panic(err)
	}
	rows, err := seal.LimitsFor(epdm)
	if err != nil {
		panic(err)
	}
	dry := slices.ContainsFunc(rows, func(l seal.Limit) bool { return l.Dry != 0 })
	steam := slices.ContainsFunc(rows, func(l seal.Limit) bool { return l.Steam != 0 })
	oil := slices.ContainsFunc(rows, func(l seal.Limit) bool { return l.NoOil })
	fmt.Printf("dry heat %v, steam %v, not with oil %v\n", dry, steam, oil)
	// Output: dry heat true, steam true, not with oil true
}

// Does any source give paper more than 150 °C?
func ExampleLimits() {
	fmt.Println(slices.ContainsFunc(seal.Limits(), func(l seal.Limit) bool {
		return l.Material == "paper" && l.Dry > units.Celsius(150)
	}))
	// Output: false
}

// Is there a factor for cork?
func ExampleFactors() {
	fmt.Println(slices.ContainsFunc(seal.Factors(), func(f seal.Factor) bool { return f.Material == "cork" }))
	// Output: false
}

// How much thicker is brown paper of 120 g/m2 than that of 80?
func ExampleSheets() {
	var thin, thick units.Length
	for _, s := range seal.Sheets() {
		switch s.Printed {
		case "brown paper, 80 g/m2":
			thin = s.Max
		case "brown paper, 120 g/m2":
			thick = s.Max
		}
	}
	fmt.Printf("%.1f times\n", thick.Ratio(thin))
	// Output: 1.5 times
}

// Jointing of 0.5 mm between a cover and its chest, tightened to 5 MPa: between what does
// it lie?
func ExamplePressed_Thickness() {
	jointing, err := material.Lookup("jointing without asbestos")
	if err != nil {
		panic(err)
	}
	rows, err := seal.PressedFor(jointing)
	if err != nil {
		panic(err)
	}
	least, most, err := rows[0].Thickness(units.MM(0.5), 5*units.Megapascal)
	if err != nil {
		panic(err)
	}
	fmt.Println(least.Text(units.Millimetres, 3), "to", most.Text(units.Millimetres, 3))
	// Output: 0.415 mm to 0.500 mm
}

// Cork of 1.5 mm that a trial between two flats pressed to 60 percent.
func ExampleSqueezed() {
	left, err := seal.Squeezed(units.MM(1.5), 0.4)
	if err != nil {
		panic(err)
	}
	fmt.Println(left)
	// Output: 0.9 mm
}

// What stands on every page that tells people to take an old joint apart.
func ExamplePrecautions() {
	for _, p := range seal.Precautions() {
		fmt.Println(p)
	}
	// Output: Old sheet gaskets, rope and packing may hold asbestos, up to 80 percent of it. Treat grey or white material of unknown age as asbestos until a laboratory has said otherwise: keep it damp, lift it with hand tools, no power tools and no wire wheel, bag it, and follow the rules of your country for its disposal.
}

// What an O-ring may do, what a gasket may keep in, and where it may lie.
func ExampleDuties() {
	fmt.Println(seal.Duties())
	// Output: [dynamic static face]
}

func ExampleMedia() {
	fmt.Println(seal.Media())
	// Output: [steam air water oil]
}

func ExamplePlaces() {
	for _, p := range seal.Places() {
		fmt.Println(p)
	}
	// Output:
	// cylinder cover
	// chest to cylinder
	// chest cover
}

func ExampleParseDuty() {
	d, err := seal.ParseDuty("static")
	fmt.Println(d == seal.Static, err)
	_, err = seal.ParseDuty("rotary")
	fmt.Println(err)
	// Output:
	// true <nil>
	// seal: duty of the O-ring "rotary": unknown; accepted: dynamic, static, face
}

func ExampleParseMedium() {
	m, err := seal.ParseMedium("steam")
	fmt.Println(m == seal.Steam, err)
	_, err = seal.ParseMedium("gas")
	fmt.Println(err)
	// Output:
	// true <nil>
	// seal: medium "gas": unknown; accepted: steam, air, water, oil
}

func ExampleParsePlace() {
	p, err := seal.ParsePlace("cylinder cover")
	fmt.Println(p == seal.CylinderCover, err)
	_, err = seal.ParsePlace("firebox")
	fmt.Println(err)
	// Output:
	// true <nil>
	// seal: place of the gasket "firebox": unknown; accepted: cylinder cover, chest to cylinder, chest cover
}
