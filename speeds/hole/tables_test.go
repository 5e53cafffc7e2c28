package hole_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// Bands join: each begins where the one before it ends. The default rule ends where
// ReamingFor does, those without printed sizes at 2 in.
func TestTables(t *testing.T) {
	check.Tables(t, hole.Tables, "tables/*.csv")
	for name, bands := range hole.Bands() {
		for i, b := range bands {
			if i > 0 && b[0] != bands[i-1][1] {
				t.Errorf("%s: a band from %v after one up to %v", name, b[0], bands[i-1][1])
			}
		}
		first, last := bands[0][0], bands[len(bands)-1][1]
		switch name {
		case "trade-training":
			if !first.IsZero() || last != units.MM(100) {
				t.Errorf("%s: %v to %v", name, first, last)
			}
		case "machine reamer", "usual stock":
			if !first.IsZero() || last != units.Inch(2) {
				t.Errorf("%s: %v to %v", name, first, last)
			}
		}
	}
}

// TestBench compares bench practice of holes: drill points, a practitioner's drills
// before a reamer.
func TestBench(t *testing.T) {
	f := check.Open(t, "speeds/hole/bench.csv")
	for r := range f.Rows() {
		switch topic := r.Text("topic"); topic {
		case "drill point angle", "drill lip clearance":
			printed := r.Text("item")
			if printed == "aluminium alloy" {
				printed = "aluminium"
			}
			p, ok := hole.PrintedPoint(printed)
			if !ok {
				t.Errorf("%s: nothing on %s", r.ID, printed)
				continue
			}
			low, high := p.ClearanceMin, p.ClearanceMax
			if topic == "drill point angle" {
				low, high = p.Angle, p.Angle
			}
			r.Compare("low", low.Degrees())
			r.Compare("high", high.Degrees())
			r.Equal("note", "helix "+p.Helix)
			if m, err := material.Lookup(r.Text("item")); err == nil { // not a name of the handbook's own
				of, err := hole.PointFor(m)
				if err != nil || of.Angle != p.Angle || of.ClearanceMin != p.ClearanceMin || of.ClearanceMax != p.ClearanceMax {
					t.Errorf("%s: %v, %v", r.ID, of, err)
				}
			}
		case "reaming predrill, model engineers":
			// A practitioner's drills against the trade-training rule: both leave 0.1
			// to 0.2 mm in these sizes, the rule 0.05 mm more for the drill.
			reamer := units.MustLength(strings.TrimPrefix(r.Text("item"), "reamer "))
			holes, err := hole.ReamingFor(reamer, metal("brass"))
			if err != nil {
				t.Fatal(err)
			}
			r.Within("low", holes[0].Max.MM(), 0.1)
		default:
			t.Fatalf("%s: topic %q", r.ID, topic)
		}
	}
}
