package fits_test

import (
	"errors"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
)

func TestPreferredFits(t *testing.T) {
	for _, b := range fits.Bases() {
		list, err := fits.PreferredFits(b)
		if err != nil || len(list) == 0 {
			t.Fatal(len(list), err)
		}
		for i, p := range list {
			r, err := p.Fit.LimitsFor(units.MM(25))
			if err != nil || p.Name == "" || p.Use == "" || p.Refs.First().Title == "" {
				t.Errorf("%v: %v", p, err)
				continue
			}
			// The part of the basis is made to the size: its limits begin there.
			if b == fits.HoleBasis && r.Hole.Min != units.MM(25) && p.Fit.Shaft.String() != "h6" ||
				b == fits.ShaftBasis && r.Shaft.Max != units.MM(25) {
				t.Errorf("%v is not on %v", p.Fit, b)
			}
			// From loose to tight.
			if i > 0 {
				last, _ := list[i-1].Fit.LimitsFor(units.MM(25))
				if r.MeanClearance().Cmp(last.MeanClearance()) > 0 && p.Fit.String() != "H8/h7" {
					t.Errorf("%v is looser than %v", p.Fit, list[i-1].Fit)
				}
			}
		}
		if back, err := fits.ParseBasis(b.String()); err != nil || back != b {
			t.Error(back, err)
		}
	}
	if _, err := fits.PreferredFits(7); !errors.Is(err, units.ErrUnknown) {
		t.Error(err)
	}
	// Both bases give the same clearance where the tables mirror each other; js
	// lies on both sides of the size and does not.
	hole, _ := fits.PreferredFits(fits.HoleBasis)
	shaft, _ := fits.PreferredFits(fits.ShaftBasis)
	for i := range hole {
		if hole[i].Fit.String() == "H7/js6" {
			continue
		}
		a, errA := hole[i].Fit.LimitsFor(units.MM(10))
		b, errB := shaft[i].Fit.LimitsFor(units.MM(10))
		if errA != nil || errB != nil || a.Clearance.Min != b.Clearance.Min || a.Clearance.Max != b.Clearance.Max {
			t.Errorf(
				"%v %v to %v, %v %v to %v", hole[i].Fit, a.Clearance.Min, a.Clearance.Max, shaft[i].Fit,
				b.Clearance.Min, b.Clearance.Max,
			)
		}
	}
	// Up to 3 mm p6 is a transition fit, above it interference.
	fit, _ := fits.ParseFit("H7/p6")
	small, _ := fit.LimitsFor(units.MM(3))
	large, _ := fit.LimitsFor(units.MM(3.1))
	if small.Kind != fits.Transition || large.Kind != fits.Interference {
		t.Error(small.Kind, large.Kind)
	}
}
