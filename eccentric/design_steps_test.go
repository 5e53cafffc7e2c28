package eccentric

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// The whole steps round a number, and the next one up, by hand.
func TestWholeSteps(t *testing.T) {
	for _, test := range []struct {
		v, step float64
		each    int
		want    []float64
	}{
		{2.3, 1, 1, []float64{2, 3}}, {2.3, 1, 2, []float64{1, 2, 3, 4}}, {2, 1, 1, []float64{2}}, {2, 1, 2, []float64{1, 2, 3, 4}},
		{-2.3, 1, 1, []float64{-3, -2}}, {1.2, 0.5, 1, []float64{1, 1.5}}, {1.5, 0.5, 1, []float64{1.5}},
		{3 + 0.9e-9, 1, 1, []float64{3}}, {3 - 0.9e-9, 1, 1, []float64{3}}, {3 + 2e-9, 1, 1, []float64{3, 4}}, {3 - 2e-9, 1, 1, []float64{2, 3}},
		{6 + 1.8e-9, 2, 1, []float64{6}}, {6 + 3e-9, 2, 1, []float64{6, 8}},
	} {
		if got := around(test.v, test.step, test.each); !slices.Equal(got, test.want) {
			t.Errorf("%v in steps of %v, %d each: %v, want %v", test.v, test.step, test.each, got, test.want)
		}
	}
	for _, test := range [][3]float64{{1003, 50, 1050}, {1000, 50, 1000}, {1000.009, 50, 1000}, {1000.02, 50, 1050}, {-1003, 50, -1000}, {0, 50, 0}} {
		if got := up(test[0], test[1]); got != test[2] {
			t.Errorf("%v up to steps of %v: %v", test[0], test[1], got)
		}
	}
	// The lands are as wide as the ports from an exhaust lap of less the steam lap on: the first of the laps half a step apart.
	d := new(designer)
	for _, test := range [][4]float64{{-1, 0.2, 0.5, 1.2}, {-1, 0.25, 0.5, 1}, {-1, 0.3, 0.5, 1.05}, {0.3, 0, 0.2, -0.3}, {-1, 2, 0.5, 1}} {
		if got := d.wideLand(test[0], test[1], test[2]); math.Abs(got-test[3]) > 1e-12 {
			t.Errorf("wide lands of %v near %v in steps of %v: %v, want %v", test[0], test[1], test[2], got, test[3])
		}
	}
}

// The nearest number that does is found from both sides, to its last digits; to a whole
// step that does, and none where it is too far.
func TestNearestThatDoes(t *testing.T) {
	from := func(least float64) func(float64) bool { return func(v float64) bool { return v >= least } }
	upTo := func(most float64) func(float64) bool { return func(v float64) bool { return v <= most } }
	for _, test := range []struct {
		wish, step float64
		times      int
		does       func(float64) bool
		want       float64
		ok         bool
	}{
		{1, 0.1, 10, from(1.23), 1.23, true}, {1, 0.1, 10, upTo(0.77), 0.77, true}, {1, 0.1, 2, from(1.23), 0, false},
		{1, 0.1, 3, from(1.23), 1.23, true}, {1, 0.1, 3, upTo(0.77), 0.77, true}, {1, 0.1, 2, upTo(0.77), 0, false},
		{1, 0.1, 9, func(v float64) bool { return v < 0.85 || v > 1.05 }, 1.05, true}, // the nearer of two
	} {
		got, ok := closest(test.wish, test.step, test.times, test.does)
		if ok != test.ok || math.Abs(got-test.want) > 1e-12 {
			t.Errorf("closest to %v: %v %v, want %v", test.wish, got, ok, test.want)
		}
		got, ok = closestStep(test.wish, test.step, test.times, 0.01, test.does)
		if ok != test.ok || math.Abs(got-test.want) > 0.0100001 || ok && !test.does(got) || math.Abs(got*100-math.Round(got*100)) > 1e-9 {
			t.Errorf("closest step to %v: %v %v, want %v", test.wish, got, ok, test.want)
		}
	}
	// No whole step does, of those near.
	if got, ok := closestStep(1, 0.1, 10, 1, func(v float64) bool { return v > 1.2 && v < 1.8 }); ok {
		t.Error(got)
	}
	for wish, want := range map[float64]string{1e9: "from 2.5 mm on", 4e9: "up to 3 mm"} {
		if got, ok := closestLength(wish, 1e8, 100, func(v float64) bool { return v >= 2.4995e9 && v <= 3.0005e9 }); !ok || got != want {
			t.Errorf("closest length to %v: %s, want %s", wish, got, want)
		}
	}
}

// The step is halved for narrow ports until it is no wider than they are, and one that
// was given is kept to: one as wide as the ports is accepted, a wider one is not.
func TestStepOfNarrowPorts(t *testing.T) {
	w := Wish{CutOff: 0.75, Gear: Gear{Stroke: units.MM(25), ConnectingRod: InfiniteRod(), EccentricRod: InfiniteRod()}}
	for opening, want := range map[units.Length]units.Length{
		units.MM(1): units.Micron(50), units.Micron(50): units.Micron(50), units.Micron(49): units.Micron(25),
		units.Micron(20): units.Micron(12.5), units.Micron(4): units.Micron(3.125),
	} {
		w.Opening = opening
		_, rounded, err := Design(w)
		if err != nil || rounded.Step != want {
			t.Errorf("opening %v: step %v, want %v, %v", opening, rounded.Step, want, err)
		}
	}
	w.Opening, w.Gear.Ports.Steam = units.Length{}, units.MM(1)
	for step, ok := range map[units.Length]bool{units.MM(1): true, units.MM(1).Add(units.Picometres(1)): false} {
		w.Step = step
		_, _, err := Design(w)
		var bad *units.ArgumentError
		if ok != (err == nil) || err != nil && (!errors.As(err, &bad) || !strings.Contains(err.Error(), "up to the width of the steam ports, 1 mm")) {
			t.Errorf("step %v: %v", step, err)
		}
	}
}

// However far beyond what the rod allows an opening is wished, the nearest that a gear
// has is named, and can be had.
func TestOpeningFarBeyondTheRod(t *testing.T) {
	w := Wish{CutOff: 0.75, Lead: units.MM(1), Gear: Gear{
		Stroke: units.MM(25), ConnectingRod: RodOf(units.MM(63)), EccentricRod: RodOf(units.MM(9)),
	}}
	for range 14 {
		w.Opening = w.Opening.Scale(1.7).Add(units.MM(100))
		_, _, err := Design(w)
		var bad *units.ArgumentError
		if !errors.As(err, &bad) || bad.Field != "opening" {
			t.Errorf("opening %v: %v", w.Opening, err)
			continue
		}
		near := w
		if near.Opening, err = units.ParseLength(strings.TrimPrefix(bad.Accepted, "up to ")); err != nil {
			t.Error(err)
		} else if _, _, err = Design(near); err != nil {
			t.Errorf("opening %v is said to be accepted: %v", near.Opening, err)
		}
	}
}
