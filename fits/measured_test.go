package fits_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Bushes that measure 8.07 mm will not enter a hole of 8 mm: far above any press
// fit. At 8.012 mm one is pressed. (Invented figures.)
func ExampleMeasured() {
	for _, bush := range []units.Length{units.MM(8.07), units.MM(8.012)} {
		r, err := fits.Measured(units.MM(8), bush)
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
	// Output:
	// interference of 2.8 thou
	// fails The interference is 0.070 mm (2.76 thou), 8.8 thou per inch, far above any press fit: no preferred fit of ISO 286 and no fit of ANSI B4.1 goes so far at this size.
	// Turn the shaft to between 8.004 mm (315.12 thou) and 8.016 mm (315.59 thou) for a press fit, below 8.000 mm (314.96 thou) for a running fit.
	// Turning the shaft is easier, and truer, than opening the hole.
	// interference of 0.5 thou
	// note The interference of 0.012 mm (0.47 thou), 1.5 thou per inch, is a press fit by the rules of the trade; the bore of a thin bush closes by most of it.
	// Ream a bush after pressing it in.
}

func TestMeasured(t *testing.T) {
	// FI-09: a sintered bush in a hole of 5/16 in, as bought and as turned. FI-10: a
	// shaft of 16 mm in a bore of 5/8 in.
	for _, test := range []struct {
		name        string
		hole, shaft units.Length
		thou, share float64
	}{
		{"FI-09", units.InchFraction(5, 16), units.Inch(0.315), 2.5, 0.0080},
		{"FI-09, turned", units.InchFraction(5, 16), units.Inch(0.313), 0.5, 0.0016},
		{"FI-10", units.InchFraction(5, 8), units.MM(16), 4.92, 0.0079},
	} {
		r, err := fits.Measured(test.hole, test.shaft)
		if err != nil || math.Abs(-r.Clearance.Thou()-test.thou) > 0.005 || math.Abs(-r.Clearance.Ratio(test.hole)-test.share) > 0.00005 {
			t.Errorf("%s: %+v, %v", test.name, r, err)
		}
	}
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
