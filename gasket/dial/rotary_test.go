package dial

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

// Seven holes on 40 mm, set to a minute of arc: multiples of 51 degrees 25.714
// minutes, by hand.
func TestRotary(t *testing.T) {
	p, err := gasket.BoltCircle(7, units.MM(40), 0)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Rotary{units.ArcMinute}.Set(p, gasket.Datum{})
	if err != nil {
		t.Fatal(err)
	}
	want := [][2]int{{0, 0}, {51, 26}, {102, 51}, {154, 17}, {205, 43}, {257, 9}, {308, 34}}
	for i, s := range got {
		off := s.Radius.Sub(units.MM(20)).Abs().MM()
		if s.Degrees != want[i][0] || s.Minutes != want[i][1] || s.Seconds != 0 || off > 1e-8 {
			t.Errorf("hole %s: %+v, want %v", s.Hole, s, want[i])
		}
	}
	// 26' - 25.714' at a radius of 20 mm
	if e := got[1].Error.MM(); math.Abs(e-20*(26-25.0-5.0/7)/60*math.Pi/180) > 1e-8 {
		t.Errorf("error %g", e)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := mm(rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y"))
		step := rapid.SampledFrom([]units.Angle{units.ArcMinute, 10 * units.ArcSecond, units.Degree}).Draw(t, "step")
		s, err := Rotary{step}.Set(gasket.Pattern{{At: p}}, gasket.Datum{})
		if err != nil {
			t.Fatal(err)
		}
		if a := s[0].Angle(); a < 0 || a >= 360*units.Degree {
			t.Fatalf("%v", a)
		}
		at := gasket.Point{X: s[0].Radius}.Turned(s[0].Angle())
		if out := at.Distance(p); math.Abs(out.MM()-s[0].Error.Abs().MM()) > 1e-4 || out.MM() > 71*step.Radians() {
			t.Fatalf("%v lands %v away, error given as %v", p, out, s[0].Error)
		}
	})
	for _, test := range []struct {
		holes gasket.Pattern
		step  units.Angle
		text  string
	}{
		{nil, 0, "step of the table"},
		{nil, 11 * units.Degree, "step of the table"},
		{nil, units.Angle(math.NaN()), "step of the table"},
		{make(gasket.Pattern, 100_001), units.Degree, "number of holes"},
		{gasket.Pattern{{At: gasket.Point{Y: units.Picometres(math.MinInt64)}}}, units.Degree, "hole 1, Y"},
		{gasket.Pattern{{Name: "a", At: mm(-9e5, 0)}}, units.Degree, "hole a at"},
	} {
		datum := gasket.Datum{}
		if len(test.holes) > 0 && test.holes[0].Name == "a" {
			datum.Origin = mm(9e5, 0)
		}
		_, err := Rotary{test.step}.Set(test.holes, datum)
		if !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), test.text) {
			t.Errorf("error %v, want %q", err, test.text)
		}
	}
}
