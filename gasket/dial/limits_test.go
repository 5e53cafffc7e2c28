package dial

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// What is accepted, at its ends and just beyond.
func TestLimits(t *testing.T) {
	km, pm := units.MM(1e6), units.Picometres(1)
	wheel := Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	table := Table{wheel, wheel, units.MM(1)}
	rotary := func(step units.Angle, at gasket.Point) error {
		_, err := Rotary{step}.Set(gasket.Pattern{{At: at}}, gasket.Datum{Origin: gasket.Point{X: km.Scale(-0.5)}})
		return err
	}
	set := func(w Handwheel, overrun units.Length) error {
		_, err := Table{X: wheel, Y: w, Overrun: overrun}.Set(nil, gasket.Datum{})
		return err
	}
	order := func(holes int, origin, at gasket.Point) error {
		p := make(gasket.Pattern, holes)
		p[holes-1].At = at
		_, err := table.InOrder(p, gasket.Datum{Origin: origin})
		return err
	}
	of := func(turn, division units.Length) Handwheel { return Handwheel{PerTurn: turn, Division: division} }
	step := func(v, towards float64) units.Angle { return units.Angle(math.Nextafter(v, towards)) }
	for _, test := range []struct {
		name              string
		accepted, refused error
	}{
		{"step", rotary(units.ArcSecond, gasket.Point{}), rotary(step(float64(units.ArcSecond), 0), gasket.Point{})},
		{"step, upper", rotary(10*units.Degree, gasket.Point{}), rotary(step(float64(10*units.Degree), 1), gasket.Point{})},
		{"from the middle", rotary(units.Degree, gasket.Point{X: km.Scale(0.5)}),
			rotary(units.Degree, gasket.Point{X: km.Scale(0.5).Add(pm)})},
		{"above the middle", rotary(units.Degree, gasket.Point{Y: km}), rotary(units.Degree, gasket.Point{Y: km.Add(pm)})},
		{"overrun", set(wheel, pm), set(wheel, units.Length{})},
		{"overrun, upper", set(wheel, units.MM(1000)), set(wheel, units.MM(1000).Add(pm))},
		{"turn", set(of(pm, pm), pm), set(of(units.Length{}, pm), pm)},
		{"turn, upper", set(of(units.MM(1000), pm), pm), set(of(units.MM(1000).Add(pm), pm), pm)},
		{"division", set(of(pm.Scale(6), pm.Scale(3)), pm), set(of(pm.Scale(6), pm.Scale(4)), pm)},
		{"division, lower", set(of(pm, pm), pm), set(of(pm, units.Length{}), pm)},
		{"holes", order(100_000, gasket.Point{}, gasket.Point{}), order(100_001, gasket.Point{}, gasket.Point{})},
		{"datum", order(1, gasket.Point{X: km}, gasket.Point{}), order(1, gasket.Point{X: km.Add(pm)}, gasket.Point{})},
		{"hole", order(1, gasket.Point{}, gasket.Point{Y: km}), order(1, gasket.Point{}, gasket.Point{Y: km.Add(pm)})},
	} {
		if test.accepted != nil || test.refused == nil {
			t.Errorf("%s: %v at its limit, %v beyond", test.name, test.accepted, test.refused)
		}
	}
}

// Steps of 7 degrees do not close: 10 degrees is set as 7, 0 as 0 and 357 as 357, while
// what is less than half a step below the full turn of a finer table is none.
func TestRotaryRound(t *testing.T) {
	for _, test := range []struct {
		angle, step      units.Angle
		degrees, minutes int
		seconds          float64
	}{
		{10 * units.Degree, 7 * units.Degree, 7, 0, 0},
		{0, 7 * units.Degree, 0, 0, 0},
		{-3 * units.Degree, 7 * units.Degree, 357, 0, 0},
		{-20 * units.ArcSecond, units.ArcMinute, 0, 0, 0},
		{-40 * units.ArcSecond, units.ArcMinute, 359, 59, 0},
		// 359 degrees 59 minutes 20 seconds are 103,676.8 steps of 12.5 seconds.
		{-40 * units.ArcSecond, 12.5 * units.ArcSecond, 359, 59, 22.5},
		{30*units.Degree + 59*units.ArcMinute + 7*units.ArcSecond, 1.1 * units.ArcSecond, 30, 59, 7},
	} {
		at := gasket.Point{X: units.MM(100)}.Turned(test.angle)
		s, err := Rotary{test.step}.Set(gasket.Pattern{{Name: "a", At: at}}, gasket.Datum{})
		if err != nil {
			t.Fatal(err)
		}
		got := s[0]
		if got.Degrees != test.degrees || got.Minutes != test.minutes ||
			math.Abs(got.Seconds-test.seconds) > 0.55*test.step.Radians()/units.ArcSecond.Radians() {
			t.Errorf("%v in steps of %v: %v", test.angle, test.step, got)
		}
		// Where the table stands lies half a step away at most, by the angle and by the error.
		off := math.Remainder((got.Angle() - test.angle).Radians(), 2*math.Pi)
		if math.Abs(off) > test.step.Radians()*0.501 && test.step < units.Degree || math.Abs(got.Error.MM()-100*off) > 1e-4 {
			t.Errorf("%v in steps of %v: %g off, %v", test.angle, test.step, off, got.Error)
		}
	}
}

// Holes that differ in X by less than half a nanometre are taken in the order of Y; with a
// dial that counts down the order is turned round.
func TestInOrderOfBoth(t *testing.T) {
	at := func(pm int64, y float64) gasket.Hole {
		return gasket.Hole{At: gasket.Point{X: units.Picometres(pm), Y: units.MM(y)}}
	}
	p := gasket.Pattern{at(0, 5), at(400, 3), at(-400, 4), at(2000, 1), at(-2000, 2)}
	down := Handwheel{Down: true}
	for _, test := range []struct {
		table Table
		want  []int
	}{
		{Table{}, []int{5, 2, 3, 1, 4}},
		{Table{X: down}, []int{4, 2, 3, 1, 5}},
		{Table{Y: down}, []int{5, 1, 3, 2, 4}},
		{Table{X: down, Y: down}, []int{4, 1, 3, 2, 5}},
	} {
		if got, err := test.table.InOrder(p, gasket.Datum{}); err != nil || !slices.Equal(got, test.want) {
			t.Errorf("%+v: %v, %v; want %v", test.table, got, err, test.want)
		}
	}
}

// What a setting prints holds each figure that is set at the machine.
func TestSettingTexts(t *testing.T) {
	p := gasket.Pattern{{Name: "a", At: mm(7, 2.5)}, {At: mm(3, -4)}}
	w := Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	set, err := Table{w, w, units.MM(0.5)}.Set(p, gasket.Datum{})
	if err != nil {
		t.Fatal(err)
	}
	turns, err := Rotary{units.Degree}.Set(gasket.Pattern{{At: mm(0, -5)}}, gasket.Datum{})
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		got  fmt.Stringer
		want string
	}{
		{set[0], "hole a, x (turns 3, reading 1 mm, over 0 mm, error 0 mm), y (turns 1, reading 0.5 mm, over 0 mm, error 0 mm)"},
		{set[1], "hole 2, x (turns 1, reading 1 mm, over 0.5 mm, error 0 mm), y (turns -2, reading 0 mm, over 0.5 mm, error 0 mm)"},
		{turns[0], "hole 1, radius 5 mm, degrees 270, minutes 0, seconds 0, error 0 mm"},
	} {
		if got := test.got.String(); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}
