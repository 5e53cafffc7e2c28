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

// One drill before a 6 mm reamer and one before a 1/4 in one, from drills in tenths
// of a millimetre.
func ExampleReamingDrillFor() {
	mine, _ := gauge.ParseSet("1-13x0.1 mm")
	gunmetal, _ := material.Lookup("gunmetal")
	for _, reamer := range []units.Length{units.MM(6), units.InchFraction(1, 4)} {
		d, err := hole.ReamingDrillFor(reamer, gunmetal, mine)
		fmt.Println(d, err)
	}
	// Output:
	// 5.7 mm, by the rule trade-training <nil>
	// 6.1 mm, by the rule trade-training <nil>
}

// SP-05: the drill is one, by the rule of a trade-training note, from 5.65 to 5.75 mm
// before 6 mm and from 6.00 to 6.10 before 1/4 in; 15/64 in, 5.953 mm, is inside the
// rule of a text of 1914.
func TestReamingDrillFor(t *testing.T) {
	for _, tt := range []struct {
		name, drawer string
		reamer       units.Length
		want         units.Length
		rule         string
		says         string // of the finding; blank: none
	}{
		{"SP-05 6 mm", "1-13x0.1 mm", units.MM(6), units.MM(5.7), "trade-training", ""},
		{"SP-05 6 mm, finer drills", "1-13x0.05 mm", units.MM(6), units.MM(5.7), "trade-training", ""},
		{"SP-05 1/4 in", "1-13x0.1 mm, 1/16-1/2x1/64 in", units.InchFraction(1, 4), units.MM(6.1), "trade-training", ""},
		{"SP-05 1/4 in, finer drills", "1-13x0.05 mm", units.InchFraction(1, 4), units.MM(6.05), "trade-training", ""},
		{"SP-05 1/4 in from 64ths", "1/16-1/2x1/64 in", units.InchFraction(1, 4), units.InchFraction(15, 64), "usual stock",
			"No drill of the set lies from 6.00 mm to 6.10 mm"},
		{"nothing near", "1-13x0.5 mm", units.MM(5.9), units.Length{}, "", "bore to size"},
	} {
		set, err := gauge.ParseSet(tt.drawer)
		if err != nil {
			t.Fatal(err)
		}
		d, err := hole.ReamingDrillFor(tt.reamer, metal("gunmetal"), set)
		if err != nil || d.Drill.Diameter != tt.want || d.By.Rule != tt.rule || (len(d.Findings) > 0) != (tt.says != "") {
			t.Errorf("%s: %v, %v, %v; want %v by %s", tt.name, d, d.Findings, err, tt.want, tt.rule)
			continue
		}
		if tt.says != "" && !strings.Contains(strings.ToLower(d.Findings[0].String()), strings.ToLower(tt.says)) {
			t.Errorf("%s: %v, want %q", tt.name, d.Findings, tt.says)
		}
		if !tt.want.IsZero() && (!d.By.Contains(d.Drill.Diameter) || d.Drill.Diameter.Cmp(d.By.NeverBelow) < 0) {
			t.Errorf("%s: %v is outside %+v", tt.name, d, d.By)
		}
	}
	if _, err := hole.ReamingDrillFor(units.MM(6), metal("brass"), gauge.Set{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no drills: %v", err)
	}
	if _, err := hole.ReamingDrillFor(units.MM(600), metal("brass"), gauge.Metric()); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("600 mm: %v", err)
	}
}
