package fits_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Two parts that are made, held against a wanted clearance at both of its ends.
func TestCheckWanted(t *testing.T) {
	wanted := fits.Band{Min: units.MM(0.01), Max: units.MM(0.02)}
	for _, test := range []struct {
		shaft float64
		want  string // in the text and in the first remedy
	}{
		{19.991, "too big by 0.001 mm (0.04 thou). Take 0.001 to 0.011 mm"},
		{19.990, ""}, {19.980, ""},
		{19.979, "too small by 0.001 mm (0.04 thou). Make a shaft larger by 0.001 to 0.011 mm"},
		{20.004, "The clearance is -0.004 mm"},
	} {
		r, err := fits.Measured(units.MM(20), units.MM(test.shaft))
		if err != nil {
			t.Fatal(err)
		}
		list := r.CheckWanted(wanted)
		if test.want == "" {
			if len(list) != 0 {
				t.Errorf("%v: %v", test.shaft, list)
			}
			continue
		}
		if len(list) != 1 || list[0].Severity != finding.Fails || list[0].Code != fits.OutsideWanted ||
			!strings.Contains(list[0].Text+" "+list[0].Remedies[0], test.want) {
			t.Errorf("%v: %v", test.shaft, list)
		}
	}
}
