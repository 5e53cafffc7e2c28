package kernel

import (
	"math"
	"testing"
)

// What was meant by an angle or a travel that was stated otherwise, by what the slips
// are called: an advance counted from the crank is 90 degrees more, the place is 90
// degrees and the advance ahead of the crank, or 90 less the advance behind it.
func TestMeant(t *testing.T) {
	const degree = math.Pi / 180
	type stated struct{ lever, advance, travel float64 }
	for _, test := range []struct {
		slip   Code
		stated stated
		want   stated
		ok     bool
	}{
		{AngleFromCrank, stated{0, 116, 6}, stated{0, 26, 6}, true}, {AngleFromCrank, stated{0, 90, 6}, stated{0, 0, 6}, true},
		{AngleFromCrank, stated{0, 89, 6}, stated{}, false}, {AngleFromCrank, stated{-1, 64, 6}, stated{-1, 26, 6}, true},
		{AngleFromCrank, stated{-1, -64, 6}, stated{-1, 26, 6}, true}, {AngleFromCrank, stated{-1, 116, 6}, stated{-1, 26, 6}, true},
		{AngleFromCrank, stated{-1, 90, 6}, stated{-1, 0, 6}, true}, {AngleFromCrank, stated{-1, -116, 6}, stated{}, false},
		{AdvanceOfOtherSign, stated{0, -26, 6}, stated{0, 26, 6}, true}, {AdvanceOfOtherSign, stated{0, 26, 6}, stated{}, false},
		{AdvanceOfOtherSign, stated{0, 0, 6}, stated{}, false},
		// Given as a place of 26 degrees, an advance of -64; behind a reversing lever of -26 or 26.
		{AdvanceForPlace, stated{0, -64, 6}, stated{0, 26, 6}, true}, {AdvanceForPlace, stated{0, 1, 6}, stated{}, false},
		{AdvanceForPlace, stated{0, 0, 6}, stated{0, 90, 6}, true}, {AdvanceForPlace, stated{0, -90, 6}, stated{0, 0, 6}, true},
		{AdvanceForPlace, stated{0, -91, 6}, stated{}, false},
		{AdvanceForPlace, stated{-1, 116, 6}, stated{-1, 26, 6}, true}, {AdvanceForPlace, stated{-1, 64, 6}, stated{-1, 26, 6}, true},
		{AdvanceForPlace, stated{-1, -154, 6}, stated{-1, 26, 6}, true}, // a place of 116
		{AdvanceForPlace, stated{-1, 165, 6}, stated{-1, 75, 6}, true}, {AdvanceForPlace, stated{-1, -179, 6}, stated{-1, 1, 6}, true},
		{AdvanceForPlace, stated{-1, -1, 6}, stated{}, false},         // of -91
		{PlaceOfOtherSign, stated{0, 154, 6}, stated{0, 26, 6}, true}, // of -116 for 116
		{PlaceOfOtherSign, stated{0, 26, 6}, stated{}, false},
		{PlaceOfOtherSign, stated{-1, 154, 6}, stated{-1, 26, 6}, true}, // of 64 for -64
		{PlaceOfOtherSign, stated{-1, 26, 6}, stated{}, false}, {PlaceOfOtherSign, stated{-1, 90, 6}, stated{}, false},
		{PlaceOfOtherSign, stated{-1, 120, 6}, stated{-1, 60, 6}, true}, // of 30 for -30
		{PlaceOfOtherSign, stated{0, -120, 6}, stated{0, -60, 6}, true}, {PlaceOfOtherSign, stated{0, -90, 6}, stated{}, false},
		{OffsetForTravel, stated{0, 26, 3}, stated{0, 26, 6}, true}, {TravelForOffset, stated{0, 26, 12}, stated{0, 26, 6}, true},
		{OffsetForTravel, stated{-2, 26, 3}, stated{-2, 26, 12}, true}, {TravelForOffset, stated{1.5, 26, 12}, stated{1.5, 26, 4}, true},
		{OffsetForTravel, stated{0.5, 26, 3}, stated{}, false}, {TravelForOffset, stated{-0.5, 26, 3}, stated{}, false},
		{NarrowLand, stated{0, 26, 6}, stated{}, false},
	} {
		g := demo()
		g.Lever, g.Advance, g.Travel = test.stated.lever, test.stated.advance*degree, test.stated.travel*millimetre
		meant, ok := g.Meant(test.slip)
		if ok != test.ok {
			t.Errorf("%v of %v: %v %+v", test.slip, test.stated, ok, meant)
		}
		if !ok {
			continue
		}
		near(t, test.slip.String()+": advance", math.Remainder(meant.Advance/degree-test.want.advance, 360), 0, 1e-9)
		near(t, test.slip.String()+": travel", meant.Travel/millimetre, test.want.travel, 1e-9)
		// With inside admission a reversing lever is as none, and none as one.
		inside := g
		inside.Inside = true
		inside.Lever = -g.Lever
		if g.Lever == 0 {
			inside.Lever = -1
		}
		if other, ok := inside.Meant(test.slip); !ok || other.Advance != meant.Advance || other.Travel != meant.Travel {
			t.Errorf("%v of %v inside: %v, not %v", test.slip, test.stated, other.Advance/degree, meant.Advance/degree)
		}
	}
}

// The eccentric stands 90 degrees and the advance ahead, or 90 less the advance behind,
// from -180 to 180 degrees.
func TestPlaceOfTheEccentric(t *testing.T) {
	const degree = math.Pi / 180
	for _, test := range []struct{ lever, advance, want float64 }{
		{0, 26, 116}, {0, -26, 64}, {0, 154, -116}, {1.2, 26, 116}, {-1, 26, -64}, {-1, -154, 116}, {-0.5, 116, 26},
	} {
		g := Gear{Lever: test.lever, Advance: test.advance * degree}
		near(t, "place", g.Place()/degree, test.want, 1e-9)
		if g.Follows() != (test.lever < 0) {
			t.Errorf("%+v: follows %v", g, g.Follows())
		}
		g.Inside = true
		if g.Follows() == (test.lever < 0) {
			t.Errorf("%+v: follows %v", g, g.Follows())
		}
	}
	// For the other direction an advance is 180 degrees less it.
	for advance, want := range map[float64]float64{26: 154, 154: 26, -26: -154, -154: -26, 90: 90, 0: 180} {
		near(t, "reversed", math.Abs(math.Remainder(Reversed(advance*degree)/degree-want, 360)), 0, 1e-9)
	}
}

// A code is written as the finding that says it, and none as none.
func TestCodesAreWritten(t *testing.T) {
	seen := map[string]bool{}
	for code := range Code(Codes) {
		if text := code.String(); len(text) < 5 || seen[text] {
			t.Errorf("%d: %q", code, text)
		}
		seen[code.String()] = true
	}
	if Code(Codes).String() != "none" || BlindArc.String() != "blind-arc" || AngleFromCrank.String() != "angle-from-crank" {
		t.Errorf("%v %v %v", Code(Codes), BlindArc, AngleFromCrank)
	}
}
