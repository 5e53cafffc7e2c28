package thread_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// TH-08: a tap of M3 broke in a hole 0.300 in deep in aluminium. Leads of 7, 3
// and 1.5 pitches leave 4.1, 6.1 and 6.9 mm before the tap stands on the bottom,
// and half a millimetre less with room for chips; the tap jammed at 0.250 in
// (6.35 mm).
func TestBlindHole(t *testing.T) {
	m3 := thread.MustParse("M3")
	for tap, want := range map[thread.Tap][2]float64{thread.TaperTap: {4.12, 3.62}, thread.SecondTap: {6.12, 5.62},
		thread.BottomingTap: {6.87, 6.37}} {
		h, err := m3.ThreadInBlindHole(units.Inch(0.3), tap)
		if err != nil || math.Abs(h.Jam.MM()-want[0]) > 0.001 || math.Abs(h.Thread.MM()-want[1]) > 0.001 {
			t.Errorf("%v tap: %v, %v; want %v", tap, h, err, want)
		}
		back, err := m3.BlindHole(h.Thread, tap)
		if err != nil || back.Depth != units.Inch(0.3) || back.Thread != h.Thread || back.Jam != h.Jam {
			t.Errorf("%v tap: %v needs %v, %v", tap, h.Thread, back, err)
		}
	}
	if h, _ := m3.ThreadInBlindHole(units.Inch(0.3), thread.SecondTap); h.Diameters < 1.7 || h.Diameters > 2 {
		t.Errorf("%.2f diameters of thread", h.Diameters)
	}
	if small, large := m3.TappingPrecautions(true), thread.MustParse("M8").TappingPrecautions(false); len(small) != len(large)+2 {
		t.Errorf("precautions for a small blind hole: %v", small)
	}
}

// A hole that the lead and the chips take up is no error: it has a finding with
// the depth to go beyond, 3.5 + 0.5 mm for a taper tap of M3.
func TestBlindHoleWithoutThread(t *testing.T) {
	h, err := thread.MustParse("M3").ThreadInBlindHole(units.MM(4), thread.TaperTap)
	if err != nil || !h.Thread.IsZero() || len(h.Findings) != 1 || h.Findings[0].Code != thread.NoThread ||
		h.Findings.OK() ||
		!strings.Contains(h.Findings[0].Remedies[0], "deeper than 4.000 mm") {
		t.Errorf("%+v, %v", h, err)
	}
}

func ExampleThread_BlindHole() {
	h, err := thread.MustParse("M3").BlindHole(units.MM(6), thread.SecondTap)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(h.Depth, "without the point of the drill")
	// Output: 8 mm without the point of the drill
}

// The tip of a drill of 118 degrees reaches 0.3004 of its diameter below the full
// diameter: 7 mm with 2.5 mm goes to 7.751 mm. One of 90 degrees goes half its
// diameter deeper.
func TestBlindHoleTip(t *testing.T) {
	h, err := thread.MustParse("M3").ThreadInBlindHole(units.MM(7), thread.BottomingTap)
	if err != nil {
		t.Fatal(err)
	}
	for point, want := range map[units.Angle]float64{0: 7.7511, 118 * units.Degree: 7.7511, 90 * units.Degree: 8.25, 135 * units.Degree: 7.5178} {
		tip, err := h.Tip(units.MM(2.5), point)
		if err != nil || math.Abs(tip.MM()-want) > 0.0001 {
			t.Errorf("%v: %v, %v; want %.4f mm", point, tip, err, want)
		}
	}
	for name, err := range map[string]error{
		"no drill":  second(h.Tip(units.Length{}, 0)),
		"a flat":    second(h.Tip(units.MM(2.5), 180*units.Degree)),
		"a needle":  second(h.Tip(units.MM(2.5), 30*units.Degree)),
		"no number": second(h.Tip(units.MM(2.5), units.Angle(math.NaN()))),
	} {
		if !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func second(_ units.Length, err error) error { return err }

// The point of a drill of 2.5 mm is 0.75 mm long: a hole of 7 mm in 9 mm of iron leaves
// 1.25 mm, in 8 mm too little and in 7.7 mm nothing. The cure is the depth that leaves
// what is usual.
func TestMetalLeft(t *testing.T) {
	m3 := thread.MustParse("M3")
	h, err := m3.ThreadInBlindHole(units.MM(7), thread.BottomingTap)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		metal, left float64
		code        finding.Code
	}{
		{9.1, 1.349, ""}, {9, 1.249, ""}, {8.9, 1.149, thread.ThinBelowHole}, {8, 0.249, thread.ThinBelowHole}, {7.7, -0.051, thread.HoleBreaksThrough},
		{0.5, -7.251, thread.HoleBreaksThrough},
	} {
		left, found, err := h.Left(units.MM(2.5), 0, units.MM(tt.metal))
		if err != nil || math.Abs(left.MM()-tt.left) > 0.001 || (tt.code == "") != (len(found) == 0) {
			t.Errorf("%v mm: %v, %v, %v", tt.metal, left, found, err)
		}
		if len(found) == 0 {
			continue
		}
		if found[0].Code != tt.code || len(found[0].Remedies) == 0 {
			t.Errorf("%v mm: %v", tt.metal, found)
		}
		shallow, err := m3.ThreadInBlindHole(units.MM(7-(1.25-tt.left)), thread.BottomingTap)
		if err != nil {
			continue // nothing that leaves so much
		}
		if left, found, err := shallow.Left(units.MM(2.5), 0, units.MM(tt.metal+1e-3)); err != nil || len(found) != 0 {
			t.Errorf("%v mm, %v deep: %v, %v, %v", tt.metal, shallow.Depth, left, found, err)
		}
	}
	for _, metal := range []float64{0, -1, 1001} {
		if _, _, err := h.Left(units.MM(2.5), 0, units.MM(metal)); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v mm of metal: %v", metal, err)
		}
	}
	if _, _, err := h.Left(units.Length{}, 0, units.MM(9)); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("no drill: %v", err)
	}
}
