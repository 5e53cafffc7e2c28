package assembly_test

import (
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// The seating torques against a second work.
func TestSetScrews(t *testing.T) {
	seating := map[string]units.Torque{}
	for _, s := range assembly.SetScrews() {
		seating[s.Name] = s.Seating
	}
	f := check.Open(t, "fits/assembly/setscrews.csv")
	for r := range f.Rows() {
		name := r.Text("name")
		got := float64(seating[name] / units.PoundForceInch)
		if name == "#8" || name == "#10" {
			if got <= r.Float("torque_lbf_in") {
				t.Errorf("%s: %g lbf in, and the lower of two figures in print is %s", name, got, r.Text("torque_lbf_in"))
			}
			r.Skip("the works disagree")
			continue
		}
		r.Compare("torque_lbf_in", got)
	}
}
