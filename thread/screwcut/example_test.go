package screwcut_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
)

// F. D. Jones, Turning and Boring, change gears for metric pitches: a lead of
// 3 mm on an English lathe with a screw constant of 6 takes 90 and 127.
func ExampleLathe_Trains_jones() {
	leadscrew, _ := screwcut.ParseLead("6 tpi")
	lead, _ := screwcut.ParseLead("3 mm")
	trains, err := screwcut.Lathe{Leadscrew: leadscrew, Wheels: []int{20, 30, 90, 127}}.Trains(lead)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(trains.Exact[0])
	// Output: 90/127
}

// On an invented lathe with a leadscrew of 10 tpi and wheels in fours: a metric
// thread without a wheel of 127 teeth: what the nearest train costs
// over the nut and over a long screw.
func ExampleLathe_WheelsToBuy() {
	leadscrew, _ := screwcut.ParseLead("10 tpi")
	wheels, _ := screwcut.ParseWheels("24, 24-100x4")
	lathe := screwcut.Lathe{Leadscrew: leadscrew, Wheels: wheels}
	m8 := screwcut.LeadOf(thread.MustParse("M8"))

	trains, err := lathe.Trains(m8)
	if err != nil {
		fmt.Println(err)
		return
	}
	best := trains.Closest[0]
	fmt.Println(len(trains.Exact), "exact; closest", best, "cuts", best.Cut.Text(units.Millimetres, 6))
	for _, length := range []units.Length{units.MM(100), units.MM(8)} {
		off, err := best.ErrorOver(length)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.2f um over %v\n", off.Micron(), length)
	}
	buy, err := lathe.WheelsToBuy(m8)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("one more wheel that would be exact:", buy)
	// Output:
	// 0 exact; closest 44/80 x 68/76 cuts 1.249947 mm
	// -4.21 um over 100 mm
	// -0.34 um over 8 mm
	// one more wheel that would be exact: [127]
}

func ExamplePickUpOnDial() {
	leadscrew, _ := screwcut.ParseLead("8 tpi")
	for _, lead := range []screwcut.Lead{screwcut.LeadOf(thread.MustParse("1/4 BSF")),
		screwcut.LeadOf(thread.MustParse("1-11.5 NPT")), screwcut.LeadOf(thread.MustParse("M8"))} {
		p, err := screwcut.PickUpOnDial(leadscrew, lead, 32)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: every %d threads, %d places on the dial\n", lead, p.Threads, p.Places)
	}
	// Output:
	// 26 tpi: every 4 threads, 8 places on the dial
	// 11.5 tpi: every 16 threads, 2 places on the dial
	// 1.25 mm: every 50 threads, 0 places on the dial
}

func ExampleInfeedAlongSlide() {
	t := thread.MustParse("1/4x40 ME")
	travel, err := screwcut.InfeedAlongSlide(t.Depth(), 27*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Depth().Text(units.Thousandths, 1), "deep,", travel.Text(units.Thousandths, 1), "along the slide")
	// Output: 16.0 thou deep, 18.0 thou along the slide
}

func ExampleSlideAngleFor() {
	for _, name := range []string{"M8", "1/4 BSF", "2 BA"} {
		fmt.Printf("%.4g degrees\n", screwcut.SlideAngleFor(thread.MustParse(name)).Degrees())
	}
	// Output:
	// 29.5 degrees
	// 27 degrees
	// 23.25 degrees
}

func ExampleLathe_Check() {
	leadscrew, err := screwcut.ParseLead("8 tpi")
	if err != nil {
		fmt.Println(err)
		return
	}
	lathe := screwcut.Lathe{Leadscrew: leadscrew, Wheels: []int{25, 40, 50, 63, 100}}
	trains, err := lathe.Trains(screwcut.LeadOf(thread.MustParse("M8")))
	if err != nil {
		fmt.Println(err)
		return
	}
	findings, err := lathe.Check(trains)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range findings {
		fmt.Println(f.Severity, f.Text)
		fmt.Println(f.Remedies)
	}
	// Output:
	// caution No train of these wheels is exact: the lead of the closest comes out 12.5 um too long in 100 mm, and the half nuts stay closed.
	// [One more wheel makes an exact train: 127 teeth.]
}

func ExampleToolTip_DepthFor() {
	t := thread.MustParse("M8")
	for _, tip := range []screwcut.ToolTip{{}, {Flat: t.Pitch().Scale(1.0 / 8)}, {Flat: t.Pitch().Scale(0.3)}} {
		c, err := tip.DepthFor(t)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(c.Depth.Text(units.Millimetres, 3), len(c.Findings))
	}
	// Output:
	// 0.947 mm 0
	// 0.812 mm 0
	// 0.622 mm 1
}

// The tool decides how far the topslide travels: 40 threads to the inch, 29.5
// degrees off the line of the cross-slide.
func ExampleGroundTips() {
	t := thread.MustParse("4-40 UNC")
	tips, err := screwcut.GroundTips(t)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, ground := range tips {
		cut, err := ground.Tip.DepthFor(t)
		if err != nil {
			fmt.Println(err)
			return
		}
		travel, err := screwcut.InfeedAlongSlide(cut.Depth, screwcut.SlideAngleFor(t))
		fmt.Println(ground.Name, travel.Text(units.Thousandths, 1), err)
	}
	// Output:
	// sharp 21.8 thou <nil>
	// flat of P/8 18.7 thou <nil>
	// radius of the form 17.1 thou <nil>
}

func ExampleParseToolTip() {
	tip, err := screwcut.ParseToolTip("flat 0.1 mm")
	fmt.Println(tip, err)
	_, err = screwcut.ParseToolTip("blunt")
	fmt.Println(err)
	// Output:
	// flat 0.1 mm <nil>
	// screwcut: tip of the tool "blunt": neither sharp nor a flat or a radius; accepted: "sharp", "flat 0.1 mm" or "radius 0.1 mm", above zero up to 25 mm
}

func ExampleTranslations() {
	pairs, err := screwcut.Translations(127, 0.0003)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range pairs[:3] {
		fmt.Printf("%d/%d: %+.4f %%\n", p.Driver, p.Driven, 100*p.Error)
	}
	// Output:
	// 100/127: +0.0000 %
	// 63/80: +0.0125 %
	// 37/47: -0.0213 %
}

func ExamplePitchErrorOnDiameter() {
	// A train that is 1.25 um out over the 10 mm that the nut engages.
	on, err := screwcut.PitchErrorOnDiameter(thread.MustParse("M8"), units.Micron(1.25))
	fmt.Printf("%.2f um %v\n", on.Micron(), err)
	// Output: 2.17 um <nil>
}

func ExampleTrain_Check() {
	train := screwcut.Train{Drivers: []int{20, 90}, Driven: []int{25, 40}, Room: 20 + 25 - 90}
	for _, f := range train.Check() {
		fmt.Println(f)
	}
	// Output:
	// fails: A wheel of 20/25 x 90/40 may foul a stud: -45 teeth to spare, and 15 are wanted. Try the wheels on the banjo, or take another train. (common practice)
}

func ExampleParseLead() {
	for _, text := range []string{"11 1/2 tpi", "1/8 in", "10 mm in 3 turns", "8"} {
		lead, err := screwcut.ParseLead(text)
		if err != nil {
			fmt.Println("no lead:", text)
			continue
		}
		fmt.Println(lead, lead.Length().Text(units.Millimetres, 4))
	}
	// Output:
	// 11.5 tpi 2.2087 mm
	// 8 tpi 3.1750 mm
	// 10 mm in 3 turns 3.3333 mm
	// no lead: 8
}

func ExampleLeadOf() {
	fmt.Println(screwcut.LeadOf(thread.MustParse("1 NPT")), screwcut.LeadOf(thread.MustParse("2 BA")))
	// Output: 11.5 tpi 0.81 mm
}

func ExampleParseWheels() {
	wheels, err := screwcut.ParseWheels("20, 20, 25-40x5, 63")
	fmt.Println(wheels, err)
	// Output: [20 20 25 30 35 40 63] <nil>
}

// A lead of 11 1/2 threads to the inch is two inches in 23 turns.
func ExampleNewLead() {
	lead, err := screwcut.NewLead(units.Inch(2), 23)
	fmt.Println(lead.TPI(), lead.Length().Text(units.Millimetres, 4), err)
	// Output: 11.5 2.2087 mm <nil>
}

// Jones, Turning and Boring (1914), on substitute wheels: a screw of 20 threads to the
// inch that is cut as one of 14/11 mm is a thread out after 23.33 in.
func ExampleTrain_ErrorOver_jones() {
	pitch := units.MM(1.27)
	train := screwcut.Train{Error: 14.0/11/1.27 - 1}
	out, err := train.ErrorOver(units.Inch(23.33))
	fmt.Printf("%.2f threads %v\n", out.Ratio(pitch), err)
	// Output: 1.00 threads <nil>
}

// 1.5 mm on a lathe with 8 threads to the inch takes 60/127. Where the nearest is 30/63
// (invented wheels), a screw of 300 mm comes out so much too long.
func ExampleTrain_ErrorOver() {
	leadscrew, err := screwcut.ParseLead("8 tpi")
	if err != nil {
		fmt.Println(err)
		return
	}
	wanted, err := screwcut.ParseLead("1.5 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	trains, err := screwcut.Lathe{Leadscrew: leadscrew, Wheels: []int{30, 40, 50, 63, 65}}.Trains(wanted)
	if err != nil || len(trains.Closest) == 0 {
		fmt.Println(trains, err)
		return
	}
	out, err := trains.Closest[0].ErrorOver(units.MM(300))
	fmt.Println(trains.Closest[0], trains.Closest[0].Exact(), out.Text(units.Millimetres, 3), err)
	// Output: 30/63 false 2.381 mm <nil>
}

// A topslide that is set over by 30 degrees for Whitworth, which has 27.5.
func ExampleCheckSlide() {
	t := thread.MustParse("1/2 BSW")
	found, err := screwcut.CheckSlide(t, t.Depth(), 30*units.Degree)
	fmt.Println(found[0].Code, found[0].Remedies[0], err)
	// Output: slide-overset Set it over by 27 degrees. <nil>
}

// An error of 0.01 mm over the length of the nut, beside what class 6g allows M8.
func ExamplePitchErrorShare() {
	share, err := screwcut.PitchErrorShare(thread.MustParse("M8"), units.MM(0.01))
	fmt.Println(share, err)
	// Output: 17.32 um on the pitch diameter, 14.7 % of what class 6g allows <nil>
}
