package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

func TestFrictions(t *testing.T) {
	for _, f := range assembly.Frictions() {
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

func TestFrictionsTwice(t *testing.T) {
	f := check.Open(t, "fits/assembly/friction.csv")
	for r := range f.Rows() {
		all := assembly.Frictions()
		i := slices.IndexFunc(all, func(f assembly.Friction) bool {
			return f.Hub.String() == r.Text("hub") && f.Shaft.String() == r.Text("shaft") &&
				f.Assembly == r.Text("assembly") && f.Condition == r.Text("condition")
		})
		if i < 0 {
			t.Errorf("%s: no such coefficient", r.ID)
			continue
		}
		r.Within("low", all[i].Min, 0) // exact
		r.Within("high", all[i].Max, 0)
	}
}

// A number that is none gives no coefficient, which every calculation refuses.
func TestMu(t *testing.T) {
	for _, mu := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if f := assembly.Mu(mu); f.Min != 0 || f.Max != 0 || !errors.Is(f.Validate(), units.ErrMissing) {
			t.Errorf("Mu(%g) is %+v, %v", mu, f, f.Validate())
		}
	}
	for _, mu := range []float64{-0.1, 1.5} { // the error names what was given
		if err := assembly.Mu(mu).Validate(); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), fmt.Sprint(mu)) {
			t.Errorf("Mu(%g): %v", mu, err)
		}
	}
	if f := assembly.Mu(0.12); f.Min != 0.12 || f.Max != 0.12 || f.Validate() != nil {
		t.Errorf("%+v", f)
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
