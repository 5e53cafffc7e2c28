package setting_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

// A taper of 10 degrees included on 50 mm from 30 mm: its rate, and what to set the
// topslide to.
func ExampleTaper() {
	t, err := setting.TaperOfAngle(10*units.Degree, units.MM(30), units.MM(50))
	if err != nil {
		fmt.Println(err)
		return
	}
	rate, _ := t.Rate()
	included, _ := t.Included()
	topslide, _ := t.Topslide()
	fmt.Printf("%s at the small end, %.4f, %.1f deg, topslide %.1f deg\n",
		t.Small.Text(units.Millimetres, 3), rate, included.Degrees(), topslide.Degrees())
	// Output: 21.251 mm at the small end, 0.1750, 10.0 deg, topslide 5.0 deg
}

// US Navy NAVEDTRA 14345, tailstock set-over: a taper of 1 in/ft on work 6 in
// long is 1/4 in.
func ExampleTaper_SetOver_navy() {
	t := setting.Taper{Large: units.Inch(1), Small: units.Inch(0.5), Length: units.Inch(6)}
	over, err := t.SetOver(units.Inch(6))
	fmt.Println(over.Text(units.Inches, 3), err)
	// Output: 0.250 in <nil>
}

func TestTapers(t *testing.T) {
	f := check.Open(t, "speeds/setting/tapers.csv")
	for r := range f.Rows() {
		taper, err := setting.TaperOfAngle(units.Angle(r.Float("included_deg"))*units.Degree, units.Inch(2), units.Inch(1))
		if err != nil {
			t.Fatal(err)
		}
		rate, err := taper.Rate()
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("rate", rate)
		// The printed rate on a length of one inch is the angle, as near as the table is.
		cone := setting.Taper{Large: units.Inch(1 + r.Float("rate")), Small: units.Inch(1), Length: units.Inch(1)}
		included, err := cone.Included()
		if err != nil {
			t.Fatal(err)
		}
		r.Within("included_deg", included.Degrees(), r.Float("tolerance")*180/math.Pi)
	}
}
