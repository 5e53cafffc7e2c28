package thread_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
)

func pipeHole(t *testing.T, name string, kind thread.PipeHoleKind) thread.PipeHole {
	t.Helper()
	for _, h := range thread.MustParse(name).PipeHoles() {
		if h.Kind == kind {
			return h
		}
	}
	t.Fatalf("%s: no %v hole", name, kind)
	return thread.PipeHole{}
}

// The largest straight hole for each Rc thread, printed beside the holes, and the
// inner end of NPT by another work.
func TestPipeHolesPrinted(t *testing.T) {
	for row := range check.Open(t, "thread/pipe_holes.csv").Rows() {
		th := thread.MustParse(row.Text("thread"))
		if row.Has("e3_in") {
			// The minor diameter is E3 less the height of thread on the diameter.
			reamed := pipeHole(t, th.String(), thread.ReamedTaper)
			row.Within("e3_in", reamed.Max.Inch()+th.Depth().Inch(), 0.00002) // E1, from which it comes, is rounded too
			continue
		}
		drilled := pipeHole(t, th.String(), thread.DrilledTaper)
		row.Compare("minor_mm", drilled.Mouth.MM())
		row.Within("hole_mm", drilled.Printed[0].Drill.Diameter.MM(), exact)
		row.Within("hole_open_mm", drilled.Printed[1].Drill.Diameter.MM(), exact)
		// The hole of the catalogue makes the thread, and so do holes up to the largest.
		for mm, suits := range map[float64]bool{row.Float("hole_mm"): true, row.Float("largest_mm") - 0.004: true,
			row.Float("largest_mm") + 0.004: false} {
			d, err := th.CheckPipeDrill(gauge.Size{Name: "a drill", Diameter: units.MM(mm)}, thread.DrilledTaper)
			if err != nil || d.Suits() != suits {
				t.Errorf("%s: %g mm: %v, %v", row.ID, mm, d, err)
			}
		}
		open := drilled.Mouth.MM() - drilled.Printed[1].Wanted.MM()/16 // what the second hole is judged by
		if row.Has("tolerance") {
			row.Within("largest_mm", drilled.Max.MM(), row.Float("tolerance"))
			row.Within("largest_open_mm", open, row.Float("tolerance"))
			continue
		}
		row.Compare("largest_mm", drilled.Max.MM())
		row.Compare("largest_open_mm", open)
	}
}

// The drills that a chart gives for "taper" British pipe are those of the parallel
// hole Rp: within its limits, and over the minor diameter of Rc at its mouth, so
// that no turn of a taper thread is whole. The holes of the catalogue leave all
// that is wanted.
func TestPipeDrillsLeak(t *testing.T) {
	sizes := 0
	for th := range thread.BSPTaper.All() {
		parallel := pipeHole(t, th.String(), thread.ParallelHole)
		for _, d := range parallel.Printed {
			sizes++
			if !d.Suits() || d.Refs.IsZero() {
				t.Errorf("%v", d)
			}
			leak, err := th.CheckPipeDrill(d.Drill, thread.DrilledTaper)
			if err != nil || len(leak.Findings) != 1 || leak.Findings[0].Code != thread.PipeLeaks ||
				leak.Findings[0].Severity != finding.Fails || !leak.Whole.IsZero() ||
				!strings.Contains(leak.String(), "leaks along the crests") {
				t.Errorf("%s in Rc: %v, %v", d.Drill.Name, leak, err)
			}
		}
		drilled := pipeHole(t, th.String(), thread.DrilledTaper)
		if len(drilled.Printed) != 2 || drilled.Printed[0].Open || !drilled.Printed[1].Open {
			t.Errorf("%v: %+v", th, drilled.Printed)
		}
		for _, d := range drilled.Printed {
			if !d.Suits() || d.Whole.Cmp(d.Wanted) < 0 {
				t.Errorf("%v", d)
			}
		}
	}
	if sizes == 0 {
		t.Error("no drills for Rp")
	}
}

// The whole thread of a drill by hand: Rc 1/8 is 8.566 mm at its mouth, so 8.1 mm
// leaves 16 x 0.466 = 7.456 mm, 8.22 turns. 1/8 NPT is 0.37360 - 0.02963 = 0.34397
// in: Q (0.332 in) leaves 0.1915 in of the 0.1615 in of L1, R (0.339 in) 0.0795 in.
func TestPipeDrillByHand(t *testing.T) {
	for _, tt := range []struct {
		thread, drill string
		kind          thread.PipeHoleKind
		whole, turns  float64 // mm
		want          finding.Code
	}{
		{"Rc 1/8", "8.1 mm", thread.DrilledTaper, 7.456, 8.22, suits},
		{"R 1/8", "8.2 mm", thread.DrilledTaper, 5.856, 6.46, thread.PartPipeThread}, // 6.2 mm are wanted in the metal
		{"R 1/8", "8.57 mm", thread.DrilledTaper, 0, 0, thread.PipeLeaks},
		{"1/8 NPT", "Q", thread.DrilledTaper, 4.864, 5.17, suits},
		{"1/8 NPT", "R", thread.DrilledTaper, 2.020, 2.15, thread.PartPipeThread},
		{"1/8 NPT", "Q", thread.ReamedTaper, 4.864, 5.17, thread.PartPipeThread},
		{"Rp 1/8", "8.65 mm", thread.ParallelHole, 0, 0, thread.PipeLeaks},
		{"Rp 1/8", "8.4 mm", thread.ParallelHole, 0, 0, thread.SmallDrill},
	} {
		d, err := thread.MustParse(tt.thread).CheckPipeDrill(size(t, tt.drill), tt.kind)
		got := suits
		if len(d.Findings) > 0 {
			got = d.Findings[0].Code
		}
		if err != nil || math.Abs(d.Whole.MM()-tt.whole) > 0.015 || math.Abs(d.Turns-tt.turns) > 0.02 || got != tt.want {
			t.Errorf("%s with %s, %v: %v, %v", tt.thread, tt.drill, tt.kind, d, err)
		}
	}
	if _, err := thread.MustParse("M3").CheckPipeDrill(size(t, "2.5 mm"), thread.DrilledTaper); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("M3: %v", err)
	}
	if _, err := thread.MustParse("1/8 NPT").CheckPipeDrill(size(t, "Q"), thread.ParallelHole); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("a parallel hole for NPT: %v", err)
	}
	if _, err := thread.MustParse("R 1/8").CheckPipeDrill(size(t, "Q"), 0); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("no kind: %v", err)
	}
	if thread.MustParse("M3").PipeHoles() != nil {
		t.Error("M3 is no pipe")
	}
}

// Each NPT size has a drill in print for a hole without a reamer, from a
// catalogue. It lies between the minor diameters at the small end of the thread
// with its wrench make-up and at the gauge plane, and is near that at L1; the other
// list lies up to 19 thou over it.
func TestPipeDrillsNPT(t *testing.T) {
	drills := map[string]int{}
	for th := range thread.NPT.All() {
		h := pipeHole(t, th.String(), thread.DrilledTaper)
		for _, d := range h.Printed {
			key := d.Refs.First().Title
			drills[key]++
			if d.Drill.Diameter.Cmp(h.Mouth) >= 0 || d.Drill.Diameter.Cmp(h.Min) < 0 {
				t.Errorf("%v: %v is not between %v and %v", th, d.Drill, h.Min, h.Mouth)
			}
			over := d.Drill.Diameter.Sub(h.Max).Inch()
			if strings.HasPrefix(key, "Catalogue") && math.Abs(over) > 0.0125 {
				t.Errorf("%v: %s is %.4f in off the minor diameter at L1", th, d.Drill.Name, over)
			}
		}
	}
	if len(drills) < 2 {
		t.Errorf("%v", drills)
	}
}

// A drill in inches goes by 64ths, and one before a taper reamer leaves it a cut: within
// a 64th below the minor diameter at the small end, or up to 6 thou over it, as 9/16 in
// is that an answer page gives for 3/8.
func TestPipeDrillsBeforeTheReamer(t *testing.T) {
	for th := range thread.NPT.All() {
		for _, h := range th.PipeHoles() {
			for _, d := range h.Printed {
				if in := 64 * d.Drill.Diameter.Inch(); strings.HasSuffix(d.Drill.Name, " in") && math.Abs(in-math.Round(in)) > 1e-6 {
					t.Errorf("%v: %s is no drill by 64ths", th, d.Drill.Name)
				}
				if h.Kind != thread.ReamedTaper {
					continue
				}
				if under := h.Max.Sub(d.Drill.Diameter).Inch(); under < -0.006 || under > 1.0/64+0.001 {
					t.Errorf("%v: %s is %.4f in under %v", th, d.Drill.Name, under, h.Max)
				}
			}
		}
	}
}
