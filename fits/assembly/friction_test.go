package assembly_test

import (
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
)

func TestFrictions(t *testing.T) {
	all := assembly.Frictions()
	if len(all) != 15 {
		t.Errorf("%d rows, want 15", len(all))
	}
	for _, f := range all {
		if !(0 < f.Min && f.Min <= f.Max && f.Max < 0.3) || f.Refs.First().Title == "" || f.Hub == 0 || f.Shaft == 0 {
			t.Errorf("%+v", f)
		}
		p := assembly.Press{Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(30), Length: units.MM(20), Hub: lookup(t, "mild steel"), Shaft: lookup(t, "mild steel"), Friction: f}
		if _, err := p.Solve(); err != nil {
			t.Error(err)
		}
	}
}
