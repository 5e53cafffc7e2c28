package template

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// GA-03: a line of 132 mm came out at 114 mm. Not noticed, a bolt circle of 40 mm
// becomes 34.5 mm (common arithmetic).
func TestFactor(t *testing.T) {
	got, err := Factor(units.MM(132), units.MM(114))
	if err != nil || math.Abs(got-1.158) > 0.0005 {
		t.Errorf("factor %v, %v; want 1.158", got, err)
	}
	if wrong := 40 / got; math.Abs(wrong-34.5) > 0.05 {
		t.Errorf("a circle of 40 mm comes out at %.2f, want 34.5", wrong)
	}
	for _, tt := range []struct{ drawn, printed float64 }{{0, 100}, {100, 0}, {-1, -1}, {100, 49.9}, {49.9, 100}} {
		if _, err := Factor(units.MM(tt.drawn), units.MM(tt.printed)); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", tt, err)
		}
	}
}

// GA-04, and GA-03 for pages that were fitted to the paper: the reasons for files that
// come in at the wrong size. The ratios are those of the units.
func TestCheckScale(t *testing.T) {
	for _, tt := range []struct {
		drawn, measured float64
		code            finding.Code
		want            string
	}{
		{500, 132.292, UnitsMistaken, "Millimetres were read as pixels of 1/96 in."},
		{479, 12166.6, UnitsMistaken, "Millimetres were read as inches."},
		{40, 42.667, UnitsMistaken, "Pixels of 1/96 in were read as pixels of 1/90 in."},
		{96, 72, UnitsMistaken, "Points of 1/72 in were read as pixels of 1/96 in."},
		{40, 39.2, FittedToPage, "shrunk to fit"},
		{100, 97.1, FittedToPage, "shrunk to fit"},
		{100, 102, FittedToPage, "without borders"},
		{132, 114, "", ""},
		{100, 100, "", ""},
	} {
		got, err := CheckScale(units.MM(tt.drawn), units.MM(tt.measured))
		if err != nil {
			t.Fatal(err)
		}
		if tt.want == "" {
			if got != nil {
				t.Errorf("%g came out at %g: %v, want nothing", tt.drawn, tt.measured, got)
			}
			continue
		}
		if len(got) != 1 || got[0].Code != tt.code || !strings.Contains(got[0].Text, tt.want) || len(got[0].Remedies) != 1 {
			t.Errorf("%g came out at %g: %v, want %q", tt.drawn, tt.measured, got, tt.want)
		}
	}
	for _, tt := range []struct{ drawn, measured float64 }{{0, 100}, {100, 0}, {-1, -1}} {
		if _, err := CheckScale(units.MM(tt.drawn), units.MM(tt.measured)); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", tt, err)
		}
	}
}
