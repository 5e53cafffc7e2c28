package thread_test

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// Metric threads by other works: the pitch stands on the diameter, in its series.
func TestMetricSeriesPrinted(t *testing.T) {
	open(t, "series_metric.csv", "id", func(row *check.Row, th thread.Thread) {
		row.Equal("series", th.Series().String())
	})
}

// Clearance holes of both standards by other works.
func TestClearanceHolesPrinted(t *testing.T) {
	classes := map[string]map[string]thread.ClearanceClass{
		"ISO 273": {"fine": thread.FineISO273, "medium": thread.MediumISO273, "coarse": thread.CoarseISO273},
		"BS 4186": {"fine": thread.CloseBS4186, "medium": thread.MediumBS4186, "coarse": thread.FreeBS4186},
	}
	for row := range check.Open(t, "thread/clearance_holes.csv").Rows() {
		d := units.MM(row.Float("diameter"))
		th, err := thread.New(thread.FormISO, d, d.Scale(0.05)) // the hole goes by the diameter alone
		if err != nil {
			t.Error(err)
			continue
		}
		for column, class := range classes[row.Text("standard")] {
			if !row.Has(column) {
				continue
			}
			c, err := th.ClearanceFor(class)
			if err != nil {
				t.Errorf("%s: %v", row.ID, err)
				continue
			}
			row.Within(column, c.Hole.MM(), exact)
			if class == thread.MediumISO273 {
				if c, err = th.UsualClearance(); err != nil {
					t.Errorf("%s: %v", row.ID, err)
				}
				row.Within(column, c.Hole.MM(), exact)
			}
		}
	}
}

// A catalogue's holes for a share of three quarters of the height, printed to 0.01
// mm, and the limits of the nut beside them.
func TestHolesBySharePrinted(t *testing.T) {
	open(t, "tap_holes_by_share.csv", "id", func(row *check.Row, th thread.Thread) {
		for column, share := range map[string]float64{"hole_80": 0.80, "hole_75": 0.75, "hole_70": 0.70, "hole_65": 0.65,
			"hole_60": 0.60} {
			hole, err := th.TappingHole(share, thread.ThreeQuarterHeight)
			if err != nil {
				t.Errorf("%s: %v", row.ID, err)
				continue
			}
			row.Within(column, hole.MM(), 0.0075) // some are cut off: 1.3363 mm is printed 1.33, where 1.2362 mm is 1.24
			full, err := th.ConvertDepth(share, thread.ThreeQuarterHeight, thread.FullDepth)
			if err == nil {
				hole, err = th.TappingHole(full, thread.FullDepth)
			}
			if err != nil {
				t.Errorf("%s: %v", row.ID, err)
				continue
			}
			row.Within(column, hole.MM(), 0.0075)
			// A drill of the printed hole goes by the printed limits of the nut.
			printed := units.MM(row.Float(column))
			choice, err := th.CheckTappingDrill(gauge.Size{Name: row.Text(column) + " mm", Diameter: printed}, thread.FullDepth)
			if err != nil {
				t.Errorf("%s: %v", row.ID, err)
				continue
			}
			if !row.Has("minor_min") {
				continue
			}
			within := row.Float("minor_min") <= printed.MM() && printed.MM() <= row.Float("minor_max")
			outside := strings.Contains(choice.Verdict(), "outside class 6H")
			if choice.Gauged() != within || outside != (choice.Suits() && !within) {
				t.Errorf("%s, %s: %q, gauged %v", row.ID, column, choice.Verdict(), choice.Gauged())
			}
		}
		if nut, err := th.Limits("6H"); err != nil {
			t.Errorf("%s: %v", row.ID, err)
		} else if row.Has("minor_min") {
			row.Within("minor_min", nut.Minor.Min.MM(), exact)
			row.Within("minor_max", nut.Minor.Max.MM(), exact)
		}
	})
}

// The rules of BS 93:2008 on all sizes that they are for. The package rounds to
// whole micrometres.
func TestBATolerancesPrinted(t *testing.T) {
	for row := range check.Open(t, "thread/ba_tolerances.csv").Rows() {
		n := 0
		for th := range thread.BA.All() {
			if n++; n-1 < int(row.Float("first")) || n-1 > int(row.Float("last")) {
				continue
			}
			l, err := th.Limits(row.Text("class"))
			if err != nil {
				t.Errorf("%s: %v", row.ID, err)
				continue
			}
			r := map[string]thread.Range{"major": l.Major, "pitch": l.PitchDiameter, "minor": l.Minor}[row.Text("diameter")]
			share := (r.Tolerance().MM() - row.Float("fixed")) / th.Pitch().MM()
			row.Within("share", share, 0.00051/th.Pitch().MM()) // half a micrometre
		}
	}
}
