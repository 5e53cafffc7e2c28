package cutting_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// What two sources say of mild steel at a chip or feed of 0.2 mm.
func ExampleKienzleFor() {
	steel, _ := material.Lookup("mild steel")
	k, _ := cutting.KienzleFor(steel)
	kc, err := k.At(units.MM(0.2))
	fmt.Printf("%.0f N/mm2, %v %v\n", kc.In(units.Megapascal), k.Refs.First().Title, err)
	forces, err := cutting.ForcesFor(steel)
	for _, f := range forces {
		if f.Feed == units.MM(0.2) {
			fmt.Printf("%.0f N/mm2, %v %v\n", f.Pressure.In(units.Megapascal), f.Refs.First().Title, err)
		}
	}
	// Output:
	// 1893 N/mm2, Tool maker's material group table after ISO 513 and VDI 3323 <nil>
	// 3100 N/mm2, Tool maker's formulae for cutting power <nil>
}

func TestKienzleRows(t *testing.T) {
	f := check.Open(t, "speeds/cutting/kienzle.csv")
	for r := range f.Rows() {
		k, ok := cutting.KienzleGroup(r.Text("group"))
		if !ok {
			t.Fatalf("%s: no group", r.ID)
		}
		r.Compare("kc11", float64(k.KC11/units.Megapascal))
		r.Compare("exponent", k.Exponent)
	}
}

func TestForceRows(t *testing.T) {
	f := check.Open(t, "speeds/cutting/force_at_feed.csv")
	for r := range f.Rows() {
		name := r.Text("material")
		if r.Has("condition") {
			name += ", " + r.Text("condition")
		}
		row, ok := cutting.ForceOf(name, units.MM(r.Float("feed_mm")))
		if !ok {
			t.Errorf("%s: nothing on %s at %s mm", r.ID, name, r.Text("feed_mm"))
			continue
		}
		r.Compare("kc", float64(row.Pressure/units.Megapascal))
		m, err := material.Lookup(r.Text("material"))
		if err != nil {
			continue // a name of the source's own
		}
		all, err := cutting.ForcesFor(m)
		if errors.Is(err, units.ErrUnknown) {
			continue // a grade of the source's own
		}
		same := func(f cutting.Force) bool { return f.Feed == row.Feed && f.Pressure == row.Pressure }
		if err != nil || !slices.ContainsFunc(all, same) {
			t.Errorf("%s: not among the figures of %s: %v, %v", r.ID, m, all, err)
		}
	}
}
