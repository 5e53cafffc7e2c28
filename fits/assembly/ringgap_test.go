package assembly_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// FI-06: a ring in a 2 in bore closes its gap by 0.22 mm if it is 130 degrees hotter
// than the cylinder, at 50 degrees by 0.084 mm; the rules are 0.05 to 0.20 mm.
func TestRingGapCloses(t *testing.T) {
	iron := expanding("cast iron", 10.5e-6)
	for hotter, want := range map[float64]float64{130: 0.22, 50: 0.084, 0: 0} {
		r, err := assembly.RingGap{
			Bore: units.Inch(2), Ring: iron, Cylinder: iron, Room: units.Celsius(20),
			RingHot: units.Celsius(20 + hotter), CylinderHot: units.Celsius(20), Cold: units.MM(0.95),
		}.Solve()
		if err != nil || math.Abs(r.Closes.MM()-want) > 0.01 || !r.Findings.OK() {
			t.Errorf("FI-06, %g K: %+v, %v", hotter, r, err)
		}
	}
}

// A ring in a bore of 45 mm that runs hotter than its cylinder. The rules of the
// trade lie from a quarter of what it closes by to several times it. (Invented
// figures.)
func ExampleRingGap_Solve() {
	iron := expanding("cast iron", 10.5e-6)
	for _, hotter := range []float64{120, 40, 0} {
		r, err := assembly.RingGap{
			Bore: units.MM(45), Ring: iron, Cylinder: iron, Room: units.Celsius(20),
			RingHot: units.Celsius(20 + hotter), CylinderHot: units.Celsius(20), Cold: units.MM(0.8),
		}.Solve()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f K hotter: closes %.3f mm, %.2f mm left\n", hotter, r.Closes.MM(), r.Hot.MM())
	}
	rules, _ := fits.RulesFor("ring gap")
	for _, rule := range rules {
		if !strings.Contains(rule.Name, "least") && !strings.Contains(rule.Name, "most") {
			continue
		}
		span, _ := rule.Allowance(units.MM(45))
		fmt.Printf("%s: %.2f to %.2f mm\n", rule.Name, span.Min.MM(), span.Max.MM())
	}
	// Output:
	// 120 K hotter: closes 0.178 mm, 0.62 mm left
	// 40 K hotter: closes 0.059 mm, 0.74 mm left
	// 0 K hotter: closes 0.000 mm, 0.80 mm left
	// least, three and a half thou per inch of bore: 0.16 to 0.16 mm
	// most, eight thou per inch of bore: 0.36 to 0.36 mm
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
