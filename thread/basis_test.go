package thread_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"pgregory.net/rapid"
)

func TestPercentOfThreadPrinted(t *testing.T) {
	open(t, "percent.csv", "thread", func(row *check.Row, th thread.Thread) {
		drill := units.Inch(row.Float("drill_in"))
		depth, err := th.DepthOfThread(drill, thread.ThreeQuarterHeight)
		size := gauge.Size{Name: row.Text("drill_in") + " in", Diameter: drill}
		choice, errChoice := th.CheckTappingDrill(size, thread.ThreeQuarterHeight)
		if err := errors.Join(err, errChoice); err != nil {
			t.Error(err)
			return
		}
		row.Within("percent", 100*depth, row.Float("tolerance"))
		row.Within("percent", 100*choice.Depth, row.Float("tolerance"))
	})
}

// TH-01: M6 in a hole of 5 mm is 81.5, 92.4 or 77.0 % by what a full thread is: 1 mm
// over 1.2269, 1.0825 and 1.2990 mm. The full depth is bored to 4.773 mm, the
// internal height to 4.917 mm, and a share of one basis converts to the others.
func TestThreePercentages(t *testing.T) {
	m6 := thread.MustParse("M6")
	for basis, want := range map[thread.Basis]float64{
		thread.FullDepth: 81.5, thread.InternalHeight: 92.4, thread.ThreeQuarterHeight: 77.0,
	} {
		share, err := m6.DepthOfThread(units.MM(5), basis)
		if err != nil || math.Abs(100*share-want) > 0.05 {
			t.Errorf("%v: %.4f, %v; want %.1f %%", basis, share, err, want)
		}
		if back, err := m6.ConvertDepth(share, basis, thread.InternalHeight); err != nil || math.Abs(100*back-92.4) > 0.05 {
			t.Errorf("%v converted: %.4f, %v", basis, back, err)
		}
	}
	if hole, err := m6.TappingHole(1, thread.InternalHeight); err != nil || math.Abs(hole.MM()-4.917) > 0.0006 {
		t.Errorf("the whole internal height: %v, %v", hole, err)
	}
	if root := m6.Major().Sub(m6.Depth().Scale(2)); math.Abs(root.MM()-4.773) > 0.0006 {
		t.Errorf("the full depth: %v", root)
	}
}

// TH-02: 1/4-20 by shares of three quarters of the height, D - share * 1.299 / 20.
func TestSharesOfAQuarter(t *testing.T) {
	th := thread.MustParse("1/4-20")
	for share, want := range map[float64]float64{0.5: 0.2175, 0.6: 0.2110, 0.65: 0.2078, 0.7: 0.2045, 0.75: 0.2013} {
		hole, err := th.TappingHole(share, thread.ThreeQuarterHeight)
		if err != nil || math.Abs(hole.Inch()-want) > 0.00006 {
			t.Errorf("%g: %v, %v; want %.4f in", share, hole, err, want)
		}
	}
	if share, err := th.DepthOfThread(units.Inch(0.201), thread.ThreeQuarterHeight); err != nil || math.Abs(100*share-75.4) > 0.05 {
		t.Errorf("#7: %.4f, %v", share, err)
	}
}

// Two answers to 75 % of 10-32, both by formulas of Machinery's Handbook: with
// 1.08253 / n the drill is 0.1646 in, with 1.299 / n it is 0.1595 in.
func TestTwoFormulasForOneShare(t *testing.T) {
	th := thread.MustParse("10-32")
	for basis, want := range map[thread.Basis]float64{thread.InternalHeight: 0.1646, thread.ThreeQuarterHeight: 0.1595} {
		hole, err := th.TappingHole(0.75, basis)
		if err != nil || math.Abs(hole.Inch()-want) > 0.00006 { // 0.15955 is printed 0.1595
			t.Errorf("%v: %v, %v; want %v in", basis, hole, err, want)
		}
	}
}

// M5 in a hole of 4.3 mm, 0.7 mm less on a pitch of 0.8: three shares, each on its
// own basis. Worked from the profile of ISO 68-1. (Invented figures.)
func ExampleThread_DepthOfThread() {
	m5 := thread.MustParse("M5")
	for _, basis := range []thread.Basis{thread.FullDepth, thread.InternalHeight, thread.ThreeQuarterHeight} {
		depth, err := m5.DepthOfThread(units.MM(4.3), basis)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f %% of %v\n", 100*depth, basis)
	}
	// Output:
	// 71.3 % of full depth
	// 80.8 % of internal height
	// 67.4 % of three-quarter height
}

// 1/4-20 by D - share 1.299 / n, worked by hand.
func TestTappingHoleByShare(t *testing.T) {
	th := thread.MustParse("1/4-20")
	for share, want := range map[float64]float64{0.50: 0.2175, 0.60: 0.2110, 0.65: 0.2078, 0.70: 0.2045, 0.75: 0.2013} {
		hole, err := th.TappingHole(share, thread.ThreeQuarterHeight)
		if err != nil || math.Abs(hole.Inch()-want) > 0.0001 {
			t.Errorf("%.0f %%: %v, %v; want %v in", 100*share, hole, err, want)
		}
	}
	depth, err := th.DepthOfThread(size(t, "#7").Diameter, thread.ThreeQuarterHeight)
	if err != nil || math.Abs(depth-0.754) > 0.0005 {
		t.Errorf("#7 gives %.4f, %v; want 0.754", depth, err)
	}
}

// A hole and its share are inverse on every basis, and bases convert back.
func TestTappingRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"M3", "M10x1", "1/4-20", "2 BA", "1/4 BSF", "1/4x40 ME", "G 1/8", "Tr 10x2",
			"1/8x40 BSC"}).Draw(t, "thread")
		basis := rapid.SampledFrom([]thread.Basis{thread.FullDepth, thread.InternalHeight, thread.ThreeQuarterHeight}).Draw(t,
			"basis")
		share := rapid.Float64Range(0.05, 1).Draw(t, "share")
		th := thread.MustParse(name)
		hole, err := th.TappingHole(share, basis)
		if err != nil {
			return
		}
		back, err := th.DepthOfThread(hole, basis)
		if err != nil || math.Abs(back-share) > 1e-8 {
			t.Fatalf("%s, %.4f of %v: hole %v is %.10f, %v", name, share, basis, hole, back, err)
		}
		for _, other := range []thread.Basis{thread.FullDepth, thread.InternalHeight} {
			there, err1 := th.ConvertDepth(share, basis, other)
			again, err2 := th.ConvertDepth(there, other, basis)
			if err1 != nil || err2 != nil || math.Abs(again-share) > 1e-12 {
				t.Fatalf("%s: %v to %v: %v, %v, %v, %v", name, basis, other, there, again, err1, err2)
			}
		}
	})
}

func ExampleThread_TappingHole() {
	m6 := thread.MustParse("M6")
	for _, basis := range []thread.Basis{thread.FullDepth, thread.InternalHeight, thread.ThreeQuarterHeight} {
		hole, err := m6.TappingHole(0.75, basis)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(hole.Text(units.Millimetres, 3), "leaves 75 % of the", basis)
	}
	// Output:
	// 5.080 mm leaves 75 % of the full depth
	// 5.188 mm leaves 75 % of the internal height
	// 5.026 mm leaves 75 % of the three-quarter height
}
