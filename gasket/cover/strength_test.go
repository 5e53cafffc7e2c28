package cover

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
)

// Lobben's 1,500 psi is 10.3 MPa, his 2,500 psi 17.2 MPa.
func TestHeadStresses(t *testing.T) {
	want := []struct {
		rule, material string
		least, most    float64
	}{{"Lobben", "cast iron", 10.34, 17.24}, {"Lobben", "wrought iron", 27.58, 41.37}, {"gas-engine", "cast iron", 30, 50}}
	got := HeadStresses()
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, s := range got {
		w := want[i]
		if !strings.HasPrefix(s.Rule, w.rule) || s.Material != w.material || math.Abs(s.Min.In(units.Megapascal)-w.least) > 0.005 || math.Abs(s.Max.In(units.Megapascal)-w.most) > 0.005 || s.Refs.First().Title == "" {
			t.Errorf("%+v, want %v", s, w)
		}
	}
}

// A round cover of 28 mm under 4 bar, by hand 3 (3 + v)/8 p r^2/t^2: of cast iron,
// v = 0.26, 10.6 MPa in 3 mm, 23.9 in 2 and 61.3 in 1.25; of brass, v about 0.35,
// 10.8 in 3 mm, 68 in 1.2 and 152 in 0.8, and brass yields at 124 MPa.
func TestCheck(t *testing.T) {
	for _, test := range []struct {
		material  string
		thickness float64
		want      finding.Severity
		text      string // blank: nothing to say
		remedy    string
	}{
		{"brass", 3, 0, "", ""},
		{"brass", 1.2, finding.Fails, "more than half the yield of brass, 124.0 MPa", "Make the cover 1.30 mm"},
		{"brass", 0.8, finding.Danger, "above the yield of brass, 124.0 MPa: it bends for good and may break", "Make the cover 1.30 mm"},
		{"cast iron", 3, 0, "", ""},
		{"cast iron", 2, finding.Caution, "one rule allows 10.3 to 17.2 MPa, another more", "Make the cover 2.40 mm"}, // 2 sqrt(23.9/17.2)
		{"cast iron", 1.25, finding.Danger, "may break; the rules for covers of cast iron allow 10.3 to 17.2 MPa and 30.0 to 50.0 MPa", "Make the cover 2.40 mm (0.094 in) thick, for 17.2 MPa"},
		{"silver steel", 3, finding.Caution, "no figure for the strength of silver steel", "Take the strength of the piece in hand"},
	} {
		m, err := material.Lookup(test.material)
		if err != nil {
			t.Fatal(err)
		}
		c := Round{units.MM(28), units.MM(test.thickness), m.Elasticity.Value, m.Poisson.Value}
		plate, err := c.Under(4 * units.Bar)
		if err != nil {
			t.Fatal(err)
		}
		fs := plate.Check(m)
		if test.text == "" {
			if fs != nil {
				t.Errorf("%s, %g mm: %v", test.material, test.thickness, fs)
			}
			continue
		}
		if len(fs) != 1 || fs[0].Code != CoverStress || fs[0].Severity != test.want || !strings.Contains(fs[0].Text, test.text) ||
			!strings.HasPrefix(strings.Join(fs[0].Remedies, " "), test.remedy) || strings.Contains(fs[0].Text, "no figure") != fs[0].Refs.IsZero() {
			t.Errorf("%s, %g mm: %v", test.material, test.thickness, fs)
		}
	}
	// A material that nobody named has no figure either.
	if fs := (Plate{}).Check(material.Material{}); len(fs) != 1 || !strings.Contains(fs[0].Text, "strength of the material") {
		t.Errorf("%v", fs)
	}
}

// The clamped rim of a rectangular cover may be the worse, and then counts.
func TestGreaterStress(t *testing.T) {
	plate, err := Rectangular{Short: units.MM(22), Long: units.MM(26), Thickness: units.MM(2), Elastic: units.Gigapascal}.Under(units.Bar)
	if err != nil || plate.Clamped.Stress <= plate.Supported.Stress || plate.Stress() != plate.Clamped.Stress {
		t.Errorf("%+v, %v", plate, err)
	}
}
