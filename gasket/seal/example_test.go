package seal_test

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A ring for a made-up piston of 20 mm.
func ExampleRingsOnPiston() {
	rings, err := seal.RingsOnPiston(units.MM(20), seal.Dynamic)
	if err != nil {
		panic(err)
	}
	for _, r := range rings {
		s, err := r.OnPiston(units.MM(20), seal.Dynamic)
		if err != nil {
			panic(err)
		}
		fmt.Printf("size %s: bottom %s to %s, width %s, stretch %.1f %%, squeeze %.0f to %.0f %%\n", r.Size,
			s.DiameterMin.Text(units.Millimetres, 2), s.DiameterMax.Text(units.Millimetres, 2), s.Groove.Width.Text(units.Millimetres, 2),
			100*s.Stretch, 100*s.SqueezeMin, 100*s.SqueezeMax)
	}
	// Output:
	// size 114: bottom 15.43 mm to 15.58 mm, width 3.68 mm, stretch -0.3 %, squeeze 10 to 18 %
	// size 017: bottom 17.10 mm to 17.21 mm, width 2.41 mm, stretch -0.1 %, squeeze 15 to 25 %
}

// A ring in the gland round a made-up piston rod of 1/8 in, and the same gland
// packed instead. The rubber goes by Check: what stands steam may not stand oil.
func ExampleRing_InGland() {
	rod := units.InchFraction(1, 8)
	ring, err := seal.LookupRing("006")
	if err != nil {
		panic(err)
	}
	s, err := ring.InGland(rod, seal.Dynamic)
	if err != nil {
		panic(err)
	}
	fmt.Printf("groove %s to %s in diameter, %s wide\n", s.DiameterMin.Text(units.Millimetres, 2), s.DiameterMax.Text(units.Millimetres, 2), s.Groove.Width.Text(units.Millimetres, 2))
	fmt.Printf("stretch %.1f %%, squeeze %.0f to %.0f %%, fills up to %.0f %%\n", 100*s.Stretch, 100*s.SqueezeMin, 100*s.SqueezeMax, 100*s.FillMax)
	for _, f := range s.Findings {
		fmt.Println(f.Text)
	}
	for _, a := range s.Groove.Advice() {
		fmt.Println("-", a.Text)
	}
	p, err := seal.StuffingBox{Rod: rod, Bore: units.InchFraction(1, 4)}.Packing()
	if err != nil {
		panic(err)
	}
	fmt.Printf("or packing of %s, %d to %d rings cut %s long, %s to %s deep\n", p.Width.Text(units.Millimetres, 2), p.RingsMin, p.RingsMax, p.Cut.Text(units.Millimetres, 1),
		p.DepthMin.Text(units.Millimetres, 1), p.DepthMax.Text(units.Millimetres, 1))
	// Output:
	// groove 5.97 mm to 6.07 mm in diameter, 2.41 mm wide
	// stretch 9.6 %, squeeze 12 to 24 %, fills up to 82 %
	// The ring is stretched by 9.6 percent. The guides want 5 at most and make an exception below 1/2 in, where the sizes lie far apart; it wears out sooner.
	// - The bottom corners of the groove have a radius of 0.13 to 0.38 mm (5 to 15 thou). Break every edge that the ring passes and give bore or rod a lead-in.
	// - The surface that the ring slides on wants a finish of 0.2 to 0.4 um Ra (8 to 16 microinch). Never run it dry, and lubricate it with what its rubber stands: no mineral oil on EPDM.
	// - The clearance on the diameter is 0.10 mm (4 thou) at most, half of that for silicone; the runout of the groove is 0.05 mm (2 thou) at most.
	// - No back-up ring is needed below about 100 bar.
	// or packing of 1.59 mm, 3 to 5 rings cut 15.0 mm long, 4.8 mm to 7.9 mm deep
}

// Paper under saturated steam of 4 bar.
func ExampleCheck() {
	paper, err := material.Lookup("paper")
	if err != nil {
		panic(err)
	}
	fs, err := seal.Check(paper, seal.Service{Medium: seal.Steam, Pressure: 4 * units.Bar})
	if err != nil {
		panic(err)
	}
	for _, f := range fs {
		fmt.Println(f.Text)
	}
	// Output:
	// Paper does not last at 152 °C: 121 °C is the most that any source gives it.
	// Paper has a guide limit of 121 °C; here it is 152 °C.
	// Paper has a guide limit of 100 °C; here it is 152 °C.
	// Paper has a guide limit of 1 bar; here it is 4 bar.
	// Oiled brown paper is nevertheless what small engines have always had at low pressure; whoever keeps it renews it.
}

// The studs of a made-up cover seat a gasket whose factor y is up to 14.5 MPa. Which
// sheet may it be, in oily steam of 4 bar?
func ExampleSeatedBy() {
	rows, err := seal.SeatedBy(14.5*units.Megapascal, seal.Service{Medium: seal.Steam, Pressure: 4 * units.Bar, Oiled: true})
	if err != nil {
		panic(err)
	}
	for _, f := range rows {
		fmt.Printf("%s, %s: %.1f MPa\n", f.Material, f.Printed, f.Y.In(units.Megapascal))
	}
	// Output:
	// PTFE, PTFE sheet, filled, softest: 11.4 MPa
	// jointing without asbestos, softest of a maker: 12.4 MPa
}

// Which stress seats a made-up gasket of annealed copper, by all rows in print?
func ExampleFactorsFor() {
	copper, err := material.Lookup("annealed copper")
	if err != nil {
		panic(err)
	}
	rows, err := seal.FactorsFor(copper)
	if err != nil {
		panic(err)
	}
	for _, f := range rows {
		fmt.Printf("%s: m %.2f, y %.1f MPa\n", f.Printed, f.M, f.Y.In(units.Megapascal))
	}
	// Output:
	// corrugated soft copper or brass: m 3.00, y 31.0 MPa
	// corrugated soft copper or brass with filler: m 2.75, y 25.5 MPa
	// soft copper or brass: m 4.75, y 89.6 MPa
}

// How thick is oiled paper?
func ExampleSheetsFor() {
	paper, err := material.Lookup("oiled paper")
	if err != nil {
		panic(err)
	}
	sheets, err := seal.SheetsFor(paper)
	if err != nil {
		panic(err)
	}
	fmt.Println(sheets[0].Min, "to", sheets[0].Max, "-", sheets[0].Refs)
	// Output: 0.1 mm to 0.15 mm - from memory: workshop practice
}

// The groove of a face sealed by a ring of 0.070 in section.
func ExampleGrooveFor() {
	g, err := seal.GrooveFor(units.Inch(0.070), seal.Face)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%s to %s deep, %s wide\n", g.DepthMin.Decimal(units.Millimetres, 2), g.DepthMax.Text(units.Millimetres, 2), g.Width.Text(units.Millimetres, 2))
	// Output: 1.24 to 1.37 mm deep, 2.67 mm wide
}

// Rings for a made-up valve spindle of 1/8 in.
func ExampleRingsInGland() {
	rings, err := seal.RingsInGland(units.InchFraction(1, 8), seal.Dynamic)
	if err != nil {
		panic(err)
	}
	for _, r := range rings {
		fmt.Println(r.Size, r.Inside.Text(units.Inches, 3), "by", r.Section.Text(units.Inches, 3))
	}
	// Output: 006 0.114 in by 0.070 in
}

// A cover gasket of 0.5 mm, which gives by a fifth, is replaced by paper of 0.1 mm.
func ExampleSwap() {
	was, err := seal.Squeezed(units.MM(0.5), 0.2)
	if err != nil {
		panic(err)
	}
	c, err := seal.Swap(seal.CylinderCover, was, units.MM(0.1))
	if err != nil {
		panic(err)
	}
	for _, f := range c.Findings {
		fmt.Printf("%v: %s\n", f.Severity, f.Text)
	}
	// Output: danger: The piston comes 0.30 mm nearer to the cover and may strike it.
}

// A gland of 7/16 in round a rod of 1/4 in.
func ExampleStuffingBox_Packing() {
	p, err := seal.StuffingBox{Rod: units.InchFraction(1, 4), Bore: units.InchFraction(7, 16)}.Packing()
	if err != nil {
		panic(err)
	}
	fmt.Printf("%d to %d rings of %s, cut %s long\n", p.RingsMin, p.RingsMax, p.Width.Text(units.Millimetres, 2), p.Cut.Text(units.Millimetres, 1))
	// Output: 3 to 5 rings of 2.38 mm, cut 27.4 mm long
}
