package hole_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A drill for brass, by a handbook.
func ExamplePointFor() {
	brass, _ := material.Lookup("brass")
	p, err := hole.PointFor(brass)
	fmt.Printf("%.0f deg, clearance %.0f to %.0f deg, %s helix %v\n",
		p.Angle.Degrees(), p.ClearanceMin.Degrees(), p.ClearanceMax.Degrees(), p.Helix, err)
	// Output: 130 deg, clearance 10 to 12 deg, slow helix <nil>
}

func TestPointFor(t *testing.T) {
	p, err := hole.PointFor(metal("brass"))
	if err != nil || p.Angle != 130*units.Degree || p.Helix != "slow" { // Carvill, p. 182
		t.Errorf("%+v, %v", p, err)
	}
	if p, err := hole.PointFor(metal("plastic")); err != nil || p.Angle != 30*units.Degree ||
		p.Material != "phenolic plastic" {
		t.Errorf("plastics: %+v, %v", p, err)
	}
	if p, err := hole.PointFor(metal("cast aluminium")); err != nil || p.Angle != 140*units.Degree {
		t.Errorf("cast aluminium: %+v, %v", p, err)
	}
	if _, err := hole.PointFor(metal("mild steel")); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("mild steel: %v", err)
	}
	for name, of := range map[string]string{"cartridge brass": "brass", "aluminium 2014": "aluminium",
		"PTFE": "phenolic plastic"} {
		if p, err := hole.PointFor(metal(name)); err != nil || p.Material != of {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
	}
	if _, err := hole.PointFor(material.Material{}); !errors.Is(err, units.ErrMissing) {
		t.Errorf("no material: %v", err)
	}
}
