package thread_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// TH-07: two rules for forming taps, worked by hand: 0.25 - 0.68 x 0.65 x 0.05 in, and
// D - 0.42 p or 0.49 p.
func TestFormingHole(t *testing.T) {
	for _, test := range []struct {
		thread           string
		byDepth, byPitch units.Length
	}{
		{"1/4-20", units.Inch(0.2279), units.Inch(0.2255)},
		{"M3", units.MM(2.779), units.MM(2.79)},
		{"M5", units.MM(4.6464), units.MM(4.664)}, // 0.8 mm still takes 0.42
		{"M10", units.MM(9.337), units.MM(9.265)},
	} {
		h, err := thread.MustParse(test.thread).FormingHole(0.65)
		if err != nil || h.ByDepth.Sub(test.byDepth).Abs().Cmp(units.Micron(1)) > 0 ||
			h.ByPitch.Sub(test.byPitch).Abs().Cmp(units.Micron(1)) > 0 {
			t.Errorf("%s: %v, %v; want %v and %v", test.thread, h, err, test.byDepth, test.byPitch)
		}
	}
	share, err := thread.MustParse("M3").FormingDepth(units.MM(2.8))
	if err != nil || math.Abs(share-0.588) > 0.0005 {
		t.Errorf("2.8 mm for M3: %.4f, %v", share, err)
	}
}

func ExampleThread_FormingHole() {
	h, err := thread.MustParse("M3").FormingHole(0.65)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(h.ByDepth, "or", h.ByPitch)
	// Output: 2.779 mm or 2.79 mm
}
