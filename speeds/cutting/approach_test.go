package cutting_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
)

// The point of a 10 mm drill of 118 degrees.
func ExamplePointLength() {
	l, err := cutting.PointLength(units.MM(10), 118*units.Degree)
	fmt.Println(l.Text(units.Millimetres, 2), err)
	// Output: 3.00 mm <nil>
}

// A plain cutter of 50 mm, 5 mm deep: sqrt(5 x 45) = 15 mm.
func ExampleSlabApproach() {
	a, err := cutting.SlabApproach(units.MM(50), units.MM(5))
	fmt.Println(a, err)
	// Output: 15 mm <nil>
}

func TestApproach(t *testing.T) {
	f := check.Open(t, "speeds/cutting/approach.csv")
	for r := range f.Rows() {
		d := length(r, "diameter", "unit")
		var got units.Length
		var err error
		switch kind := r.Text("kind"); kind {
		case "slab":
			got, err = cutting.SlabApproach(d, length(r, "other", "unit"))
		case "face":
			got, err = cutting.FaceApproach(d, length(r, "other", "unit"))
		case "point":
			got, err = cutting.PointLength(d, units.Angle(r.Float("other"))*units.Degree)
		default:
			t.Fatalf("%s: kind %q", r.ID, kind)
		}
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("length", got.Ratio(units.MustLength("1 "+r.Text("unit"))))
	}
}
