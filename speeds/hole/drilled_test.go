package hole_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
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
	f := check.Open(t, "speeds/hole/drilled.csv")
	for r := range f.Rows() {
		for _, end := range []string{"from", "to"} {
			drill := units.Inch(r.Float(end))
			got, err := hole.DrilledFor(drill)
			if err != nil || got.Refs.First().Title == "" {
				t.Fatalf("%s: %v: %+v, %v", r.ID, drill, got, err)
			}
			r.Compare("plus", got.Max.Sub(drill).In(units.Inches))
			r.Compare("minus", drill.Sub(got.Min).In(units.Inches))
		}
	}
	for _, d := range []units.Length{units.Length{}, units.Thou(13.499), units.Inch(2.001)} {
		if _, err := hole.DrilledFor(d); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", d, err)
		}
	}
}
