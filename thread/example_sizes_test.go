package thread_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// What a size of thread is: 1/4 in by 40 to the inch, of the Whitworth form.
func ExampleThread_PitchDiameter() {
	t := thread.MustParse("1/4 x 40 ME")
	inch := func(l units.Length) string { return l.Text(units.Inches, 4) }
	fmt.Println("major", inch(t.Major()), "effective", inch(t.PitchDiameter()), "core", inch(t.Root()))
	fmt.Println("depth", inch(t.Depth()), "pitch", inch(t.Pitch()), "or", t.TPI(), "to the inch")
	// Output:
	// major 0.2500 in effective 0.2340 in core 0.2180 in
	// depth 0.0160 in pitch 0.0250 in or 40 to the inch
}

// The bore of a nut and the core of its screw differ where the root is rounded:
// ISO 724 has 4.134 mm for M5, and a screw cut with a full root is 4.019 mm.
func ExampleThread_Minor() {
	t := thread.MustParse("M5")
	fmt.Println(t.Minor(), t.Root(), t.Depth().Text(units.Millimetres, 3))
	// Output: 4.134 mm 4.019 mm 0.491 mm
}

func ExampleThread_TPI() {
	fmt.Printf("2 BA has %.2f threads to the inch\n", thread.MustParse("2 BA").TPI())
	// Output: 2 BA has 31.36 threads to the inch
}

func ExampleThread_Designation() {
	for _, text := range []string{"M3", "1/4 x 40", "G1/8", "M5x0.9 special"} {
		t := thread.MustParse(text)
		fmt.Println(t.Designation(), "|", t.Series(), "|", t.Form())
	}
	// Output:
	// M3x0.5 | metric coarse | ISO metric
	// 1/4x40 ME | ME | Whitworth
	// G 1/8 | G | Whitworth
	// M5x0.9 special | special | ISO metric
}

func ExampleThread_Refs() {
	for ref := range thread.MustParse("2 BA").Refs().All() {
		fmt.Println(ref.Kind, ref.Title, ref.Locator)
	}
	// Output: published Machinery's Handbook p. 2115, BS 93:1951
}

// The sizes of a series, such as brass.
func ExampleSeries_All() {
	for t := range thread.BSB.All() {
		fmt.Print(t.Major().Text(units.Millimetres, 2), " ")
	}
	fmt.Println(thread.BSB.Form(), thread.BSB.Pipe(), thread.NPT.Pipe())
	// Output: 6.35 mm 7.14 mm 7.94 mm 9.53 mm 11.11 mm 12.70 mm Whitworth false true
}

func ExampleForm_Angle() {
	for _, f := range []thread.Form{thread.FormISO, thread.FormWhitworth, thread.FormBA, thread.FormAcme} {
		fmt.Printf("%v %.1f\n", f, f.Angle().Degrees())
	}
	// Output:
	// ISO metric 60.0
	// Whitworth 55.0
	// BA 47.5
	// Acme 29.0
}

// Limits of a screw, and how wide they are.
func ExampleRange_Tolerance() {
	l, err := thread.MustParse("M3").Limits("6g")
	fmt.Println(l.Name(), l.PitchDiameter, "is", l.PitchDiameter.Tolerance().Text(units.Millimetres, 3), err)
	// Output: class 6g 2.58 mm to 2.655 mm is 0.075 mm <nil>
}

// The spanner and the room that it needs: 10 mm across the flats of M6.
func ExampleHexagon_Corners() {
	h, err := thread.MustParse("M6").Hexagon()
	fmt.Println(h.Flats.Max, h.Corners().Text(units.Millimetres, 2), err)
	// Output: 10 mm 11.55 mm <nil>
}

// What charts of the trade have for 4 BA, metric drills and numbered ones.
func ExampleThread_ChartDrills() {
	for _, chart := range thread.MustParse("4 BA").ChartDrills() {
		for _, drill := range chart.Tapping {
			fmt.Println("tap:", drill.Name, chart.Refs.First().Title)
		}
	}
	// Output:
	// tap: #32 Standard Screw Threads and Tap Drill Sizes
	// tap: 3 mm British Association threads, page of a supplier of British fasteners
	// tap: #31 British Association threads, page of a supplier of British fasteners
}

// A cover of six studs of M3, drilled 3.5 mm: how far its holes may be out.
func ExampleThread_ClearanceOf() {
	c, err := thread.MustParse("M3").ClearanceOf(units.MM(3.5))
	fmt.Println(c.Room, c.Position, err)
	// Output: 0.5 mm 0.25 mm <nil>
}

// A drill that is at hand, judged in the metal that it is for.
func ExampleThread_CheckTappingDrillIn() {
	steel, err := material.Lookup("mild steel")
	if err != nil {
		fmt.Println(err)
		return
	}
	drill, err := gauge.Parse("2.6 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := thread.MustParse("M3").CheckTappingDrillIn(steel, drill, thread.FullDepth)
	fmt.Println(c.Suits(), c.Gauged(), c.Verdict(), err)
	// Output: true false suits, outside class 6H <nil>
}

// A hole of 7 mm in a flange of 9 mm: what is left below the point of the drill.
func ExampleBlindHole_Left() {
	hole, err := thread.MustParse("M3").ThreadInBlindHole(units.MM(7), thread.BottomingTap)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, metal := range []float64{9, 8} {
		left, found, err := hole.Left(units.MM(2.5), 118*units.Degree, units.MM(metal))
		fmt.Println(left.Text(units.Millimetres, 2), len(found), err)
	}
	// Output:
	// 1.25 mm 0 <nil>
	// 0.25 mm 1 <nil>
}

// The drill for the parallel hole Rp 1/8 leaks as a taper hole Rc.
func ExampleThread_CheckPipeDrill() {
	drill, err := gauge.Parse("8.6 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := thread.MustParse("Rc 1/8").CheckPipeDrill(drill, thread.DrilledTaper)
	fmt.Println(d.Suits(), d.Findings[0].Code, err)
	// Output: false pipe-thread-leaks <nil>
}

// What was asked for is what is answered: 8.6 mm makes Rp 1/8 and not Rc 1/8.
func ExampleDrillPlan_Named() {
	own, err := gauge.ParseSet("8.6 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := thread.MustParse("R 1/8").PlanDrill(own, thread.TapDepth{})
	fmt.Println(plan.Named("Rp 1/8").Suits(), plan.Named("Rc 1/8").Suits(), err)
	// Output: true false <nil>
}

// What to mind with a small tap in a blind hole.
func ExampleThread_TappingPrecautions() {
	for _, p := range thread.MustParse("M3").TappingPrecautions(true) {
		fmt.Println(p.Code)
	}
	// Output:
	// tap-square
	// tap-chips
	// small-tap
	// blind-tap
}

func ExampleListSeries() {
	n := 0
	for _, s := range thread.ListSeries() {
		if s.Pipe() {
			n++
		}
	}
	fmt.Println(n, "series of pipe threads")
	// Output: 3 series of pipe threads
}
