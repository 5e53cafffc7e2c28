package fits_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// FI-08: "a thou per inch" is what everybody gives as the clearance of a crankshaft.
// On a shaft of 3/8 in it asks for 0.375 thou, which neither reamer nor
// micrometer of a small shop can hold; the close running fit of the standard
// takes what a reamer gives.
func ExampleChoose_crankshaft() {
	rules, _ := fits.RulesFor("bearing")
	rule, _ := rules[0].Allowance(units.Inch(0.375))
	fmt.Printf("%s: %.3f thou (%s)\n", rules[0].Name, rule.Min.Thou(), rules[0].Refs)

	best, err := fits.Choose(units.MM(9.5), fits.Band{Min: units.Thou(0.5), Max: units.Thou(2)}, fits.HoleBasis)
	if err != nil {
		fmt.Println(err)
		return
	}
	c := best[0]
	fmt.Printf("%s, %s: %.1f to %.1f thou\n", c.Fit, c.Name, c.Result.Clearance.Min.Thou(), c.Result.Clearance.Max.Thou())

	fit, _ := fits.ParseFit("H7/f7")
	r, _ := fit.LimitsFor(units.MM(9.5))
	fmt.Printf(
		"%s: %.0f to %.0f um, %.1f to %.1f thou\n", fit, r.Clearance.Min.Micron(), r.Clearance.Max.Micron(),
		r.Clearance.Min.Thou(), r.Clearance.Max.Thou(),
	)
	shaft, err := r.Shaft.RoundInward(units.MM(0.01))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf(
		"with a micrometer that reads 0.01 mm: %s to %s, %.0f of %.0f um lost\n", shaft.Min, shaft.Max,
		shaft.Lost.Micron(), r.Shaft.Tolerance().Micron(),
	)
	// Output:
	// a thou per inch: 0.375 thou (Plain bearing clearance, article of an electric-motor repair association, 2016, list)
	// H8/f7, close running: 0.5 to 2.0 thou
	// H7/f7: 13 to 43 um, 0.5 to 1.7 thou
	// with a micrometer that reads 0.01 mm: 9.48 mm to 9.48 mm, 15 of 15 um lost
}

func TestChoose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nominal := units.Picometres(rapid.Int64Range(1, 3_150_000_000_000).Draw(t, "size"))
		low := units.Micron(float64(rapid.IntRange(-200, 300).Draw(t, "low")))
		wanted := fits.Band{Min: low, Max: low.Add(units.Micron(float64(rapid.IntRange(0, 200).Draw(t, "width"))))}
		list, err := fits.Choose(nominal, wanted, fits.HoleBasis)
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range list {
			inside := c.Result.Clearance.Min.Cmp(wanted.Min) >= 0 && c.Result.Clearance.Max.Cmp(wanted.Max) <= 0
			if inside != c.Outside.IsZero() || c.Outside.Sign() < 0 || i > 0 && c.Outside.Cmp(list[i-1].Outside) < 0 {
				t.Fatalf("%v: %v to %v in %v, outside %v", c.Fit, c.Result.Clearance.Min, c.Result.Clearance.Max, wanted, c.Outside)
			}
		}
	})
	turned := fits.Band{Min: units.MM(1)}
	if _, err := fits.Choose(units.MM(10), turned, fits.HoleBasis); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := fits.Choose(units.MM(0), fits.Band{}, fits.HoleBasis); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	if _, err := fits.Choose(units.MM(10), fits.Band{}, 9); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
}

// A bearing of 3/4 in that is to run with one to three thou.
func ExampleChooseInch() {
	best, err := fits.ChooseInch(units.Inch(0.75), fits.Band{Min: units.Thou(1), Max: units.Thou(3)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range best[:3] {
		fmt.Printf(
			"%s: %.1f to %.1f thou, %.1f outside; %s\n", c.Fit, c.Result.Clearance.Min.Thou(),
			c.Result.Clearance.Max.Thou(), c.Outside.Thou(), c.Fit.Use(),
		)
	}
	// Output:
	// RC4: 0.8 to 2.8 thou, 0.2 outside; close running: accurate machines at moderate speed and load
	// RC3: 0.8 to 2.1 thou, 0.2 outside; precision running: slow and light, no change of temperature
	// RC5: 1.6 to 3.6 thou, 0.6 outside; medium running: higher speeds, heavy journal loads, or both
}

func TestChooseInch(t *testing.T) {
	for _, size := range []units.Length{units.Inch(20), {}, units.Inch(-1)} {
		if _, err := fits.ChooseInch(size, fits.Band{}); !errors.Is(err, units.ErrOutOfRange) ||
			!strings.Contains(err.Error(), "over 0 up to 7.09 in") {
			t.Errorf("%v: %v", size, err)
		}
	}
	if _, err := fits.ChooseInch(units.Inch(1), fits.Band{Min: units.Thou(1)}); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
	list, err := fits.ChooseInch(units.Inch(1), fits.Band{Min: units.Thou(-3), Max: units.Thou(-1)})
	if err != nil || list[0].Result.Kind != fits.Interference {
		t.Error(list[0], err)
	}
	for i, c := range list {
		if i > 0 && c.Outside.Cmp(list[i-1].Outside) < 0 {
			t.Errorf("%v stands behind %v", c.Fit, list[i-1].Fit)
		}
	}
}
