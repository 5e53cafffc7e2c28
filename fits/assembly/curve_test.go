package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
)

// A trunnion of steel shrinks by 1.11 thousandths of its diameter from the
// workshop to -108 degrees F, by its mean expansion at room temperature it would
// be 1.22.
func ExampleExpansionCurve_Strain() {
	strain, err := assembly.ChilledSteel().Strain(units.Fahrenheit(80), units.Fahrenheit(-108))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f thousandths\n", 1000*strain)
	// Output:
	// -1.11 thousandths
}

func TestCurve(t *testing.T) {
	curve := assembly.ChilledSteel()
	if !curve.Refs.Recalled() {
		t.Error(curve.Refs)
	}
	turned := assembly.ExpansionCurve{Points: []assembly.ExpansionPoint{curve.Points[1], curve.Points[0]}}
	for _, test := range []struct {
		c        assembly.ExpansionCurve
		from, to units.Temperature
	}{
		{curve, units.Fahrenheit(80), units.Fahrenheit(200)},
		{curve, units.Fahrenheit(-400), units.Fahrenheit(0)},
		{assembly.ExpansionCurve{}, units.Celsius(0), units.Celsius(1)},
		{turned, units.Fahrenheit(-200), units.Fahrenheit(-180)},
		{curve, units.Temperature(math.NaN()), units.Celsius(1)},
	} {
		if _, err := test.c.Strain(test.from, test.to); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v to %v: %v", test.from, test.to, err)
		}
	}
	there, _ := curve.Strain(units.Celsius(-100), units.Celsius(20))
	back, _ := curve.Strain(units.Celsius(20), units.Celsius(-100))
	if there != -back || there <= 0 {
		t.Error(there, back)
	}
}
