package fits_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// End float of a crankshaft: the bearing block less the web and two washers.
// (Invented figures.)
func ExampleStack() {
	limits := func(nominal, lower, upper float64) fits.Limits {
		return fits.Limits{Nominal: units.MM(nominal), Min: units.MM(nominal + lower), Max: units.MM(nominal + upper)}
	}
	r, err := fits.Stack([]fits.Link{
		{Name: "block", Size: limits(40, 0.05, 0.15)},
		{Name: "web", Size: limits(37, -0.05, 0), Subtract: true},
		{Name: "washer, left", Size: limits(1.5, -0.02, 0.02), Subtract: true},
		{Name: "washer, right", Size: limits(1.5, -0.02, 0.02), Subtract: true},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf(
		"worst %s to %s, likely %s to %s\n", r.Worst.Min, r.Worst.Max, r.Likely.Min.Decimal(units.Millimetres, 3),
		r.Likely.Max.Text(units.Millimetres, 3),
	)
	for _, s := range r.Shares {
		fmt.Printf("%s %.0f %% of the worst, %.0f %% of the likely\n", s.Name, 100*s.Worst, 100*s.Root)
	}
	// Output:
	// worst 0.01 mm to 0.24 mm, likely 0.062 to 0.188 mm
	// block 43 % of the worst, 64 % of the likely
	// web 22 % of the worst, 16 % of the likely
	// washer, left 17 % of the worst, 10 % of the likely
	// washer, right 17 % of the worst, 10 % of the likely
}

func TestStackProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var links []fits.Link
		for range rapid.IntRange(1, 8).Draw(t, "links") {
			lo := units.Picometres(rapid.Int64Range(-1e12, 1e12).Draw(t, "min"))
			links = append(links, fits.Link{
				Size: fits.Limits{
					Nominal: lo, Min: lo,
					Max: lo.Add(units.Picometres(rapid.Int64Range(0, 1e9).Draw(t, "tolerance"))),
				},
				Subtract: rapid.Bool().Draw(t, "subtract"),
			})
		}
		r, err := fits.Stack(links)
		if err != nil {
			t.Fatal(err)
		}
		slack := units.Picometres(2)
		if r.Likely.Min.Cmp(r.Worst.Min.Sub(slack)) < 0 || r.Likely.Max.Cmp(r.Worst.Max.Add(slack)) > 0 {
			t.Fatalf("likely %v wider than worst %v", r.Likely, r.Worst)
		}
		if len(links) == 1 &&
			(r.Likely.Min.Sub(r.Worst.Min).Abs().Cmp(slack) > 0 ||
				r.Likely.Tolerance().Sub(r.Worst.Tolerance()).Abs().Cmp(slack) > 0) {
			t.Fatalf("one link: %v, %v", r.Likely, r.Worst)
		}
		var worst, root float64
		for _, s := range r.Shares {
			worst, root = worst+s.Worst, root+s.Root
		}
		if !r.Worst.Tolerance().IsZero() && (math.Abs(worst-1) > 1e-9 || math.Abs(root-1) > 1e-9) {
			t.Fatalf("shares %g and %g", worst, root)
		}
	})
	if _, err := fits.Stack(nil); !errors.Is(err, units.ErrMissing) {
		t.Error(err)
	}
	turned := []fits.Link{{Size: fits.Limits{Min: units.MM(2), Max: units.MM(1)}}}
	if _, err := fits.Stack(turned); !errors.Is(err, units.ErrOutOfRange) {
		t.Error(err)
	}
}
