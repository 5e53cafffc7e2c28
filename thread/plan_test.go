package thread_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// The owner's drills where one suits, and what to buy where none does.
func TestPlanDrill(t *testing.T) {
	steel := thread.TapDepth{Material: metal(t, "steel")}
	for _, test := range []struct {
		thread, set string
		depth       thread.TapDepth
		first, buy  string
		choices     int
	}{
		{"M3", "1-6x0.1 mm", steel, "2.6 mm", "", 3},
		{"M3", "1-6x0.1 mm", thread.TapDepth{Share: 0.75, Basis: thread.FullDepth}, "2.5 mm", "", 3},
		{"M3", "2 mm, 2.9 mm", steel, "2.9 mm", "2.6 mm", 2},
		{"M10", "1-6x0.1 mm", thread.TapDepth{Share: 0.75, Basis: thread.FullDepth}, "6 mm", "R", 1},
		{"M16", "1-6x0.1 mm", thread.TapDepth{Share: 0.75, Basis: thread.FullDepth}, "", "14.25 mm", 0}, // none near
		{"1/4 x 40", "1-6x0.5 mm", thread.TapDepth{Material: metal(t, "copper")}, "6 mm", "5.7 mm", 2},  // no practice: 75 %
	} {
		th := thread.MustParse(test.thread)
		plan, err := th.PlanDrill(set(t, test.set), test.depth)
		if err != nil {
			t.Errorf("%s: %v", test.thread, err)
			continue
		}
		if plan.Hole.IsZero() || plan.Refs.IsZero() {
			t.Errorf("%s: hole %v, sources %v", test.thread, plan.Hole, plan.Refs)
		}
		hole := th.Major().Sub(th.Pitch().Scale(plan.Share * plan.PerPitch))
		if plan.Basis == 0 || hole.Sub(plan.Hole).Abs().Cmp(units.Micron(0.001)) > 0 {
			t.Errorf("%s: %g of %v, %g pitches, makes %v, not %v", test.thread, plan.Share, plan.Basis, plan.PerPitch, hole, plan.Hole)
		}
		if plan.Suits() != (test.buy == "") || plan.Check().OK() != plan.Suits() || !plan.Findings.OK() {
			t.Errorf("%s: suits %v, %v", test.thread, plan.Suits(), plan.Check())
		}
		first := ""
		if len(plan.Choices) > 0 {
			first = plan.Choices[0].Drill.Name
		}
		if first != test.first || plan.Buy.Drill.Name != test.buy || len(plan.Choices) != test.choices {
			t.Errorf("%s from %s: %v, buy %v; want %s, %s", test.thread, test.set, plan.Choices, plan.Buy, test.first, test.buy)
		}
		if some := len(plan.Findings) > 0; some != (test.buy != "") || some &&
			plan.Findings[0].Code != thread.NoTappingDrill {
			t.Errorf("%s from %s: %v", test.thread, test.set, plan.Findings)
		}
	}
	m3 := thread.MustParse("M3")
	if plan, err := m3.PlanDrill(gauge.Set{}, steel); err == nil {
		t.Errorf("no drills: %v", plan)
	}
	if plan, err := m3.PlanDrill(gauge.Metric(), thread.TapDepth{}); err == nil {
		t.Errorf("no depth: %v", plan)
	}
}

// A taper pipe has several holes, each with its own drill: of the metric drills
// 8.6 mm for the parallel thread Rp 1/8, and 8.1 mm for the taper thread Rc 1/8.
func TestPlanDrillTaper(t *testing.T) {
	r8 := thread.MustParse("R 1/8")
	for _, tt := range []struct {
		own  string
		want []string // of the parallel, the drilled and the reamed hole; blank: none
	}{
		{"1-13x0.1 mm", []string{"8.6 mm", "8.1 mm", "8.1 mm"}},
		{"1-13x0.5 mm", []string{"8.5 mm", "", "8 mm"}},
		{"8.6 mm", []string{"8.6 mm", "", ""}},
		{"8.2 mm, 8.3 mm", []string{"", "", ""}},
	} {
		plan, err := r8.PlanDrill(set(t, tt.own), thread.TapDepth{Share: 0.75, Basis: thread.FullDepth})
		if err != nil || len(plan.Pipe) != 3 || plan.Refs.IsZero() || len(plan.Choices) > 0 {
			t.Fatalf("%s: %+v, %v", tt.own, plan, err)
		}
		none := true
		for i, c := range plan.Pipe {
			if c.Choice.Drill.Name != tt.want[i] || c.Choice.Suits() != (tt.want[i] != "") || (len(c.Findings) == 0) != c.Choice.Suits() {
				t.Errorf("%s: %v: %v, %v; want %q", tt.own, c.Kind, c.Choice, c.Findings, tt.want[i])
			}
			none = none && tt.want[i] == ""
		}
		if plan.Suits() == none || plan.Check().OK() == none {
			t.Errorf("%s: suits %v, %v", tt.own, plan.Suits(), plan.Check())
		}
		if none && len(plan.Findings[0].Remedies) != 4 { // 8.2 mm serves an Rc that runs out in the open
			t.Errorf("%s: %v", tt.own, plan.Findings)
		}
	}
	for _, s := range []thread.Series{thread.BSPTaper, thread.NPT} {
		for th := range s.All() {
			plan, err := th.PlanDrill(gauge.Set{}, thread.TapDepth{})
			if err != nil || plan.Suits() || plan.Check().OK() || len(plan.Pipe) < 2 {
				t.Errorf("%v without drills: %+v, %v", th, plan, err)
			}
		}
	}
}

// Who asks for the hole Rc is not answered with a drill that makes Rp, and the other way
// round; 8.2 mm, which a catalogue of thread tools prints for an Rc 1/8 that runs out in the
// open, serves there alone.
func TestPlanDrillForTheHoleAsked(t *testing.T) {
	r8 := thread.MustParse("R 1/8")
	for _, tt := range []struct {
		asked, own, internal, first string
		suits                       bool
		remedies                    int
	}{
		{"Rc 1/8", "8.6 mm", "Rc 1/8", "Rc 1/8", false, 2},
		{" rc1/8", "8.2 mm", "Rc 1/8", "Rc 1/8", false, 3},
		{"Rc 1/8", "8.1 mm", "Rc 1/8", "Rc 1/8", true, 0},
		{"Rp 1/8", "8.6 mm", "Rp 1/8", "Rp 1/8", true, 0},
		{"Rp 1/8", "8.1 mm", "Rp 1/8", "Rp 1/8", false, 1},
		{"R 1/8", "8.6 mm", "", "Rp 1/8", true, 0},
		{"1/8 BSPT", "8.2 mm", "", "Rp 1/8", false, 4},
	} {
		plan, err := r8.PlanDrill(set(t, tt.own), thread.TapDepth{})
		if err != nil {
			t.Fatal(err)
		}
		plan = plan.Named(tt.asked)
		if plan.Internal != tt.internal || plan.Pipe[0].Internal != tt.first || plan.Suits() != tt.suits || plan.Check().OK() != tt.suits {
			t.Errorf("%s of %s: %q, first %s, suits %v, %v", tt.asked, tt.own, plan.Internal, plan.Pipe[0].Internal, plan.Suits(), plan.Findings)
		}
		if !tt.suits && len(plan.Findings[0].Remedies) != tt.remedies {
			t.Errorf("%s of %s: %q, want %d remedies", tt.asked, tt.own, plan.Findings[0].Remedies, tt.remedies)
		}
		if tt.own == "8.2 mm" && !strings.Contains(strings.Join(plan.Findings[0].Remedies, " "), "runs out in the open, into a recess or right through, drill 8.2 mm serves") {
			t.Errorf("%s of %s: %q", tt.asked, tt.own, plan.Findings[0].Remedies)
		}
	}
}

func ExampleThread_PlanDrill() {
	brass, err := material.Lookup("brass")
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := thread.MustParse("M10").PlanDrill(gauge.Letter(), thread.TapDepth{Material: brass})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Choices[0])
	// Output: R: 75.5 % of full depth, suits: from 50 to 85 % of the full depth
}

// A drill of just the hole wanted comes first, where the larger is the better one too.
func TestDrillOfJustTheHole(t *testing.T) {
	for _, name := range []string{"M6", "M2.5", "1/4-20 UNC", "2 BA"} {
		th := thread.MustParse(name)
		plan, err := th.PlanDrill(set(t, "1-13x0.1 mm"), thread.TapDepth{Material: metal(t, "stainless steel 304")})
		if err != nil {
			t.Fatal(err)
		}
		for _, off := range []float64{-0.04, 0.04} {
			own := set(t, plan.Hole.String()+", "+plan.Hole.Add(units.MM(off)).String())
			choices, err := th.TappingDrillsIn(metal(t, "stainless steel 304"), own)
			if err != nil || len(choices) != 2 || !choices[0].Over.IsZero() {
				t.Errorf("%s: %v, %v", name, choices, err)
			}
		}
		own := set(t, plan.Hole.Sub(units.MM(0.001)).String()+", "+plan.Hole.Add(units.MM(0.04)).String())
		choices, err := th.TappingDrillsIn(metal(t, "stainless steel 304"), own)
		if err != nil || len(choices) != 2 || choices[0].Over.Sign() < 0 {
			t.Errorf("%s: a smaller drill in front: %v, %v", name, choices, err)
		}
	}
}
