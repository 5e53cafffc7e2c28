package seal_test

import (
	"fmt"

	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/units"
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
			s.DiameterLeast.Text(units.Millimetres, 2), s.DiameterMost.Text(units.Millimetres, 2), s.Groove.Width.Text(units.Millimetres, 2),
			100*s.Stretch, 100*s.SqueezeLeast, 100*s.SqueezeMost)
	}
	// Output:
	// size 114: bottom 15.43 mm to 15.58 mm, width 3.68 mm, stretch -0.3 %, squeeze 10 to 18 %
	// size 017: bottom 17.10 mm to 17.21 mm, width 2.41 mm, stretch -0.1 %, squeeze 15 to 25 %
}

// A ring in the gland round a made-up piston rod of 1/8 in, and the same gland
// packed instead. The rubber goes by Check: what stands steam may not stand oil.
func ExampleRing_InGland() {
	rod := units.InchFraction(1, 8)
	ring, err := seal.RingOf("006")
	if err != nil {
		panic(err)
	}
	s, err := ring.InGland(rod, seal.Dynamic)
	if err != nil {
		panic(err)
	}
	fmt.Printf("groove %s to %s in diameter, %s wide\n", s.DiameterLeast.Text(units.Millimetres, 2), s.DiameterMost.Text(units.Millimetres, 2), s.Groove.Width.Text(units.Millimetres, 2))
	fmt.Printf("stretch %.1f %%, squeeze %.0f to %.0f %%, fills up to %.0f %%\n", 100*s.Stretch, 100*s.SqueezeLeast, 100*s.SqueezeMost, 100*s.FillMost)
	for _, f := range s.Findings {
		fmt.Println(f.Text)
	}
	for _, a := range s.Groove.Advice() {
		fmt.Println("-", a)
	}
	p, err := seal.StuffingBox{Rod: rod, Bore: units.InchFraction(1, 4)}.Packing()
	if err != nil {
		panic(err)
	}
	fmt.Printf("or packing of %s, %d to %d rings cut %s long, %s to %s deep\n", p.Width.Text(units.Millimetres, 2), p.RingsLeast, p.RingsMost, p.Cut.Text(units.Millimetres, 1),
		p.DepthLeast.Text(units.Millimetres, 1), p.DepthMost.Text(units.Millimetres, 1))
	// Output:
	// groove 5.97 mm to 6.07 mm in diameter, 2.41 mm wide
	// stretch 9.6 %, squeeze 12 to 24 %, fills up to 82 %
	// The ring is stretched by 9.6 percent. The guides want 5 at most and make an exception below 1/2 in, where the sizes lie far apart; it wears out sooner.
	// - Radius in the bottom corners of the groove 0.13 to 0.38 mm (5 to 15 thou); break every edge that the ring passes and give bore or rod a lead-in.
	// - Finish of the surface that the ring slides on 0.2 to 0.4 um Ra (8 to 16 microinch); never run it dry, and lubricate it with what its rubber stands: no mineral oil on EPDM.
	// - Clearance on the diameter 0.10 mm (4 thou) at most, half of it for silicone; runout of the groove 0.05 mm (2 thou) at most.
	// - No back-up ring below about 100 bar.
	// or packing of 1.59 mm, 3 to 5 rings cut 15.0 mm long, 4.8 mm to 7.9 mm deep
}

// Paper under saturated steam of 4 bar.
func ExampleCheck() {
	fs, err := seal.Check("paper", seal.Service{Medium: seal.Steam, Pressure: 4 * units.Bar})
	if err != nil {
		panic(err)
	}
	for _, f := range fs {
		fmt.Println(f.Text)
	}
	// Output:
	// Paper has a guide limit of 121 °C; here it is 152 °C.
	// Paper has a guide limit of 100 °C; here it is 152 °C.
	// Paper has a guide limit of 1 bar; here it is 4 bar.
	// Oiled brown paper is nevertheless what small engines have always had; expect to renew it.
}
