package gasket

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// The chords of GA-01, over the diameter, to the last printed place.
func TestStepOff(t *testing.T) {
	for _, test := range []struct {
		name string
		n    int
		want float64
	}{
		{"GA-01, 3 holes", 3, 0.86603}, {"GA-01, 4 holes", 4, 0.70711}, {"GA-01, 5 holes", 5, 0.58779}, {"GA-01, 6 holes", 6, 0.5},
		{"GA-01, 7 holes", 7, 0.43388}, {"GA-01, 8 holes", 8, 0.38268}, {"GA-01, 12 holes", 12, 0.25882},
	} {
		s, err := StepOff(test.n, units.MM(100))
		if err != nil || math.Abs(s.Opening().MM()/100-test.want) > 5e-6 || len(s.Chords) != test.n/2 {
			t.Errorf("%s: %+v, %v", test.name, s, err)
		}
	}
	second := check.Only
	check.Refuses(t, "one hole", second(StepOff(1, units.MM(36))), units.ErrOutOfRange, "number of holes")
	check.Refuses(t, "many", second(StepOff(1001, units.MM(36))), units.ErrOutOfRange, "number of holes")
	check.Refuses(t, "no circle", second(StepOff(6, units.Length{})), units.ErrOutOfRange, "diameter of the circle")
	check.Refuses(t, "nothing stepped", second(Stepping{}.Reopened(units.MM(1), units.MM(1))), units.ErrOutOfRange, "number of holes")
	s, _ := StepOff(6, units.MM(36))
	check.Refuses(t, "no gap", second(s.Reopened(units.MM(18), units.Length{})), units.ErrOutOfRange, "gap that is left")
	check.Refuses(t, "too far", second(s.Reopened(units.MM(18), units.MM(36))), units.ErrOutOfRange, "below the diameter")
	for hole, want := range map[float64]int{17.99: 0, 18: 1, 40: 1} {
		fs := s.Check(units.MM(hole))
		if len(fs) != want || want > 0 && (fs[0].Code != HolesMeet || fs[0].Severity != finding.Fails) {
			t.Errorf("holes of %g mm: %v", hole, fs)
		}
	}
	if !(Stepping{}).Opening().IsZero() {
		t.Error("an opening of nothing")
	}
}

// The chords are the distances of the holes of the pattern, and stepping round with
// dividers that are a little out, and then with those that Reopened gives, closes.
func TestSteppingCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, d := rapid.IntRange(2, 40).Draw(t, "holes"), rapid.Float64Range(5, 200).Draw(t, "diameter")
		s, err := StepOff(n, units.MM(d))
		if err != nil {
			t.Fatal(err)
		}
		p, err := BoltCircle(n, units.MM(d), 0)
		if err != nil {
			t.Fatal(err)
		}
		for k, chord := range s.Chords {
			if far := p[0].At.Distance(p[k+1].At).Sub(chord).Abs(); far.MM() > 1e-6 {
				t.Fatalf("chord %d is %v off", k+1, far)
			}
		}
		if n < 4 {
			return // a chord of half the circle or more cannot be stepped off too wide
		}
		// gap left by n-1 steps of an opening, from the angles
		gap := func(opening float64) float64 {
			return d * math.Sin(math.Pi-float64(n-1)*math.Asin(opening/d))
		}
		out := rapid.Float64Range(-0.1, 0.1).Draw(t, "out") * s.Opening().MM() / float64(n)
		opening := s.Opening().MM() + out
		next, err := s.Reopened(units.MM(opening), units.MM(gap(opening)))
		if err != nil {
			t.Fatal(err)
		}
		if left := math.Abs(next.MM() - s.Opening().MM()); left > 0.15*math.Abs(out)+1e-6 {
			t.Fatalf("set %g mm out, and %g after it was set again", out, left)
		}
	})
}
