package gasket_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

func TestCheckFindings(t *testing.T) {
	holes, err := gasket.BoltCircle(6, units.MM(28), 0)
	if err != nil {
		t.Fatal(err)
	}
	o, err := gasket.Round("cover", units.MM(32), units.MM(22), holes.Drilled(units.MM(2)))
	if err != nil {
		t.Fatal(err)
	}
	fs, err := o.Check(units.MM(0.25))
	if err != nil {
		t.Fatal(err)
	}
	// The 2 mm to the opening and 12 mm between holes are enough; what is alike
	// at six holes is said once.
	if len(fs) != 2 || fs[0].Severity != finding.Caution || fs[0].Code != gasket.NarrowWeb ||
		fs[1].Severity != finding.Note || fs[1].Code != gasket.SmallHole || !fs[0].Refs.Recalled() || fs[1].Refs.IsZero() {
		t.Fatalf("findings %v", fs)
	}
	for i, want := range []string{
		"Only 1.00 mm is left between each of hole 1, hole 2, hole 3, hole 4, hole 5 and hole 6 and the outside; it may tear",
		"Hole 1, hole 2, hole 3, hole 4, hole 5 and hole 6 are each 2.00 mm; below 3/32 in",
	} {
		if !strings.HasPrefix(fs[i].Text, want) {
			t.Errorf("%s; want %s", fs[i].Text, want)
		}
	}
	// Holes that differ have findings of their own.
	o.Holes[2].Diameter = units.MM(2.2)
	apart, err := o.Check(units.MM(0.25))
	if err != nil || len(apart) != 4 || !strings.HasPrefix(apart[0].Text, "Only 0.90 mm is left between hole 3 and the outside") || !strings.HasPrefix(apart[3].Text, "Hole 3 is 2.20 mm") {
		t.Errorf("of holes that differ: %v, %v", apart, err)
	}
	o.Holes[2].Diameter = units.MM(2)
	// A sheet of 2.5 mm wants as much, and 2 mm to the opening are too little.
	thick, err := o.Check(units.MM(2.5))
	if err != nil || len(thick) != 3 || !strings.Contains(thick[0].Remedies[0], "Leave 2.50 mm") {
		t.Errorf("of a thick sheet: %d findings, %v", len(thick), err)
	}
	if _, err := o.Check(units.Length{}); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("no thickness: %v", err)
	}
}
