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
