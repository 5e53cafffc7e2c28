package assembly_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
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
		p := assembly.Press{
			Diameter: units.MM(20), Interference: units.MM(0.02), HubOutside: units.MM(30), Length: units.MM(20),
			Hub: lookup(t, "mild steel"), Shaft: lookup(t, "mild steel"), Friction: f,
		}
		if _, err := p.Solve(); err != nil {
			t.Error(err)
		}
	}
}

// What DIN 7190 gives for a bronze bush pressed on steel, and whether it was read.
func ExampleFrictions() {
	for _, f := range assembly.Frictions() {
		if f.Hub == material.Bronze {
			fmt.Printf("%s on %s, %s, %s: %g to %g, from memory: %v\n",
				f.Hub, f.Shaft, f.Assembly, f.Condition, f.Min, f.Max, f.Refs.Recalled())
		}
	}
	// Output:
	// bronze on steel, longitudinal, dry: 0.06 to 0.07, from memory: true
}
