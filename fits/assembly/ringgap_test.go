package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A ring in a 2 in bore with a gap of just under a millimetre will not butt: if
// it is 130 degrees hotter than the cylinder the gap closes 0.22 mm, at 50 degrees
// 0.084 mm. The rules of the trade lie from a quarter of that to four times it.
func ExampleRingGap() {
	iron := expanding("cast iron", 10.5e-6)
	for _, hotter := range []float64{130, 50, 0} {
		r, err := assembly.RingGap{
			Bore: units.Inch(2), Ring: iron, Cylinder: iron, Room: units.Celsius(20),
			RingHot: units.Celsius(20 + hotter), CylinderHot: units.Celsius(20), Cold: units.MM(0.95),
		}.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f K hotter: closes %.3f mm, %.2f mm left\n", hotter, r.Closes.MM(), r.Hot.MM())
	}
	rules, _ := fits.RulesFor("ring gap")
	for _, rule := range rules {
		span, _ := rule.Allowance(units.Inch(2))
		fmt.Printf("%s: %.2f to %.2f mm\n", rule.Name, span.Min.MM(), span.Max.MM())
	}
	// Output:
	// 130 K hotter: closes 0.218 mm, 0.73 mm left
	// 50 K hotter: closes 0.084 mm, 0.87 mm left
	// 0 K hotter: closes 0.000 mm, 0.95 mm left
	// steam, a thou to two per inch of bore: 0.05 to 0.10 mm
	// two to three thou per inch of bore: 0.10 to 0.15 mm
	// least, three and a half thou per inch of bore: 0.18 to 0.18 mm
	// four thou per inch of bore: 0.20 to 0.20 mm
	// most, eight thou per inch of bore: 0.41 to 0.41 mm
}

func TestRingGap(t *testing.T) {
	iron := lookup(t, "cast iron")
	gap := assembly.RingGap{
		Bore: units.Inch(2), Ring: iron, Cylinder: iron, Room: units.Celsius(20), RingHot: units.Celsius(180),
		CylinderHot: units.Celsius(150), Cold: units.Thou(2),
	}
	r, err := gap.Solve()
	if err != nil || !has(r.Findings, finding.Fails, "butts at work") {
		t.Error(r, err)
	}
	// pi x 50.8 mm x 11.4e-6 x (160 - 130) K by hand.
	if got := r.Closes.MM(); math.Abs(got-0.054581) > 1e-6 {
		t.Errorf("closes %.6f mm, want 0.054581", got)
	}
	gap.Cold = units.Thou(6)
	if r, err = gap.Solve(); err != nil || !has(r.Findings, finding.Caution, "still cold") || r.Least.Cmp(r.Closes) <= 0 {
		t.Error(r, err)
	}
	gap.Cold = units.Length{}
	if r, err = gap.Solve(); err != nil || !has(r.Findings, finding.Note, "No gap") || len(r.Findings) != 1 ||
		r.Least.IsZero() {
		t.Error(r, err)
	}
	if _, err := (assembly.RingGap{}).Solve(); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}
