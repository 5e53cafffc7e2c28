package eccentric

import (
	"math"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// How a sentence writes a length: in millimetres to a hundredth, below a tenth to a
// micron; in thou below a tenth of an inch, in inches from there on. 25.4 mm to the
// inch; worked by hand.
func TestLengthsInSentences(t *testing.T) {
	pm := units.Picometres(1)
	for _, test := range []struct {
		length                 units.Length
		mm, both, toSet, toCut string
	}{
		{units.Length{}, "0 mm", "0 mm (0 thou)", "0 mm (0 thou)", "0 mm (0.000 in)"},
		{units.MM(1.234), "1.23 mm", "1.23 mm (48.6 thou)", "1.23 mm (48.6 thou)", "1.24 mm (0.049 in)"},
		{units.MM(-1.236), "-1.24 mm", "-1.24 mm (-48.7 thou)", "-1.24 mm (-48.7 thou)", "-1.23 mm (-0.048 in)"},
		{units.Micron(100), "0.1 mm", "0.1 mm (3.9 thou)", "0.1 mm (3.9 thou)", "0.1 mm (0.004 in)"},
		{units.Micron(104), "0.1 mm", "0.1 mm (4.1 thou)", "0.1 mm (4.1 thou)", "0.11 mm (0.005 in)"},
		{units.Micron(99), "0.099 mm", "0.099 mm (3.9 thou)", "0.1 mm (3.9 thou)", "0.1 mm (0.004 in)"},
		{units.Micron(-51.4), "-0.051 mm", "-0.051 mm (-2 thou)", "-0.05 mm (-2 thou)", "-0.05 mm (-0.002 in)"},
		{units.Thou(100), "2.54 mm", "2.54 mm (0.100 in)", "2.54 mm (0.100 in)", "2.54 mm (0.100 in)"},
		{units.Thou(100).Sub(pm), "2.54 mm", "2.54 mm (100 thou)", "2.54 mm (100 thou)", "2.54 mm (0.100 in)"},
		{units.Thou(-100), "-2.54 mm", "-2.54 mm (-0.100 in)", "-2.54 mm (-0.100 in)", "-2.54 mm (-0.100 in)"},
		{units.MM(100), "100 mm", "100 mm (3.937 in)", "100 mm (3.937 in)", "100 mm (3.938 in)"},
	} {
		got := [...]string{mm(test.length), both(test.length), toSet(test.length), size(test.length, units.Up)}
		if want := [...]string{test.mm, test.both, test.toSet, test.toCut}; got != want {
			t.Errorf("%v: %q, want %q", test.length, got, want)
		}
	}
	// A move has the hundredths to which it is rounded, either way alike.
	for by, want := range map[float64]string{
		0.234: "0.23 mm (9.1 thou)", -0.236: "-0.24 mm (-9.4 thou)", 0.0949: "0.09 mm (3.5 thou)", 0.096: "0.1 mm (3.9 thou)",
	} {
		if got := toBeSet(units.MM(by)); got != want {
			t.Errorf("%v to be set: %s, want %s", by, got, want)
		}
	}
	for _, test := range []struct {
		length float64
		mode   units.RoundMode
		size   string
		mm     float64 // what the rounded size is, in the unit in which it is further from it
	}{
		{1.234, units.Up, "1.24 mm (0.049 in)", 0.049 * 25.4}, {1.234, units.Down, "1.23 mm (0.048 in)", 0.048 * 25.4},
		{1.234, units.Nearest, "1.23 mm (0.049 in)", 0.049 * 25.4}, {2.532, units.Up, "2.54 mm (0.100 in)", 2.54},
		{1.271, units.Up, "1.28 mm (0.051 in)", 0.051 * 25.4}, {1.2692, units.Up, "1.27 mm (0.050 in)", 1.27},
	} {
		l := units.MM(test.length)
		if got := size(l, test.mode); got != test.size {
			t.Errorf("%v: %s, want %s", l, got, test.size)
		}
		near(t, test.size, rounded(l, test.mode).MM(), test.mm, 1e-9)
	}
	// What no rounding holds is written as it is, and what one of them does not.
	if far := units.Picometres(9_223_372_036_850_000_000); size(far, units.Up) != far.String() || rounded(far, units.Up) != far {
		t.Errorf("%s", size(far, units.Up))
	}
	most := units.Picometres(math.MaxInt64)
	if got := size(most, units.Up); got != most.String() || rounded(most, units.Up) != most {
		t.Errorf("%s", got)
	}
}

func TestWordsOfAnglesAndPlaces(t *testing.T) {
	for angle, want := range map[float64]string{
		0: "0.0 deg", -0.04: "0.0 deg", -0.06: "-0.1 deg", 26.04: "26.0 deg", 26.06: "26.1 deg", -153.96: "-154.0 deg",
	} {
		if got := deg(units.Angle(angle) * units.Degree); got != want {
			t.Errorf("%v: %s, want %s", angle, got, want)
		}
	}
	for text, want := range map[string]string{"1.50": "1.5", "1.00": "1", "100": "100", "0.0": "0", "10.010": "10.01"} {
		if got := trim(text); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
	for _, test := range []struct {
		advance float64
		inside  bool
		want    string
	}{
		{26, false, "116.0 deg ahead of"}, {26, true, "64.0 deg behind"}, {-90, false, "0.0 deg ahead of"},
		{90, true, "0.0 deg ahead of"}, {-91, false, "1.0 deg behind"}, {91, true, "1.0 deg ahead of"},
	} {
		g := demo()
		g.Advance, g.InsideAdmission = units.Angle(test.advance)*units.Degree, test.inside
		if got := fromCrank(g); got != test.want+" the crank in the direction of rotation" {
			t.Errorf("%v inside %v: %s", test.advance, test.inside, got)
		}
	}
	for by, want := range map[float64]string{
		0: "0 mm (0 thou) towards", 0.5: "0.5 mm (19.7 thou) towards", -0.5: "0.5 mm (19.7 thou) away from",
	} {
		if got := towards(units.MM(by)); got != want {
			t.Errorf("%v: %s", by, got)
		}
	}
	if got := percent(0.125) + lowered(" Make It") + lowered("Make It"); got != "12.5 % Make Itmake It" {
		t.Error(got)
	}
}
