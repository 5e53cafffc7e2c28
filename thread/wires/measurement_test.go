package wires

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
)

// The terms add up to the measurement, whatever is done about the lead angle, and
// each way of doing it names where it is from.
func TestMeasurementAddsUp(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range []string{"M8", "2 BA", "9/16-18 UNF", "Tr 10x2"} {
		th := thread.MustParse(name)
		r, err := RangeOf(th)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range LeadCorrections() {
			set := Set{Thread: th, Wire: r.Best, Lead: c}
			m, err := set.Measure(th.PitchDiameter())
			if err != nil {
				t.Fatal(err)
			}
			over, err := set.Over(th.PitchDiameter())
			if err != nil || over != m.Over {
				t.Errorf("%s, %v: %v, but Over has %v, %v", name, c, m.Over, over, err)
			}
			sum := th.PitchDiameter().MM() + m.PerWire*r.Best.MM() - m.PerPitch*th.Pitch().MM() + m.ForLead.MM()
			if math.Abs(sum-over.MM()) > 1e-8 {
				t.Errorf("%s, %v: the terms make %.9f mm of %v", name, c, sum, over)
			}
			if m.ForLead.IsZero() != (c == NoLeadCorrection) || m.Refs.IsZero() {
				t.Errorf("%s, %v: %v for the lead, %v", name, c, m.ForLead, m.Refs)
			}
			seen[m.Refs.String()] = true
		}
	}
	if len(seen) != len(LeadCorrections()) {
		t.Errorf("%d sources of as many corrections: %v", len(seen), seen)
	}
	if _, err := (Set{Thread: thread.MustParse("M8")}).Measure(thread.MustParse("M8").PitchDiameter()); err == nil {
		t.Error("a wire of no diameter measures")
	}
}
