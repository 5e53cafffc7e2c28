package seal

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// Whatever ring is chosen is stretched by up to 5 percent, or on size at its lower
// limit, and has no finding of stretch.
func TestChooseRings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := units.MM(rapid.Float64Range(4, 45).Draw(t, "diameter"))
		duty := rapid.SampledFrom([]Duty{Dynamic, Static}).Draw(t, "duty")
		piston := rapid.Bool().Draw(t, "piston")
		choose, seat := RingsInGland, Ring.InGland
		if piston {
			choose, seat = RingsOnPiston, Ring.OnPiston
		}
		rings, err := choose(d, duty)
		if err != nil {
			if !errors.Is(err, units.ErrOutOfRange) {
				t.Fatal(err)
			}
			return
		}
		for i, r := range rings {
			s, err := seat(r, d, duty)
			if err != nil || s.Stretch < -r.InsideTolerance.Ratio(r.Inside) || strings.Contains(fmt.Sprint(s.Findings), "pinched") || s.SqueezeMax <= s.SqueezeMin {
				t.Fatalf("%s: %+v, %v", r.Size, s, err)
			}
			tight := s.Stretch > 0.05
			if tight && (r.Inside.MM()*(1+s.Stretch) > 12.7 || s.Stretch > 0.10 || s.Findings[0].Severity != finding.Note) {
				t.Fatalf("%s: %+v", r.Size, s)
			}
			if tight != strings.Contains(fmt.Sprint(s.Findings), "is stretched by") && !strings.Contains(fmt.Sprint(s.Findings), "go over the piston") {
				t.Fatalf("%s: %+v", r.Size, s)
			}
			for _, other := range rings[:i] {
				if tight && other.Section == r.Section {
					t.Fatalf("%s is stretched by %g, and %s was there", r.Size, s.Stretch, other.Size)
				}
			}
			if i > 0 && r.Section.Cmp(rings[i-1].Section) > 0 {
				t.Fatalf("not in order of section")
			}
		}
	})
}

// Small rods take the sizes that the series names for them: 006 for 1/8 in, 007
// for 5/32, 008 for 3/16, 010 for 1/4; stretched by hand 9.6, 7.8, 6.5 and 4.6
// percent.
func TestRingsOfSmallRods(t *testing.T) {
	for _, test := range []struct {
		rod     units.Length
		size    string
		stretch float64
	}{
		{units.InchFraction(1, 8), "006", 0.0965},
		{units.InchFraction(5, 32), "007", 0.0776},
		{units.InchFraction(3, 16), "008", 0.0653},
		{units.InchFraction(1, 4), "010", 0.0460},
	} {
		rings, err := RingsInGland(test.rod, Dynamic)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(rings, func(r Ring) bool { return r.Section == units.Inch(0.070) })
		if i < 0 || rings[i].Size != test.size {
			t.Fatalf("%v: %+v, want %s", test.rod, rings, test.size)
		}
		s, err := rings[i].InGland(test.rod, Dynamic)
		if err != nil || math.Abs(s.Stretch-test.stretch) > 0.00005 || s.SqueezeMin < 0.1 {
			t.Errorf("%v: %+v, %v", test.rod, s, err)
		}
	}
	// On the same ring 1 mm more of rod is too much.
	r, err := LookupRing("006")
	if err != nil {
		t.Fatal(err)
	}
	if s, err := r.InGland(units.MM(4.2), Dynamic); err != nil || s.Findings[0].Severity != finding.Caution || s.Findings[0].Code != RingStretch || !strings.Contains(s.Findings[0].Remedies[0], "next larger") {
		t.Errorf("%+v, %v", s, err)
	}
}

func TestChooseRefuses(t *testing.T) {
	second := check.Only
	check.Refuses(t, "rings for a face", second(RingsInGland(units.MM(5), Face)), units.ErrOutOfRange, "duty of the O-ring face")
	check.Refuses(t, "no such duty", second(RingsOnPiston(units.MM(5), 9)), units.ErrOutOfRange, "Duty(9)")
	check.Refuses(t, "endless rod", second(RingsInGland(units.Picometres(math.MaxInt64), Static)), units.ErrOutOfRange, "up to 1 km")
	check.Refuses(t, "no rod", second(RingsInGland(units.MM(0), Dynamic)), units.ErrOutOfRange, "rod")
	check.Refuses(t, "giant bore", second(RingsOnPiston(units.MM(500), Dynamic)), units.ErrOutOfRange, "no ring of the table")
}
