package dial

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/units"
)

func mm(x, y float64) gasket.Point { return gasket.Point{X: units.MM(x), Y: units.MM(y)} }

// Six on 36 mm from the corner with screws of 2 mm in divisions of 0.02 mm, and
// with one of 0.1 in whose dial counts down: dials by hand.
func TestSettings(t *testing.T) {
	points := []gasket.Point{mm(18, 36), mm(33.588, 27), mm(2.412, 9)}
	x := Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	y := Handwheel{PerTurn: units.Inch(0.1), Division: units.Thou(1), Down: true}
	got, err := Settings(points, []string{"a", "b", "c"}, x, y, units.MM(1))
	if err != nil {
		t.Fatal(err)
	}
	type dial struct {
		turns   int
		reading units.Length
		over    bool
		error   float64
	}
	want := []struct{ x, y dial }{
		// y: 36 mm is 1.41732 in; counted down -1.417 in is -15 turns and 0.083 in
		{dial{9, units.MM(0), false, 0}, dial{-15, units.Thou(83), true, 1.417*25.4 - 36}},
		{dial{16, units.MM(1.58), false, -0.008}, dial{-11, units.Thou(37), false, 1.063*25.4 - 27}},
		{dial{1, units.MM(0.42), true, 0.008}, dial{-4, units.Thou(46), false, 0.354*25.4 - 9}},
	}
	for i, w := range want {
		for _, axis := range []struct {
			name string
			got  DialSetting
			want dial
		}{{"x", got[i].X, w.x}, {"y", got[i].Y, w.y}} {
			if axis.got.Turns != axis.want.turns || axis.got.Reading != axis.want.reading || (axis.got.Over.Sign() > 0) != axis.want.over {
				t.Errorf("hole %s, %s: %+v, want %+v", got[i].Hole, axis.name, axis.got, axis.want)
			}
			if math.Abs(axis.got.Error.MM()-axis.want.error) > 1e-9 {
				t.Errorf("%s error %v, want %g", axis.name, axis.got.Error, axis.want.error)
			}
		}
	}
}

// Whatever the points, the dials say where the slides stand to half a division,
// and a slide goes past only when it has to come back.
func TestSettingsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []gasket.Point
		for range rapid.IntRange(1, 8).Draw(t, "n") {
			points = append(points, mm(rapid.Float64Range(-100, 100).Draw(t, "x"), rapid.Float64Range(-100, 100).Draw(t, "y")))
		}
		w := Handwheel{PerTurn: units.MM(1.5), Division: units.MM(0.05), Down: rapid.Bool().Draw(t, "down")}
		set, err := Settings(points, nil, w, w, units.MM(0.5))
		if err != nil {
			t.Fatal(err)
		}
		stand, sign := 0.0, 1.0
		if w.Down {
			sign = -1
		}
		for i, s := range set {
			at := float64(s.X.Turns)*1.5 + s.X.Reading.MM()
			if s.X.Reading.Sign() < 0 || s.X.Reading.Cmp(w.PerTurn) >= 0 || math.Abs(sign*at-s.X.Error.MM()-points[i].X.MM()) > 1e-9 || math.Abs(s.X.Error.MM()) > 0.025+1e-9 {
				t.Fatalf("%+v for %v", s.X, points[i].X)
			}
			if (at < stand-1e-9) != !s.X.Over.IsZero() {
				t.Fatalf("from %g to %g: %+v", stand, at, s.X)
			}
			stand = at
		}
	})
}

func TestRefuses(t *testing.T) {
	wheel := Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	settings := func(x Handwheel, overrun units.Length, points ...gasket.Point) error {
		_, err := Settings(points, nil, x, wheel, overrun)
		return err
	}
	second := func(_ any, err error) error { return err }
	for _, test := range []struct {
		name string
		err  error
		want error
		text string
	}{
		{"no travel", settings(Handwheel{Division: units.MM(1)}, units.MM(1)), units.ErrOutOfRange, "travel per turn of the X screw 0 mm"},
		{"too many", second(Settings(make([]gasket.Point, 100_001), nil, wheel, wheel, units.MM(1))), units.ErrOutOfRange, "points 100001"},
		{"names", second(Settings(make([]gasket.Point, 2), []string{"a"}, wheel, wheel, units.MM(1))), units.ErrOutOfRange, "one for each of the 2"},
		{"no overrun", settings(wheel, units.MM(0)), units.ErrOutOfRange, "overrun"},
		{"no screw", settings(Handwheel{}, units.MM(1)), units.ErrOutOfRange, "X screw"},
		{"odd division", settings(Handwheel{PerTurn: units.MM(2), Division: units.MM(0.03)}, units.MM(1)), units.ErrOutOfRange, "X dial"},
		{"far beyond", settings(Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02), Down: true}, units.MM(1), gasket.Point{X: units.Picometres(math.MinInt64)}), units.ErrOutOfRange, "a million turns"},
		{"giant screw", settings(Handwheel{PerTurn: units.MM(1001), Division: units.MM(1)}, units.MM(1)), units.ErrOutOfRange, "up to 1 m"},
		{"giant overrun", settings(wheel, units.MM(1001)), units.ErrOutOfRange, "overrun"},
		{"far away", settings(Handwheel{PerTurn: units.Micron(1), Division: units.Micron(1)}, units.MM(1), mm(1e5, 0)), units.ErrOutOfRange, "a million turns"},
	} {
		if !errors.Is(test.err, test.want) || !strings.Contains(fmt.Sprint(test.err), test.text) {
			t.Errorf("%s: error %v, want %v with %q", test.name, test.err, test.want, test.text)
		}
	}
}

// Seven holes on 40 mm, set to a minute of arc: multiples of 51 degrees 25.714
// minutes, by hand.
func TestTurns(t *testing.T) {
	p, err := gasket.BoltCircle(7, units.MM(40), 0)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Turns(p.From(gasket.Datum{}), nil, units.ArcMinute)
	if err != nil {
		t.Fatal(err)
	}
	want := [][2]int{{0, 0}, {51, 26}, {102, 51}, {154, 17}, {205, 43}, {257, 9}, {308, 34}}
	for i, s := range got {
		if s.Degrees != want[i][0] || s.Minutes != want[i][1] || s.Seconds != 0 || s.Radius.Sub(units.MM(20)).Abs().MM() > 1e-8 {
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
		s, err := Turns([]gasket.Point{p}, []string{"a"}, step)
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
		points []gasket.Point
		names  []string
		step   units.Angle
		text   string
	}{
		{make([]gasket.Point, 2), []string{"a"}, units.Degree, "names"},
		{nil, nil, 0, "step of the table"},
		{nil, nil, 11 * units.Degree, "step of the table"},
		{nil, nil, units.Angle(math.NaN()), "step of the table"},
		{make([]gasket.Point, 100_001), nil, units.Degree, "points"},
		{[]gasket.Point{{Y: units.Picometres(math.MinInt64)}}, nil, units.Degree, "point 1"},
	} {
		if _, err := Turns(test.points, test.names, test.step); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), test.text) {
			t.Errorf("error %v, want %q", err, test.text)
		}
	}
}
