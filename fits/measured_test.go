package fits_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Bushes sold as 5/16 measure 0.315 in and will not enter a hole of 0.3125 in:
// 8 thou per inch, far above any press fit. At 0.313 in it is 1.6.
func ExampleMeasured() {
	for _, bush := range []units.Length{units.Inch(0.315), units.Inch(0.313)} {
		r, err := fits.Measured(units.InchFraction(5, 16), bush)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s of %.1f thou\n", r.Kind, r.Clearance.Abs().Thou())
		for _, f := range r.Findings {
			fmt.Println(f.Severity, f.Text)
			fmt.Println(strings.Join(f.Remedies, "\n"))
		}
	}
	// A 16 mm shaft in a sprocket bored 5/8 in.
	r, _ := fits.Measured(units.InchFraction(5, 8), units.MM(16))
	fmt.Printf("%s of %s, %.2f thou\n", r.Kind, r.Clearance.Abs(), r.Clearance.Abs().Thou())
	// Output:
	// interference of 2.5 thou
	// fails The interference is 0.064 mm (2.50 thou), 8.0 thou per inch, far above any press fit: no preferred fit of ISO 286 and no fit of ANSI B4.1 goes so far at this size.
	// Turn the shaft to between 7.941 mm (312.66 thou) and 7.953 mm (313.13 thou) for a press fit, below 7.938 mm (312.50 thou) for a running fit.
	// Turning the shaft is easier, and truer, than opening the hole.
	// interference of 0.5 thou
	// note The interference of 0.013 mm (0.50 thou), 1.6 thou per inch, is a press fit by the rules of the trade; the bore of a thin bush closes by most of it.
	// Ream a bush after pressing it in.
	// interference of 0.125 mm, 4.92 thou
}

func TestMeasured(t *testing.T) {
	sprocket, err := fits.Measured(units.InchFraction(5, 8), units.MM(16))
	if err != nil || len(sprocket.Findings) != 1 || sprocket.Findings.OK() || sprocket.Findings[0].Refs.Len() != 2 {
		t.Errorf("%+v, %v", sprocket, err)
	}
	for _, test := range []struct {
		shaft float64
		code  finding.Code
	}{
		{10.003, fits.LocatesOnly}, {10.0049, fits.LocatesOnly}, {10.0051, fits.PressFit}, {10.0199, fits.PressFit},
		{10.0201, fits.BeyondPressRules}, {10.0359, fits.BeyondPressRules}, {10.052, fits.BeyondPress},
	} {
		r, err := fits.Measured(units.MM(10), units.MM(test.shaft))
		if err != nil || len(r.Findings) != 1 || r.Findings[0].Code != test.code || r.Kind != fits.Interference {
			t.Errorf("%g mm: %+v, %v", test.shaft, r, err)
		}
	}
	if r, err := fits.Measured(units.MM(10), units.MM(9.99)); err != nil || r.Kind != fits.Clearance ||
		len(r.Findings) != 0 {
		t.Error(r, err)
	}
	for _, shaft := range []units.Length{{}, units.MM(-1)} {
		if _, err := fits.Measured(units.MM(10), shaft); !errors.Is(err, units.ErrOutOfRange) {
			t.Error(err)
		}
		if _, err := fits.Measured(shaft, units.MM(10)); !errors.Is(err, units.ErrOutOfRange) {
			t.Error(err)
		}
	}
}
