package hole_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
)

// A 6 mm hole, by a standard for general machine work.
func ExampleDrilledFor() {
	h, err := hole.DrilledFor(units.MM(6))
	fmt.Println(h.Min.Text(units.Millimetres, 2), "to", h.Max.Text(units.Millimetres, 2), err)
	// Output: 5.97 mm to 6.13 mm <nil>
}

func TestDrilledFor(t *testing.T) {
	for _, tt := range []struct{ drill, min, max units.Length }{
		{units.Thou(13.5), units.Thou(12.5), units.Thou(17.5)},
		{units.Inch(0.125), units.Inch(0.124), units.Inch(0.129)},
		{units.Inch(0.126), units.Inch(0.125), units.Inch(0.131)},
		{units.Inch(0.5), units.Inch(0.499), units.Inch(0.506)},
		{units.Inch(2), units.Inch(1.999), units.Inch(2.012)},
	} { // AND10387, drilled hole size tolerance
		got, err := hole.DrilledFor(tt.drill)
		if err != nil || got.Min != tt.min || got.Max != tt.max || got.Refs.First().Title == "" {
			t.Errorf("%v: %+v, %v", tt.drill, got, err)
		}
	}
	for _, d := range []units.Length{units.Length{}, units.Thou(13), units.Inch(2.001)} {
		if _, err := hole.DrilledFor(d); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", d, err)
		}
	}
}
