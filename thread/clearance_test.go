package thread_test

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// TH-04: the clearance drills of the same chart, and the error of position that each
// forgives.
func TestChartOfBAClearanceDrills(t *testing.T) {
	for _, test := range []struct {
		thread, drill string
		room          float64 // mm
	}{
		{"6 BA", "#34", 0.019}, {"9 BA", "#50", -0.122}, {"9 BA", "#48", 0.030}, {"9 BA", "#47", 0.094}, {"4 BA", "#27", 0.058},
		{"5 BA", "#30", 0.064}, {"7 BA", "#38", 0.078}, {"2 BA", "#12", 0.101},
	} {
		c, err := thread.MustParse(test.thread).ClearanceOf(size(t, test.drill).Diameter)
		if test.room < 0 {
			if !errors.Is(err, units.ErrOutOfRange) {
				t.Errorf("%s through %s: %v, %v; want an error", test.thread, test.drill, c, err)
			}
			continue
		}
		if err != nil || math.Abs(c.Room.MM()-test.room) > 0.0006 || c.Position != c.Room.Scale(0.5) {
			t.Errorf("%s through %s: %v, %v; want %.3f mm and half of it", test.thread, test.drill, c, err, test.room)
		}
	}
}

// BS 4186, read in a handbook, is the witness of ISO 273, read elsewhere or
// recalled: they agree but at M12, M14 and M16. Not every size is in both; a hole that
// has gone from one is found by TestClearanceHolesPrinted.
func TestClearanceStandards(t *testing.T) {
	pairs := [][2]thread.ClearanceClass{{thread.FineISO273, thread.CloseBS4186},
		{thread.MediumISO273, thread.MediumBS4186}, {thread.CoarseISO273, thread.FreeBS4186}}
	compared, kinds := 0, map[source.Kind]int{}
	for th := range thread.MetricCoarse.All() {
		for i, pair := range pairs {
			iso, err1 := th.ClearanceFor(pair[0])
			bs, err2 := th.ClearanceFor(pair[1])
			if err1 != nil || err2 != nil {
				continue
			}
			compared++
			kinds[iso.Refs.First().Kind]++
			differ := i > 0 && (th.Major() == units.MM(12) || th.Major() == units.MM(14) || th.Major() == units.MM(16))
			if (iso.Hole != bs.Hole) != differ || differ && bs.Hole.Sub(iso.Hole) != units.MM(0.5) {
				t.Errorf("%v: %v %v, %v %v", th, pair[0], iso.Hole, pair[1], bs.Hole)
			}
		}
	}
	if compared == 0 {
		t.Error("no holes compared")
	}
	t.Logf("%d holes compared, %d of them published in both, %d recalled in ISO 273", compared, kinds[source.Published],
		kinds[source.FromMemory])
	cover, err := thread.MustParse("6 BA").ClearanceFor(thread.CoverClearance)
	if err != nil || cover.Hole != units.MM(3) || cover.Position != units.MM(0.1) {
		t.Errorf("cover: %v, %v", cover, err)
	}
	chart, err := thread.MustParse("2 BA").ClearanceFor(thread.ChartClearance)
	if err != nil || chart.Hole != size(t, "#10").Diameter {
		t.Errorf("chart: %v, %v", chart, err)
	}
}

// The usual hole is that of the standard, of a chart, or for a small cover.
func TestUsualClearance(t *testing.T) {
	for name, want := range map[string]thread.ClearanceClass{"M3": thread.MediumISO273, "6 BA": thread.ChartClearance,
		"17 BA": thread.CoverClearance} {
		if c, err := thread.MustParse(name).UsualClearance(); err != nil || c.Class != want || c.Refs.IsZero() {
			t.Errorf("%s: %+v, %v; want %v", name, c, err, want)
		}
	}
}

// 3.4 mm for M3 may be drilled 3.4 to 3.65; 2.8194 mm for 6 BA forgives 0.01 mm.
func TestClearanceFindings(t *testing.T) {
	c, err := thread.MustParse("M3").ClearanceFor(thread.MediumISO273)
	if err != nil {
		t.Fatal(err)
	}
	if drill, say := c.Drill(set(t, "1-6x0.1 mm")); drill.Name != "3.4 mm" || say != nil {
		t.Errorf("%v, %v", drill, say)
	}
	if drill, say := c.Drill(set(t,
		"3.3 mm, 3.66 mm")); drill.Name != "" || len(say) != 1 || say[0].Code != thread.NoClearanceDrill {
		t.Errorf("%v, %v", drill, say)
	}
	tight, err := thread.MustParse("6 BA").ClearanceOf(units.Inch(0.111))
	if say := tight.Check(6); err != nil || len(say) != 1 || say[0].Code != thread.TightClearance ||
		tight.Check(3) != nil || c.Check(6) != nil {
		t.Errorf("%v, %v", say, err)
	}
}
