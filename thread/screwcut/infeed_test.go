package screwcut

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestInfeedAlongSlide(t *testing.T) {
	for _, tt := range []struct {
		name  string
		depth float64 // per pitch
		set   units.Angle
		want  float64 // per pitch
	}{
		// Worked from depth / cos set; no published worked example was found.
		{"ISO external, 29.5 degrees (the setting of a naval machinists' course)", 0.6134, 29.5 * units.Degree, 0.7048},
		{"ISO external, 30 degrees", 0.6134, 30 * units.Degree, 0.7083},
		{"Whitworth, 27.5 degrees", 0.6403, 27.5 * units.Degree, 0.7219},
		{"BA, 23.75 degrees", 0.6, 23.75 * units.Degree, 0.6555},
		{"square on", 0.6134, 0, 0.6134},
	} {
		got, err := InfeedAlongSlide(units.MM(tt.depth), tt.set)
		if err != nil || math.Abs(got.MM()-tt.want) > 0.00006 {
			t.Errorf("%s: %v, %v; want %g mm", tt.name, got, err, tt.want)
		}
	}
	for _, bad := range []struct {
		depth units.Length
		set   units.Angle
	}{{units.MM(0), 0}, {units.MM(-1), 0}, {units.MM(1), 60 * units.Degree}, {units.MM(1), -1}, {units.MM(1),
		units.Angle(math.NaN())}} {
		if got, err := InfeedAlongSlide(bad.depth, bad.set); err == nil {
			t.Errorf("InfeedAlongSlide(%v, %v) = %v", bad.depth, bad.set, got)
		}
	}
}
