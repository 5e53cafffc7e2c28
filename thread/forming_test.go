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

// What is refused comes with no figure.
func TestNoDepthBesideAnError(t *testing.T) {
	m6, bsw := thread.MustParse("M6"), thread.MustParse("1/4 BSW")
	for _, ask := range []struct {
		thread.Thread
		hole float64
	}{{m6, 0}, {m6, 6}, {m6, 5}, {bsw, 6}, {thread.Thread{}, 5}} {
		if share, err := ask.FormingDepth(units.MM(ask.hole)); err == nil || share != 0 {
			t.Errorf("%v in %g mm: %g, %v", ask.Thread, ask.hole, share, err)
		}
	}
	for _, ask := range []struct {
		thread.Thread
		hole float64
		thread.Basis
	}{{m6, 0, thread.FullDepth}, {m6, 6, thread.FullDepth}, {m6, 5, 0}, {thread.MustParse("R 1/8"), 8, thread.FullDepth}, {thread.Thread{}, 5, thread.FullDepth}} {
		if share, err := ask.DepthOfThread(units.MM(ask.hole), ask.Basis); err == nil || share != 0 {
			t.Errorf("%v in %g mm: %g, %v", ask.Thread, ask.hole, share, err)
		}
		if share, err := ask.ConvertDepth(0, ask.Basis, thread.FullDepth); err == nil || share != 0 {
			t.Errorf("%v: %g, %v", ask.Thread, share, err)
		}
		if hole, err := ask.TappingHole(1.5, ask.Basis); err == nil || !hole.IsZero() {
			t.Errorf("%v: %v, %v", ask.Thread, hole, err)
		}
	}
}
