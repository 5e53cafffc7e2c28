package assembly_test

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The seating torques against other works: of a size that has two, the nearer.
func TestSetScrews(t *testing.T) {
	seating := map[string][]units.Torque{}
	for _, s := range assembly.SetScrews() {
		seating[s.Name] = append(seating[s.Name], s.Seating)
	}
	f := check.Open(t, "fits/assembly/setscrews.csv")
	for r := range f.Rows() {
		name, unit := r.Text("name"), units.NewtonMetre
		if r.Text("unit") == "in" {
			unit = units.PoundForceInch
		}
		nearest := math.Inf(1)
		for _, torque := range seating[name] {
			if got := float64(torque / unit); math.Abs(got-r.Float("torque")) < math.Abs(nearest-r.Float("torque")) {
				nearest = got
			}
		}
		r.Compare("torque", nearest)
	}
	// Where makers differ both figures are there, the lower first.
	two := 0
	for name, list := range seating {
		if len(list) > 2 || len(list) == 2 && list[0] >= list[1] {
			t.Errorf("%s: %v", name, list)
		}
		two += len(list) - 1
	}
	if two != 7 {
		t.Errorf("%d sizes with two torques, want 7", two)
	}
}
