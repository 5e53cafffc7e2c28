package assembly_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Whether the press bends the shaft depends on the length of the joint and on the
// friction: force over section is 4 mu p L/d of a solid shaft.
func TestPushBends(t *testing.T) {
	p := assembly.Press{
		Diameter: units.MM(6), Interference: units.MM(0.006), HubOutside: units.MM(20), Length: units.MM(12),
		Hub: lookup(t, "mild steel"), Shaft: lookup(t, "mild steel"), Friction: assembly.Mu(0.15),
	}
	for _, test := range []struct {
		name  string
		bends bool
		with  func(*assembly.Press)
	}{
		{"4 x 0.15 x 94 MPa x 2 = 113 MPa", false, func(*assembly.Press) {}},
		{"twice as long, 226 MPa", true, func(p *assembly.Press) { p.Length = units.MM(24) }},
		{"of a tougher metal", false, func(p *assembly.Press) { p.Length, p.Shaft = units.MM(24), lookup(t, "alloy steel") }},
		{"solid and 22 mm long, 207 MPa", false, func(p *assembly.Press) { p.Length = units.MM(22) }},
		{"that, hollow", true, func(p *assembly.Press) { p.Length, p.ShaftBore = units.MM(22), units.MM(4.5) }},
		{"of no known strength", false, func(p *assembly.Press) {
			p.Length, p.Shaft.Yield.Refs, p.Shaft.Yield.Value = units.MM(24), source.Refs{}, 0
		}},
	} {
		q := p
		test.with(&q)
		r, err := q.Solve()
		if err != nil {
			t.Fatal(test.name, err)
		}
		got := slices.ContainsFunc(r.Findings, func(f finding.Finding) bool {
			return f.Code == assembly.PushBends && f.Severity == finding.Caution && strings.Contains(f.Text, "bends")
		})
		if got != test.bends {
			t.Errorf("%s: %t; %v, axial %v", test.name, got, r.Findings, r.Axial.Max)
		}
	}
}

// Nobody takes more off an interference than there is of it: a working clearance
// wider than what the heat gives is no question of the interference.
func TestRemedyTakesNoMoreThanThereIs(t *testing.T) {
	s := assembly.Shrink{
		Diameter: units.MM(20), Interference: units.MM(0.02), Hub: lookup(t, "mild steel"), Shaft: lookup(t, "mild steel"),
		Room: units.Celsius(20), HubAt: units.Celsius(60), ShaftAt: units.Celsius(20),
	}
	for _, test := range []struct {
		clearance units.Length
		down      bool
	}{{units.MM(0.02), false}, {units.MM(0.005), true}} {
		s.Clearance = test.clearance
		r, err := s.Solve()
		if err != nil || len(r.Findings) == 0 {
			t.Fatal(r, err)
		}
		text := strings.Join(r.Findings[0].Remedies, " ")
		if r.Findings[0].Code != assembly.DoesNotEnter || strings.Contains(text, "bring the interference down") != test.down ||
			!strings.Contains(text, "eat the hub to") {
			t.Errorf("clearance %v: %+v", test.clearance, r.Findings[0])
		}
	}
}
