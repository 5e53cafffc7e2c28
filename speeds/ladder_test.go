package speeds_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

func ExampleLadder_Choose() {
	lathe, err := speeds.ParseLadder("cone 720 450 280 175, back gear 6.5:1")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, want := range []float64{480, 90, 24} {
		c, err := lathe.Choose(units.RotationalSpeed(want) * units.RevPerMinute)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%.0f: %v\n", want, c.Step)
	}
	// Output:
	// 480: 450 rev/min (cone step 2, open belt)
	// 90: 69.2 rev/min (cone step 2, back gear)
	// speeds: wanted at most 24 rev/min; the slowest step, 26.9 rev/min (cone step 4, back gear), is 1.12 times too fast
}

// A lathe by its steps, one with a cone and back gear, and a mill without steps in
// two gears.
func ExampleNewLadder() {
	n := units.RevPerMinute
	steps, err := speeds.NewLadder(speeds.Step{Speed: 250 * n}, speeds.Step{Speed: 60 * n})
	fmt.Println(steps, err)
	cone, err := speeds.ConeLadder(6.5, 720*n, 450*n)
	fmt.Println(cone.Slowest(), err)
	mill, err := speeds.Stepless(
		speeds.Step{Speed: 50 * n, Name: "low"}, speeds.Step{Speed: 1100 * n, Name: "low"},
		speeds.Step{Speed: 100 * n, Name: "high"}, speeds.Step{Speed: 2500 * n, Name: "high"})
	fmt.Println(mill, err)
	// Output:
	// 60 250 rev/min <nil>
	// 69.2 rev/min (cone step 2, back gear) <nil>
	// low 50-1100, high 100-2500 rev/min <nil>
}

// The slow end of a stepless drive, wanted back from the surface speed that it
// gives, is that end and not too fast by a rounding.
func TestChooseSlowEnd(t *testing.T) {
	l := ladder(t, "low 50-400, high 300-2500")
	for um := 1000; um <= 400_000; um += 997 {
		d := units.Micron(float64(um))
		v, err := speeds.CuttingSpeed(50*units.RevPerMinute, d)
		if err != nil {
			t.Fatal(err)
		}
		n, err := speeds.SpindleSpeed(v, d)
		if err != nil {
			t.Fatal(err)
		}
		c, err := l.Choose(n)
		if err != nil || c.Step.Name != "low" || math.Abs(float64(c.Step.Speed/(50*units.RevPerMinute))-1) > 1e-12 {
			t.Fatalf("%v: %v, %v", d, c.Step, err)
		}
	}
}

// A choice is never above what was wanted, and no step lies between the two.
func TestChooseIsNeverAbove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var steps []speeds.Step
		for _, n := range rapid.SliceOfNDistinct(rapid.IntRange(20, 5000), 1, 20, rapid.ID[int]).Draw(t, "steps") {
			steps = append(steps, speeds.Step{Speed: units.RotationalSpeed(n) * units.RevPerMinute})
		}
		l, err := speeds.NewLadder(steps...)
		if err != nil {
			t.Fatal(err)
		}
		want := units.RotationalSpeed(rapid.Float64Range(5, 8000).Draw(t, "want")) * units.RevPerMinute
		c, err := l.Choose(want)
		if err != nil {
			if l.Slowest().Speed <= want {
				t.Fatalf("%v refused: %v", want, err)
			}
			return
		}
		if c.Step.Speed > want*(1+1e-9) {
			t.Fatalf("wanted %v, got %v", want, c.Step)
		}
		for _, s := range l.Steps() {
			if s.Speed > c.Step.Speed && s.Speed <= want {
				t.Fatalf("wanted %v, got %v, not %v", want, c.Step, s)
			}
		}
	})
}

// A dial is set to the last of its marks that is not above what was wanted, or to
// one of its ends.
func TestChooseOnADial(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slow := rapid.Float64Range(5, 1500).Draw(t, "slow")
		fast := slow + rapid.Float64Range(1, 3000).Draw(t, "range")
		l, err := speeds.Stepless(speeds.Step{Speed: units.RotationalSpeed(slow) * units.RevPerMinute},
			speeds.Step{Speed: units.RotationalSpeed(fast) * units.RevPerMinute})
		if err != nil {
			t.Fatal(err)
		}
		want := rapid.Float64Range(slow, 5000).Draw(t, "want")
		c, err := l.Choose(units.RotationalSpeed(want) * units.RevPerMinute)
		if err != nil {
			t.Fatal(err)
		}
		got, dial := c.Step.Speed.In(units.RevPerMinute), c.Dial.In(units.RevPerMinute)
		switch {
		case got > want*(1+1e-9) || (len(c.Findings) > 0) != (want > fast*(1+1e-9)):
			t.Fatalf("wanted %v of %v to %v, got %v, %v", want, slow, fast, got, c.Findings)
		case c.Dial == 0 && math.Abs(got-slow) > 1e-6 && math.Abs(got-fast) > 1e-6,
			c.Dial > 0 && (got+dial <= want || math.Abs(got-dial*math.Round(got/dial)) > 1e-6 || want >= 100 && dial < 5):
			t.Fatalf("wanted %v of %v to %v, got %v on a dial of %v", want, slow, fast, got, dial)
		}
	})
}

func TestTooFastErrorText(t *testing.T) {
	err := &speeds.TooFastError{Wanted: 50 * units.RevPerMinute, Slowest: speeds.Step{Speed: 100 * units.RevPerMinute}}
	if got, want := err.Error(),
		"speeds: wanted at most 50 rev/min; the slowest step, 100 rev/min, is 2 times too fast"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if text := (&speeds.TooFastError{}).Error(); strings.Contains(text, "NaN") {
		t.Errorf("nothing in it: %q", text)
	}
}

// Every speed of a small lathe, and the fastest.
func ExampleLadder_Steps() {
	lathe, err := speeds.ParseLadder("cone 720 450 280, back gear 6:1")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range lathe.Steps() {
		fmt.Println(s)
	}
	fmt.Println("fastest:", lathe.Fastest().Speed)
	// Output:
	// 46.7 rev/min (cone step 3, back gear)
	// 75 rev/min (cone step 2, back gear)
	// 120 rev/min (cone step 1, back gear)
	// 280 rev/min (cone step 3, open belt)
	// 450 rev/min (cone step 2, open belt)
	// 720 rev/min (cone step 1, open belt)
	// fastest: 720 rev/min
}
