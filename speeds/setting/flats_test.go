package setting_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

// A hexagon of 10 mm across the flats on bar of 12 mm.
func ExampleFlatsOn() {
	f, err := setting.FlatsOn(units.MM(12), units.MM(10), 6)
	fmt.Println(f.Depth, "deep,", f.Corners.Text(units.Millimetres, 2), "across the corners", len(f.Findings), err)
	// Output: 1 mm deep, 11.55 mm across the corners 0 <nil>
}

func TestFlatsOn(t *testing.T) {
	for _, tt := range []struct {
		name                        string
		bar, across, depth, corners float64
		n                           int
		round                       bool
	}{
		{"TH-16 hexagon of 18 mm on bar of 22.23 mm", 22.23, 18, 2.115, 20.785, 6, false},
		{"hexagon on bar that is too small", 20, 18, 1, 20.785, 6, true},
		{"square", 14.2, 10, 2.1, 14.142, 4, false},
	} {
		f, err := setting.FlatsOn(units.MM(tt.bar), units.MM(tt.across), tt.n)
		if err != nil || math.Abs(f.Depth.MM()-tt.depth) > 1e-9 || math.Abs(f.Corners.MM()-tt.corners) > 0.0005 ||
			(len(f.Findings) > 0) != tt.round {
			t.Errorf("%s: %+v, %v", tt.name, f, err)
		}
	}
	for _, bad := range []struct {
		bar, across float64
		n           int
	}{{18, 18, 6}, {10, 18, 6}, {22, 0, 6}, {-1, 18, 6}, {22, 18, 5}, {22, 18, 2}, {22, 18, 102}, {22, 18, -6}} {
		if f, err := setting.FlatsOn(units.MM(bad.bar), units.MM(bad.across), bad.n); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%+v: %+v, %v", bad, f, err)
		}
	}
}
