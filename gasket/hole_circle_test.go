package gasket_test

import (
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestHoleCircleAboutACentre(t *testing.T) {
	for r := range check.Open(t, "gasket/hole_circle.csv").Rows() {
		p, err := gasket.BoltCircle(int(r.Float("holes")), units.MM(r.Float("diameter")), units.Angle(r.Float("first"))*units.Degree)
		if err != nil {
			t.Fatal(err)
		}
		datum := gasket.Datum{Origin: mm(-r.Float("centre_x"), -r.Float("centre_y"))}
		hole := p.From(datum)[int(r.Float("hole"))-1]
		r.Within("x", hole.X.MM(), 0.00005) // worked to four places, ends of 0 left off
		r.Within("y", hole.Y.MM(), 0.00005)
	}
}
