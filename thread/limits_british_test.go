package thread_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// BA tolerances are given as formulas; these rows work them by hand for sizes
// whose pitch makes whole micrometres.
func TestLimitsBA(t *testing.T) {
	mm := units.MM
	for _, test := range []struct {
		thread, class       string
		major, pitch, minor thread.Range
	}{
		// 0 BA, p = 1: 0.15, 0.08 + 0.02, 0.16 + 0.04 below 6.00, 5.400, 4.80.
		{"0 BA", "close", thread.Range{Min: mm(5.85), Max: mm(6)}, thread.Range{Min: mm(5.3), Max: mm(5.4)}, thread.Range{Min: mm(4.6), Max: mm(4.8)}},
		// Normal: 0.025 lower, then 0.20, 0.125, 0.25.
		{"0 BA", "normal", thread.Range{Min: mm(5.775), Max: mm(5.975)}, thread.Range{Min: mm(5.25), Max: mm(5.375)}, thread.Range{Min: mm(4.525), Max: mm(4.775)}},
		{"0 BA", "nut", thread.Range{Min: mm(6)}, thread.Range{Min: mm(5.4), Max: mm(5.55)}, thread.Range{Min: mm(4.8), Max: mm(5.175)}},
		// 13 BA, p = 0.25: 0.0625, 0.05, 0.10 and no allowance.
		{"13 BA", "normal", thread.Range{Min: mm(1.137), Max: mm(1.2)}, thread.Range{Min: mm(1), Max: mm(1.05)}, thread.Range{Min: mm(0.8), Max: mm(0.9)}},
	} {
		l, err := thread.MustParse(test.thread).Limits(test.class)
		if err != nil {
			t.Error(err)
			continue
		}
		if l.Major != test.major || l.PitchDiameter != test.pitch || l.Minor != test.minor {
			t.Errorf("%s %s: %v %v %v, want %v %v %v", test.thread, test.class, l.Major, l.PitchDiameter, l.Minor, test.major,
				test.pitch, test.minor)
		}
	}
}

// BS 84, from memory, worked by hand for 1 in BSW, whose roots are round:
// D = L = 1, p = 1/8: T = 0.002 + 0.003 + 0.005 x 0.353553 = 0.006768.
func TestLimitsWhitworth(t *testing.T) {
	th := thread.MustParse("1 BSW")
	for _, test := range []struct {
		class               string
		major, pitch, minor float64 // tolerances, inches
	}{
		{"close", 0.0080, 0.0045, 0.0091},
		{"medium", 0.0103, 0.0068, 0.0114},
		{"free", 0.0137, 0.0102, 0.0148},
		{"medium nut", 0, 0.0068, 0.0320},
		{"normal nut", 0, 0.0102, 0.0320},
	} {
		l, err := th.Limits(test.class)
		if err != nil {
			t.Error(err)
			continue
		}
		width := func(r thread.Range) float64 {
			if r.Max.IsZero() {
				return 0
			}
			return r.Max.Sub(r.Min).Inch()
		}
		for _, v := range [][2]float64{{width(l.Major), test.major}, {width(l.PitchDiameter), test.pitch},
			{width(l.Minor), test.minor}} {
			if math.Abs(v[0]-v[1]) > exact {
				t.Errorf("%s: tolerance %.4f in, want %.4f", test.class, v[0], v[1])
			}
		}
	}
}
