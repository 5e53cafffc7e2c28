package joint

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// For 3 mm studs the three rules give 9 to 18, 15 to 30 and 33 to 49 mm.
func TestSpacingRules(t *testing.T) {
	rules, err := SpacingRules(units.MM(3))
	if err != nil {
		t.Fatal(err)
	}
	want := [][2]float64{{9, 18}, {15, 30}, {32.909, 49.363}}
	for i, r := range rules {
		if math.Abs(r.Min.MM()-want[i][0]) > 0.001 || math.Abs(r.Max.MM()-want[i][1]) > 0.001 {
			t.Errorf("%s: %v to %v, want %v", r.Name, r.Min, r.Max, want[i])
		}
		if !r.Contains(r.Min) || !r.Contains(r.Max) || r.Contains(r.Max.Add(units.MM(0.1))) || r.Contains(r.Min.Sub(units.MM(0.1))) {
			t.Errorf("%s: limits", r.Name)
		}
	}
}

// Six studs on 28 mm stand 14 mm apart; two by three on 23 by 33 mm up to 23 mm.
// Of a row the gap between its ends is none.
func TestSpacingOf(t *testing.T) {
	six, err := gasket.BoltCircle(6, units.MM(28), 90*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	chest, err := gasket.Rectangle(2, 3, units.MM(23), units.MM(33))
	if err != nil {
		t.Fatal(err)
	}
	row := gasket.Pattern{{At: gasket.Point{X: units.MM(12)}}, {}, {At: gasket.Point{X: units.MM(23)}}}
	for _, test := range []struct {
		name   string
		p      gasket.Pattern
		stud   float64
		widest float64
		kept   string
		remedy string
	}{
		{"six of M3", six, 3, 14, "3 to 6 diameters", ""},
		{"chest of M3", chest, 3, 23, "5 to 10 diameters", ""},
		{"six of M5", six, 5, 14, "", "Take fewer studs"},
		{"six of M1", six, 1, 14, "", "Take more studs"},
		{"in a row", row, 3, 12, "3 to 6 diameters", ""},
	} {
		s, err := SpacingOf(test.p, units.MM(test.stud))
		if err != nil || math.Abs(s.Widest.MM()-test.widest) > 1e-9 {
			t.Errorf("%s: %v, %v", test.name, s.Widest, err)
			continue
		}
		var kept []string
		for _, r := range s.Kept() {
			kept = append(kept, r.Name)
		}
		if strings.Join(kept, ", ") != test.kept || (len(s.Findings) > 0) != (test.kept == "") {
			t.Errorf("%s: kept %v, %v", test.name, kept, s.Findings)
		}
		if test.kept == "" && (s.Findings[0].Severity != finding.Note || s.Findings[0].Refs.Len() != 3 || !strings.HasPrefix(s.Findings[0].Remedies[0], test.remedy)) {
			t.Errorf("%s: %v", test.name, s.Findings)
		}
	}
}

func TestSpacingRefuses(t *testing.T) {
	second := check.Only
	six, _ := gasket.BoltCircle(6, units.MM(28), 0)
	check.Refuses(t, "no diameter", second(SpacingRules(units.MM(0))), units.ErrOutOfRange, "diameter of the studs")
	check.Refuses(t, "giant", second(SpacingRules(units.MM(1001))), units.ErrOutOfRange, "up to 1 m")
	check.Refuses(t, "one stud", second(SpacingOf(six[:1], units.MM(3))), units.ErrOutOfRange, "2 to 500")
	check.Refuses(t, "no diameter of a pattern", second(SpacingOf(six, units.MM(0))), units.ErrOutOfRange, "diameter of the studs")
}
