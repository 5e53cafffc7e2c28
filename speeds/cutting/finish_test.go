package cutting_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
)

// A feed of 0.1 mm with a nose of 0.4 mm.
func ExampleTurnedFinish() {
	f, err := cutting.TurnedFinish(units.MM(0.1), units.MM(0.4))
	fmt.Printf("Rt %.2f um, by rule %.2f um, Ra %.2f um %v\n", f.Peak.Micron(), f.Rule.Micron(), f.Average.Micron(), err)
	// Output: Rt 3.14 um, by rule 3.12 um, Ra 0.80 um <nil>
}

func TestFinish(t *testing.T) {
	f := check.Open(t, "speeds/cutting/finish.csv")
	for r := range f.Rows() {
		got, err := cutting.TurnedFinish(units.MM(r.Float("feed_mm")), units.MM(r.Float("nose_mm")))
		if err != nil {
			t.Fatal(err)
		}
		switch kind := r.Text("kind"); kind {
		case "rule":
			r.Compare("um", got.Rule.Micron())
		case "peak":
			r.Compare("um", got.Peak.Micron())
		case "average":
			r.Within("um", got.Average.Micron(), 0.01) // worked by quadrature
		}
	}
}
