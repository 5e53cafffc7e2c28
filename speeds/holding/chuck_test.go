package holding_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// A chuck with light jaws is held by its mark, one with heavy jaws lets go
// before.
func ExampleChuck_Speed() {
	for _, moment := range []float64{0.1, 0.5} {
		chuck := holding.Chuck{Marked: 2500 * units.RevPerMinute, Grip: 15 * units.Kilonewton, Moment: moment}
		limit, err := chuck.Speed(3*units.Kilonewton, 1.5)
		fmt.Printf("%.0f rev/min: %s %v\n", limit.Speed.In(units.RevPerMinute), limit.Reason, err)
	}
	mark, err := holding.MarkedChuck(2500 * units.RevPerMinute)
	fmt.Println(mark.Ref, err)
	// Output:
	// 2500 rev/min: the speed marked on the chuck <nil>
	// 1384 rev/min: the jaws fly outwards and let go of the work <nil>
	// Lathe manufacturer's manual, chuck section, reference speed note <nil>
}

// A chuck of 125 mm without a mark, at a speed that it does not stand.
func ExampleUnmarkedChuck() {
	limit, err := holding.UnmarkedChuck(units.MM(125))
	if err != nil {
		fmt.Println(err)
		return
	}
	findings, err := limit.Check(3000 * units.RevPerMinute)
	for _, f := range findings {
		fmt.Println(f.Severity, f.Text, f.Refs, err)
	}
	// Output: danger Do not run it. 3000 rev/min is above the limit of 2291 rev/min (an iron chuck with no speed marked on it is held to 15 m/s at the rim, a figure from memory). from memory: marks on iron-bodied chucks <nil>
}

func TestChuckNeverAboveItsMark(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := holding.Chuck{
			Marked: units.RotationalSpeed(rapid.Float64Range(100, 5000).Draw(t, "marked")) * units.RevPerMinute,
			Grip:   units.Force(rapid.Float64Range(100, 50_000).Draw(t, "grip")),
			Moment: rapid.Float64Range(0.001, 10).Draw(t, "moment"),
		}
		needed := units.Force(rapid.Float64Range(1, 10_000).Draw(t, "needed"))
		l, err := c.Speed(needed, 1.5)
		if err != nil {
			if c.Grip > 1.5*needed {
				t.Fatal(err)
			}
			return
		}
		left := float64(c.Grip) - c.Moment*float64(l.Speed)*float64(l.Speed)
		if l.Speed > c.Marked || left < 1.5*float64(needed)*(1-1e-9) || l.Reason == "" {
			t.Fatalf("%+v: %+v leaves %v N", c, l, left)
		}
	})
}

// An unmarked chuck is held well below the rim of a flywheel of its size.
func TestUnmarkedChuck(t *testing.T) {
	for _, d := range []units.Length{units.MM(80), units.MM(125), units.MM(200)} {
		l, err := holding.UnmarkedChuck(d)
		if err != nil {
			t.Fatal(err)
		}
		rim, err := holding.CheckRim(metal("cast iron"), d, l.Speed)
		if err != nil || !rim.Findings.OK() || math.Abs(float64(rim.Speed)-15) > 1e-9 || l.Speed > rim.Max*2/3 {
			t.Errorf("%v: %v, %+v, %v", d, l, rim, err)
		}
	}
	for _, d := range []units.Length{units.MM(39), units.MM(1001)} {
		if _, err := holding.UnmarkedChuck(d); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%v: %v", d, err)
		}
	}
}

// Who says that an iron chuck stands 15 m/s is told with the limit.
func TestUnmarkedChuckIsRecalled(t *testing.T) {
	l, err := holding.UnmarkedChuck(units.MM(125))
	if err != nil || !l.Ref.Recalled() {
		t.Errorf("%+v, %v", l, err)
	}
	if _, err := holding.MarkedChuck(0); !errors.Is(err, units.ErrOutOfRange) {
		t.Errorf("no mark: %v", err)
	}
}
