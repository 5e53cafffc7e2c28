package cutting_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
)

// A 10 mm cutter that takes 1 mm leaves chips of 0.6 of the feed at the thickest.
func ExampleGreatestChip() {
	fz, w, d := units.MM(0.05), units.MM(1), units.MM(10)
	h, err := cutting.GreatestChip(fz, w, d)
	fmt.Println(h, err)
	mean, err := cutting.MeanChip(fz, w, d)
	fmt.Println(mean.Text(units.Millimetres, 4), err)
	back, err := cutting.FeedForChip(h, w, d)
	fmt.Println(back, err)
	// Output:
	// 0.03 mm <nil>
	// 0.0158 mm <nil>
	// 0.05 mm <nil>
}

// An edge at 45 degrees thins the chip.
func ExampleChipThickness() {
	h, err := cutting.ChipThickness(units.MM(0.2), 45*units.Degree)
	fmt.Println(h.Text(units.Millimetres, 3), err)
	// Output: 0.141 mm <nil>
}

func TestChip(t *testing.T) {
	f := check.Open(t, "speeds/cutting/chip.csv")
	for r := range f.Rows() {
		w, d := units.MM(20*r.Float("width")), units.MM(20)
		h, err := cutting.GreatestChip(units.MM(1), w, d)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("greatest", h.MM())
		m, err := cutting.MeanChip(units.MM(1), w, d)
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("mean", m.MM())
		back, err := cutting.FeedForChip(h, w, d)
		if err != nil || math.Abs(back.MM()-1) > 1e-8 {
			t.Errorf("%s: back to %v, %v", r.ID, back, err)
		}
	}
	// Beyond half the cutter the chip is thickest on the middle line, at the feed.
	h, err := cutting.GreatestChip(units.MM(0.1), units.MM(16), units.MM(20))
	if err != nil || h != units.MM(0.1) {
		t.Errorf("a wide cut: %v, %v", h, err)
	}
	m, err := cutting.MeanChip(units.MM(0.1), units.MM(16), units.MM(20))
	if err != nil || math.Abs(m.MM()-0.1*math.Sqrt2/2) > 1e-9 {
		t.Errorf("a wide cut, mean: %v, %v", m, err)
	}
	// A milling catalogue's chip of 0.08 mm with the edge at 42 degrees: fz 0.12.
	unit, err := cutting.ChipThickness(units.MM(1), 42*units.Degree)
	if err != nil || math.Abs(0.08/unit.MM()-0.12) > 0.005 {
		t.Errorf("lead angle: %v, %v", unit, err)
	}
}
