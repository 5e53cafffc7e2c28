package thread_test

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// TH-14: what to turn before the die. M3 in 6g is 2.874 to 2.980 mm, the middle
// 2.927, and less a quarter of 0.106 2.9005; 3/8-16 in 2A 0.3643 to 0.3737 in, the
// middle 0.3690, less a quarter of 0.0094 0.36665; a model engineer thread has no limits, so 6.35 mm
// less 5 % of 0.635 is 6.318 mm, 0.2485 in to half a thou.
func TestDieBlank(t *testing.T) {
	for _, tt := range []struct {
		thread            string
		turn, middle      float64 // mm
		class             string
		smallest, largest float64
	}{
		{"M3", 2.90, 2.927, "6g", 2.874, 2.980},
		{"M6", 5.83, 5.884, "6g", 5.794, 5.974},
		{"3/8-16 UNC", 0.3665 * 25.4, 0.3690 * 25.4, "2A", 0.3643 * 25.4, 0.3737 * 25.4},
		{"1/4 x 40 ME", 0.2485 * 25.4, 0, "", 0, 0},
		{"G 1/8", 0.381 * 25.4, 0, "", 0, 0}, // 9.728 - 0.0454 = 9.683 mm, 0.3812 in
	} {
		b, err := thread.MustParse(tt.thread).DieBlank()
		near := func(a units.Length, mm float64) bool { return math.Abs(a.MM()-mm) < 0.0006 }
		if err != nil || !near(b.Turn, tt.turn) || !near(b.Middle, tt.middle) || b.Class != tt.class ||
			!near(b.Limits.Min, tt.smallest) || !near(b.Limits.Max, tt.largest) || b.Refs.IsZero() {
			t.Errorf("%s: %+v, %v", tt.thread, b, err)
		}
	}
	for _, name := range []string{"R 1/8", "1/8 NPT", "Tr 10x2", "1/2-10 Acme"} {
		if b, err := thread.MustParse(name).DieBlank(); !errors.Is(err, units.ErrUnknown) {
			t.Errorf("%s: %v, %v", name, b, err)
		}
	}
	if _, err := (thread.Thread{}).DieBlank(); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no thread: %v", err)
	}
}

// A maker of dies lists the middle of 6g, to a hundredth of a millimetre. The
// blank to turn lies within the limits of every listed thread that has them.
func TestDieBlanksPrinted(t *testing.T) {
	for r := range check.Open(t, "thread/die_blanks.csv").Rows() {
		th, err := thread.Parse(r.Text("thread"))
		if err != nil {
			r.Skip("not a listed thread")
			continue
		}
		b, err := th.DieBlank()
		if err != nil || b.Middle.IsZero() {
			r.Skip("no limits of 6g")
			continue
		}
		middle := b.Middle
		if th.Major().Cmp(units.MM(1.5)) < 0 { // of 6h, as the list has the smallest
			h, err := th.Limits("6h")
			if err != nil {
				t.Error(err)
				continue
			}
			middle = h.Major.Min.Add(h.Major.Max).Scale(0.5)
		}
		r.Within("rod_mm", middle.MM(), 0.0101) // the list cuts off or rounds the last digit
	}
	blanks := 0
	for s := thread.MetricCoarse; s <= thread.BSPParallel; s++ {
		for th := range s.All() {
			b, err := th.DieBlank()
			if err != nil || b.Turn.Cmp(th.Minor()) <= 0 || b.Turn.Cmp(th.Major()) >= 0 {
				t.Errorf("%v: %+v, %v", th, b, err)
				continue
			}
			if !b.Middle.IsZero() {
				blanks++
				if !b.Limits.Contains(b.Turn) || b.Turn.Cmp(b.Middle) >= 0 {
					t.Errorf("%v: %v is not between %v and the middle %v", th, b.Turn, b.Limits, b.Middle)
				}
			}
		}
	}
	if blanks < 250 {
		t.Errorf("%d blanks with limits", blanks)
	}
}
