package fits_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// A ground bar of 10 mm h8 is to run with 0.02 to 0.06 mm of clearance, and
// these reamers are in the drawer. (Invented drawer.)
func ExampleReaming_Choose() {
	drawer, err := gauge.ParseSet("9.5 mm, 10 mm, 3/8 in, 25/64 in, 10.02 mm, 10.5 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	h8, _ := fits.ParseClass("h8")
	bar, _ := h8.LimitsFor(units.MM(10))
	best, err := fits.Reaming{
		Reamers: drawer, Shaft: bar, Clearance: fits.Band{Min: units.MM(0.02), Max: units.MM(0.06)},
	}.Choose()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range best[:2] {
		fmt.Printf(
			"%s: %s fit, %s to %s, %s outside\n", c.Reamer.Name, c.Result.Kind, c.Result.Clearance.Min,
			c.Result.Clearance.Max, c.Outside,
		)
	}
	// Output:
	// 10.02 mm: clearance fit, 0.02 mm to 0.06 mm, 0 mm outside
	// 10 mm: clearance fit, 0 mm to 0.037 mm, 0.02 mm outside
}

func TestReamingErrors(t *testing.T) {
	set := gauge.Metric()
	bar := fits.Exact(units.MM(10))
	for name, test := range map[string]struct {
		r    fits.Reaming
		want error
	}{
		"no reamers":  {fits.Reaming{Shaft: bar}, units.ErrMissing},
		"no bar":      {fits.Reaming{Reamers: set}, units.ErrOutOfRange},
		"turned band": {fits.Reaming{Reamers: set, Shaft: bar, Clearance: fits.Band{Min: units.MM(1)}}, units.ErrOutOfRange},
		"shaft class": {fits.Reaming{Reamers: set, Shaft: bar, Hole: class(t, "h7")}, units.ErrOutOfRange},
		"no such":     {fits.Reaming{Reamers: set, Shaft: bar, Hole: class(t, "T7")}, units.ErrOutOfRange},
	} {
		if _, err := test.r.Choose(); !errors.Is(err, test.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	all, err := fits.Reaming{Reamers: set, Shaft: bar, Clearance: fits.Band{Max: units.MM(0.02)}}.Choose()
	if err != nil || len(all) != set.Len() || all[0].Reamer.Diameter != units.MM(10) {
		t.Error(len(all), err)
	}
}

func ExampleReamerFor() {
	for _, nominal := range []units.Length{units.MM(10), units.Inch(0.75), units.MM(300)} {
		reamer, err := fits.ReamerFor(nominal)
		fmt.Println(reamer, err)
	}
	// Output:
	// 10 mm <nil>
	// 3/4 in <nil>
	//  fits: nominal size 300 mm: too large for a reamer; accepted: up to 100 mm; bore the hole, and turn the shaft to suit
}
