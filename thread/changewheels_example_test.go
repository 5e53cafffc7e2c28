package thread_test

import (
	"fmt"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// F. D. Jones, Turning and Boring, change gears for metric pitches: a lead of
// 3 mm on an English lathe with a screw constant of 6 takes 90 and 127.
func ExampleChangeWheels_jones() {
	leadscrew, _ := thread.ParseLead("6 tpi")
	lead, _ := thread.ParseLead("3 mm")
	trains, err := thread.ChangeWheels(thread.Lathe{Leadscrew: leadscrew, Wheels: []int{20, 30, 90, 127}}, lead)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(trains.Exact[0])
	// Output: 90/127
}

// A metric thread without a wheel of 127 teeth: what the nearest train costs
// over the nut and over a long screw.
func ExampleChangeWheels_without127() {
	leadscrew, _ := thread.ParseLead("8 tpi")
	wheels, _ := thread.ParseWheels("20, 20, 25-100x5, 38, 63")
	lathe := thread.Lathe{Leadscrew: leadscrew, Wheels: wheels}
	m8 := thread.MustParse("M8")

	trains, err := thread.ChangeWheels(lathe, m8.Lead())
	if err != nil {
		fmt.Println(err)
		return
	}
	best := trains.Closest[0]
	fmt.Println(len(trains.Exact), "exact; closest", best, "cuts", best.Cut.Text(units.Millimetres, 6))
	fmt.Printf("%.1f um over 100 mm, %.2f um over a nut of 8 mm\n", best.ErrorOver(units.MM(100)).Micron(), best.ErrorOver(units.MM(8)).Micron())
	buy, err := thread.WheelsToBuy(lathe, m8.Lead())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("one more wheel that would be exact:", buy)
	// Output:
	// 0 exact; closest 63/40 x 25/100 cuts 1.250156 mm
	// 12.5 um over 100 mm, 1.00 um over a nut of 8 mm
	// one more wheel that would be exact: [127]
}

func ExamplePickUpOnDial() {
	leadscrew, _ := thread.ParseLead("8 tpi")
	for _, lead := range []thread.Lead{thread.MustParse("1/4 BSF").Lead(), thread.MustParse("1-11.5 NPT").Lead(), thread.MustParse("M8").Lead()} {
		p, err := thread.PickUpOnDial(leadscrew, lead, 32)
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
	travel, err := thread.InfeedAlongSlide(t.Depth(), 27*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Depth().Text(units.Thousandths, 1), "deep,", travel.Text(units.Thousandths, 1), "along the slide")
	// Output: 16.0 thou deep, 18.0 thou along the slide
}
