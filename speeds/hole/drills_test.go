package hole_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// A drawer in steps of 0.05 mm has three drills for a 6 mm reamer.
func ExampleReaming_Drills() {
	mine, _ := gauge.ParseSet("1-6x0.05 mm")
	gunmetal, _ := material.Lookup("gunmetal")
	holes, _ := hole.ReamingFor(units.MM(6), gunmetal)
	drills, err := holes[0].Drills(mine)
	fmt.Println(drills.Sizes, drills.Findings.OK(), err)
	// Output: [5.65 mm 5.7 mm 5.75 mm] true <nil>
}

// A drawer in steps of half a millimetre has no 4.2 mm drill.
func ExampleDrillsFor() {
	mine, _ := gauge.ParseSet("1-6x0.5 mm")
	drills, err := hole.DrillsFor(units.MM(4.2), mine)
	fmt.Println(drills.Sizes, err)
	for _, f := range drills.Findings {
		fmt.Println(f)
	}
	// Output:
	// [4 mm] <nil>
	// note: There is no drill of 4.2 mm in the set. The drill of 4 mm is nearest, -0.200 mm on the diameter.
}

func TestDrillsFor(t *testing.T) {
	mine, err := gauge.ParseSet("1-6x0.5 mm")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		d    float64
		want []float64
		text string // of the finding; blank: none
	}{
		{4, []float64{4}, ""},
		{4.8, []float64{5}, "+0.200 mm on the diameter"},
		{7.8, nil, "There is no drill of 7.8 mm in the set, which goes from 1 mm to 6 mm."},
		{0.4, nil, "bore a hole that is too large"},
	} {
		got, err := hole.DrillsFor(units.MM(tt.d), mine)
		if err != nil || len(got.Sizes) != len(tt.want) || len(tt.want) > 0 && got.Sizes[0].Diameter != units.MM(tt.want[0]) {
			t.Errorf("%v: %v, %v", tt.d, got, err)
		}
		if tt.text == "" && got.Findings != nil || tt.text != "" &&
			(len(got.Findings) != 1 || got.Findings[0].Code != hole.NoDrill ||
				!strings.Contains(got.Findings[0].String(), tt.text)) {
			t.Errorf("%v: %v", tt.d, got.Findings)
		}
	}
	if _, err := hole.DrillsFor(units.MM(4), gauge.Set{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no drills: %v", err)
	}
	if _, err := hole.DrillsFor(units.Length{}, mine); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("no diameter: %v", err)
	}
}

func TestReamingDrills(t *testing.T) {
	holes, err := hole.ReamingFor(units.MM(5), metal("brass"))
	if err != nil {
		t.Fatal(err)
	}
	mine, err := gauge.ParseSet("1-6x0.5 mm")
	if err != nil {
		t.Fatal(err)
	}
	got, err := holes[0].Drills(mine)
	if err != nil || len(got.Sizes) != 0 || len(got.Findings) != 1 || got.Findings[0].Code != hole.NoDrill ||
		!strings.Contains(got.Findings[0].Text, "from 4.75 mm to 4.85 mm") || got.Findings[0].Refs.IsZero() {
		t.Errorf("%+v, %v", got, err)
	}
}
