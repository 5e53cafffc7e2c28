package setting_test

import (
	"fmt"

	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

// Balls of 20 mm and 10 mm in a taper bore, their tops 2 mm and 40 mm below the
// face.
func ExampleBoreTaper() {
	centres, err := setting.BallCentres(units.MM(20), units.MM(10), units.MM(2), units.MM(40))
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := setting.BoreTaper(units.MM(20), units.MM(10), centres)
	fmt.Printf("%v apart: %.3f deg %v\n", centres, a.Degrees(), err)
	mouth, err := setting.BoreMouth(units.MM(20), units.MM(2), a)
	fmt.Println(mouth.Text(units.Millimetres, 3), "at the face", err)
	// Output:
	// 33 mm apart: 17.429 deg <nil>
	// 23.912 mm at the face <nil>
}
