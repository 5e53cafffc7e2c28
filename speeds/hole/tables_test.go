package hole_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/hole"
	"github.com/valvechest/valvechest/units"
)

func TestTables(t *testing.T) { check.Tables(t, hole.Tables, "tables/*.csv") }

// TestBench compares bench practice of holes: drill points, what to leave for a
// reamer.
func TestBench(t *testing.T) {
	stock := map[string]int{}
	f := check.Open(t, "speeds/hole/bench.csv")
	for r := range f.Rows() {
		rule := func(name string) {
			t.Helper()
			low, high := hole.Stock(name, stock[name])
			stock[name]++
			unit := units.MustLength("1 " + r.Text("unit")).MM()
			r.Within("low", low/unit, 1e-9)
			r.Within("high", high/unit, 1e-9)
		}
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
			r.Within("low", low.Degrees(), 1e-9)
			r.Within("high", high.Degrees(), 1e-9)
			r.Equal("note", "helix "+p.Helix)
		case "reaming stock on diameter":
			switch {
			case strings.HasPrefix(r.Text("item"), "carbide"):
				rule("carbide-tipped")
			case r.Text("item") == "usual":
				rule("usual stock")
			default:
				rule("machine reamer")
			}
		case "reaming undersize":
			rule("trade-training")
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
