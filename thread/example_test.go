package thread_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

func ExampleParse() {
	for _, text := range []string{"M3", "1/4 x 40", "4-40", "1/4-26"} {
		t, err := thread.Parse(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(t, t.Form(), t.Major(), t.Pitch().Text(units.Millimetres, 4))
	}
	// Output:
	// M3x0.5 ISO metric 3 mm 0.5000 mm
	// 1/4x40 ME Whitworth 6.35 mm 0.6350 mm
	// 4-40 UNC Unified 2.8448 mm 0.6350 mm
	// thread: thread "1/4-26": may be one of several threads; near it: 1/4 BSF, 1/4 BSB, 1/4x26 BSC
}

func ExampleThread_TappingDrills() {
	own, err := gauge.ParseSet("1-6x0.1 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	choices, err := thread.MustParse("M3").TappingDrills(own, 0.75, thread.FullDepth)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range choices {
		fmt.Println(c)
	}
	// Output:
	// 2.5 mm: 81.5 % of full depth, suits: from 50 to 85 % of the full depth
	// 2.6 mm: 65.2 % of full depth, suits, outside class 6H: from 50 to 85 % of the full depth
	// 2.4 mm: 97.8 % of full depth. Drill 2.4 mm is below the minor diameter 2.459 mm, over 100 % of the internal height, and not for a cutting tap.
}

// ISO 273 medium against what a chart of BA drills leaves: a cover with many
// holes goes on with the first and not with the second.
func ExampleThread_ClearanceFor() {
	iso, err := thread.MustParse("M3").ClearanceFor(thread.MediumISO273)
	if err != nil {
		fmt.Println(err)
		return
	}
	chart, err := thread.MustParse("6 BA").ClearanceOf(units.Inch(0.111)) // #34
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(iso.Hole, "forgives", iso.Position)
	fmt.Println(chart.Hole, "forgives", chart.Position)
	// Output:
	// 3.4 mm forgives 0.2 mm
	// 2.8194 mm forgives 0.0097 mm
}

// A screw that no list holds.
func ExampleNew() {
	t, err := thread.New(thread.FormWhitworth, units.InchFraction(7, 32), units.InchFraction(1, 36))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t, "depth", t.Depth().Text(units.Inches, 4))
	// Output: 7/32x36 Whitworth depth 0.0178 in
}

func ExampleThread_LeadAngle() {
	fmt.Printf("%.2f degrees\n", thread.MustParse("M6").LeadAngle().Degrees())
	// Output: 3.40 degrees
}

func ExampleThread_Taper() {
	taper, ok := thread.MustParse("R 1/8").Taper()
	fmt.Println(ok, taper.GaugeLength, taper.SmallEnd)
	// Output: true 4 mm 8.897 mm
}

func ExampleThread_TappingDrillsIn() {
	brass, err := material.Lookup("brass")
	if err != nil {
		fmt.Println(err)
		return
	}
	choices, err := thread.MustParse("4 BA").TappingDrillsIn(brass, gauge.Number())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(choices[0])
	// Output: #31: 69.7 % of full depth, suits: from 50 to 85 % of the full depth
}

// A drill that a chart gives for 14 BA.
func ExampleThread_CheckTappingDrill() {
	drill, err := gauge.Parse("#70")
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := thread.MustParse("14 BA").CheckTappingDrill(drill, thread.FullDepth)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Findings[0].Severity, c.Findings[0].Code)
	// Output: fails drill-too-small
}

func ExampleThread_ConvertDepth() {
	share, err := thread.MustParse("M6").ConvertDepth(0.65, thread.ThreeQuarterHeight, thread.FullDepth)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %%\n", 100*share)
	// Output: 68.8 %
}

func ExampleThread_FormingDepth() {
	share, err := thread.MustParse("M3").FormingDepth(units.MM(2.8))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f %%\n", 100*share)
	// Output: 59 %
}

func ExampleThread_ThreadInBlindHole() {
	for _, depth := range []units.Length{units.MM(8), units.MM(2)} {
		h, err := thread.MustParse("M3").ThreadInBlindHole(depth, thread.SecondTap)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(h.Thread, len(h.Findings))
	}
	// Output:
	// 6 mm 0
	// 0 mm 1
}

func ExampleThread_UsualClearance() {
	for _, name := range []string{"M3", "6 BA", "17 BA"} {
		c, err := thread.MustParse(name).UsualClearance()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(name, c.Class, c.Hole)
	}
	// Output:
	// M3 ISO 273 medium 3.4 mm
	// 6 BA chart 2.9 mm
	// 17 BA cover 0.9 mm
}

func ExampleClearance_Check() {
	c, err := thread.MustParse("6 BA").ClearanceOf(units.Inch(0.111)) // #34
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range c.Check(6) {
		fmt.Println(f.Text)
	}
	// Output: The 2.819 mm hole forgives 0.010 mm of position, and 6 of them must agree.
}

func ExampleThread_Hexagon() {
	h, err := thread.MustParse("M3").Hexagon()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(h.Standard, h.Flats, "corners", h.Corners().Text(units.Millimetres, 2))
	// Output: ISO 4032 5.32 mm to 5.5 mm corners 6.35 mm
}

func ExampleAdvisedDepthFor() {
	steel, err := material.Lookup("mild steel")
	if err != nil {
		fmt.Println(err)
		return
	}
	advice, err := thread.AdvisedDepthFor(steel)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f to %.0f %% of the %v\n", 100*advice.Min, 100*advice.Max, thread.ThreeQuarterHeight)
	// Output: 60 to 65 % of the three-quarter height
}

func ExampleClearance_Drill() {
	drawer, err := gauge.ParseSet("1-3x0.1 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := thread.MustParse("M3").UsualClearance()
	if err != nil {
		fmt.Println(err)
		return
	}
	drill, findings := c.Drill(drawer)
	fmt.Printf("%q %s\n", drill.Name, findings[0].Remedies[0])
	// Output: "" Take a drill from 3.400 mm to 3.650 mm, or a boring tool.
}

func ExampleForm_FundamentalHeight() {
	fmt.Println(thread.FormWhitworth.FundamentalHeight(units.MM(1)).Text(units.Millimetres, 4))
	// Output: 0.9605 mm
}

// The class that a common nut has, and the hole that it allows.
func ExampleThread_UsualClasses() {
	t := thread.MustParse("M3")
	_, nut := t.UsualClasses()
	limits, err := t.Limits(nut)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(nut, limits.Minor)
	// Output: 6H 2.459 mm to 2.599 mm
}

func ExampleThread_DieBlank() {
	for _, name := range []string{"M3", "1/4x40"} {
		blank, err := thread.MustParse(name).DieBlank()
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(name, blank.Turn.Text(units.Millimetres, 3), blank.Class, blank.Limits)
	}
	// Output:
	// M3 2.900 mm 6g 2.874 mm to 2.98 mm
	// 1/4x40 6.312 mm  no limits
}

func ExampleThread_NutHeight() {
	nut, err := thread.MustParse("M3").NutHeight()
	fmt.Println(nut, err)
	// Output:
	// standard ISO 4032, height 2.15 mm to 2.4 mm, from BS EN ISO 4032, Hexagon nuts, style 1, 2001, table 1 (read in a reprint) <nil>
}

// A taper pipe is screwed into one of three holes, and the drill of the parallel
// one leaves no whole thread in a taper one.
func ExampleThread_PipeHoles() {
	pipe := thread.MustParse("R 1/8")
	for _, h := range pipe.PipeHoles() {
		fmt.Println(h.Internal, h.Kind, h.Min, h.Max)
	}
	drill, err := gauge.Parse("8.6 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, kind := range thread.PipeHoleKinds() {
		said, err := pipe.CheckPipeDrill(drill, kind)
		fmt.Println(kind, said.Suits(), err)
	}
	// Output:
	// Rp 1/8 parallel 8.495 mm 8.637 mm
	// Rc 1/8 drilled 8.1 mm 8.1785 mm
	// Rc 1/8 reamed 7.791 mm 8.1785 mm
	// parallel true <nil>
	// drilled false <nil>
	// reamed false <nil>
}

// A hole of 7 mm for M3, full to that depth, goes deeper by the point of the drill.
func ExampleBlindHole_Tip() {
	hole, err := thread.MustParse("M3").ThreadInBlindHole(units.MM(7), thread.BottomingTap)
	if err != nil {
		fmt.Println(err)
		return
	}
	tip, err := hole.Tip(units.MM(2.5), 118*units.Degree)
	fmt.Println(hole.Thread, tip.Text(units.Millimetres, 3), err)
	// Output:
	// 5.75 mm 7.751 mm <nil>
}

func ExampleFormingHole_Drill() {
	hole, err := thread.MustParse("M4").FormingHole(thread.FormingShare)
	if err != nil {
		fmt.Println(err)
		return
	}
	drill, said := hole.Drill(gauge.Metric())
	fmt.Println(drill, hole.Allowed, said.OK())
	// Output:
	// 3.7 mm 3.643 mm to 3.7382 mm true
}
