package cutting_test

import (
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/speeds/cutting"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// University tutorial 2, problem 1: 5 mm in cuts of at most 2 mm are 3 cuts.
func ExamplePasses() {
	n, each, err := cutting.Passes(units.MM(5), units.MM(2))
	fmt.Println(n, "of", each.Text(units.Millimetres, 2), err)
	// Output: 3 of 1.67 mm <nil>
}

// Fundamentals of Machining, p. 189: a slot 300 mm long with a 30 mm cutter and
// 3 mm of clearance at each end takes 321 mm of travel and 2.68 min at 120
// mm/min (printed 2.675 cut up).
func ExamplePath_Time_slot() {
	approach, _ := cutting.FaceApproach(units.MM(30), units.MM(30))
	t, err := cutting.Path{Length: units.MM(300), Approach: approach.Add(units.MM(3)),
		Overrun: units.MM(3)}.Time(120 * units.MillimetrePerMinute)
	fmt.Println(approach, t, err)
	// Output: 15 mm 2m40.5s <nil>
}

func TestTime(t *testing.T) {
	f := check.Open(t, "speeds/cutting/cutting_time.csv")
	for r := range f.Rows() {
		p := cutting.Path{Length: length(r, "length", "length_unit"), Approach: length(r, "approach", "length_unit"),
			Overrun: length(r, "overrun", "length_unit"), Passes: int(r.Float("passes"))}
		got, err := p.Time(parse(t, r.Text("feed")+" "+r.Text("feed_unit")))
		if err != nil {
			t.Fatal(err)
		}
		r.Compare("minutes", got.Minutes())
	}
}

// Twice the passes take twice the time, and a way in two halves as long as the
// whole.
func TestTimeAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := units.Micron(float64(rapid.IntRange(1, 500_000).Draw(t, "um")))
		vf := units.Speed(rapid.Float64Range(1e-4, 0.1).Draw(t, "vf"))
		one, err := cutting.Path{Length: l}.Time(vf)
		if err != nil {
			t.Fatal(err)
		}
		two, err := cutting.Path{Length: l, Passes: 2}.Time(vf)
		if err != nil || (two-2*one).Abs() > 2*time.Nanosecond {
			t.Fatalf("%v and %v, %v", one, two, err)
		}
		split, err := cutting.Path{Length: l, Approach: l}.Time(vf)
		if err != nil || (split-two).Abs() > 2*time.Nanosecond {
			t.Fatalf("%v and %v, %v", split, two, err)
		}
	})
}

func TestPasses(t *testing.T) {
	// University tutorial 2, problem 1: 5 mm in cuts of at most 2 mm are 3 passes.
	n, each, err := cutting.Passes(units.MM(5), units.MM(2))
	if n != 3 || err != nil || math.Abs(each.MM()-5.0/3) > 1e-8 {
		t.Errorf("%d of %v, %v", n, each, err)
	}
	if n, _, err := cutting.Passes(units.MM(0.6), units.MM(0.2)); n != 3 || err != nil {
		t.Errorf("0.6 in steps of 0.2: %d, %v", n, err)
	}
	if n, _, err := cutting.Passes(units.MM(0.6).Add(units.Picometres(1)), units.MM(0.2)); n != 3 || err != nil {
		t.Errorf("a picometre more: %d, %v", n, err)
	}
	if _, _, err := cutting.Passes(units.MM(600), units.Micron(1)); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("half a million passes: %v", err)
	}
}

func TestErrata(t *testing.T) {
	vf, err := cutting.FeedSpeed(341.22*units.RevPerMinute, units.MM(1.03))
	if err != nil {
		t.Fatal(err)
	}
	d, err := cutting.Path{Length: units.MM(250)}.Time(vf)
	if err != nil {
		t.Fatal(err)
	}
	check.Errata(t, "speeds/cutting", map[string]float64{"student-time": d.Minutes()})
}
