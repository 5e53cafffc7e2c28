package screwcut

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
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

// 29 degrees is for a thread of 60: at 55 the groove of 0.435 mm is wider at the crests by
// 0.435 * (tan 29 - tan 27.5) = 0.435 * (0.554309 - 0.520567) = 0.01468 mm.
func TestCheckSlide(t *testing.T) {
	for _, tt := range []struct {
		thread string
		set    float64
		wide   string // blank: nothing to say
	}{
		{"1/4x40", 29, "0.015 mm (0.6 thou) too wide"}, {"4-40", 29, ""}, {"4-40", 30, ""}, {"1/4x40", 27.5, ""},
		{"2 BA", 29.5, "too wide"}, {"2 BA", 23.75, ""}, {"M8", 0, ""}, {"M8", 30.5, "too wide"},
	} {
		set, err := units.ParseAngle(fmt.Sprintf("%g deg", tt.set))
		if err != nil {
			t.Fatal(err)
		}
		got, err := CheckSlide(thread.MustParse(tt.thread), units.MM(0.435), set)
		if err != nil || (tt.wide == "") != (len(got) == 0) {
			t.Errorf("%s at %g: %v, %v", tt.thread, tt.set, got, err)
		}
		if tt.wide != "" && len(got) == 1 && (got[0].Code != SlideOverset || !strings.Contains(got[0].Text, tt.wide)) {
			t.Errorf("%s at %g: %v, want %q", tt.thread, tt.set, got, tt.wide)
		}
		if usual, err := CheckSlide(thread.MustParse(tt.thread), units.MM(0.435), SlideAngleFor(thread.MustParse(tt.thread))); err != nil || len(usual) > 0 {
			t.Errorf("%s at its usual angle: %v, %v", tt.thread, usual, err)
		}
	}
	if _, err := CheckSlide(thread.Thread{}, units.MM(1), 0); err == nil {
		t.Error("no thread")
	}
	if _, err := CheckSlide(thread.MustParse("M8"), units.MM(1), units.Angle(math.NaN())); err == nil {
		t.Error("an angle that is no number")
	}
}
