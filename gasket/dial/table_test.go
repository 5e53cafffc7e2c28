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
func TestTable(t *testing.T) {
	p := gasket.Pattern{{Name: "a", At: mm(18, 36)}, {At: mm(33.588, 27)}, {Name: "c", At: mm(2.412, 9)}}
	x := Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	y := Handwheel{PerTurn: units.Inch(0.1), Division: units.Thou(1), Down: true}
	got, err := Table{x, y, units.MM(1)}.Set(p, gasket.Datum{})
	if err != nil {
		t.Fatal(err)
	}
	if names := got[0].Hole + got[1].Hole + got[2].Hole; names != "a2c" {
		t.Errorf("holes %s, want a, 2, c", names)
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
			got  SlideSetting
			want dial
		}{{"x", got[i].X, w.x}, {"y", got[i].Y, w.y}} {
			turns, over := axis.got.Turns, axis.got.Over.Sign() > 0
			if turns != axis.want.turns || axis.got.Reading != axis.want.reading || over != axis.want.over {
				t.Errorf("hole %s, %s: %+v, want %+v", got[i].Hole, axis.name, axis.got, axis.want)
			}
			if math.Abs(axis.got.Error.MM()-axis.want.error) > 1e-9 {
				t.Errorf("%s error %v, want %g", axis.name, axis.got.Error, axis.want.error)
			}
		}
	}
}

// Whatever the points, the dials say where the slides are to half a division,
// and a slide goes past only when it has to come back.
func TestTableProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p gasket.Pattern
		along := rapid.Float64Range(-100, 100)
		for range rapid.IntRange(1, 8).Draw(t, "n") {
			p = append(p, gasket.Hole{At: mm(along.Draw(t, "x"), along.Draw(t, "y"))})
		}
		w := Handwheel{PerTurn: units.MM(1.5), Division: units.MM(0.05), Down: rapid.Bool().Draw(t, "down")}
		set, err := Table{w, w, units.MM(0.5)}.Set(p, gasket.Datum{})
		if err != nil {
			t.Fatal(err)
		}
		stand, sign := 0.0, 1.0
		if w.Down {
			sign = -1
		}
		for i, s := range set {
			at := float64(s.X.Turns)*1.5 + s.X.Reading.MM()
			want := p[i].At.X
			dial := s.X.Reading.Sign() >= 0 && s.X.Reading.Cmp(w.PerTurn) < 0
			off := math.Abs(sign*at - s.X.Error.MM() - want.MM())
			if !dial || off > 1e-9 || math.Abs(s.X.Error.MM()) > 0.025+1e-9 {
				t.Fatalf("%+v for %v", s.X, want)
			}
			if (at < stand-1e-9) != !s.X.Over.IsZero() {
				t.Fatalf("from %g to %g: %+v", stand, at, s.X)
			}
			stand = at
		}
	})
}

func TestTableRefuses(t *testing.T) {
	wheel := Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02)}
	settings := func(x Handwheel, overrun units.Length, points ...gasket.Point) error {
		var p gasket.Pattern
		for _, at := range points {
			p = append(p, gasket.Hole{At: at})
		}
		_, err := Table{x, wheel, overrun}.Set(p, gasket.Datum{})
		return err
	}
	second := func(_ any, err error) error { return err }
	table := Table{wheel, wheel, units.MM(1)}
	far := gasket.Point{X: units.MM(1e6).Scale(2)}
	for _, test := range []struct {
		name string
		err  error
		want error
		text string
	}{
		{"no travel", settings(Handwheel{Division: units.MM(1)}, units.MM(1)), units.ErrOutOfRange, "travel per turn of the X screw 0 mm"},
		{"too many", second(table.Set(make(gasket.Pattern, 100_001), gasket.Datum{})), units.ErrOutOfRange, "number of holes 100001"},
		{"datum far away", second(table.Set(nil, gasket.Datum{Origin: far})), units.ErrOutOfRange, "datum, X"},
		{"no overrun", settings(wheel, units.MM(0)), units.ErrOutOfRange, "overrun"},
		{"no screw", settings(Handwheel{}, units.MM(1)), units.ErrOutOfRange, "X screw"},
		{"odd division", settings(Handwheel{PerTurn: units.MM(2), Division: units.MM(0.03)}, units.MM(1)), units.ErrOutOfRange, "X dial"},
		{"far beyond", settings(Handwheel{PerTurn: units.MM(2), Division: units.MM(0.02), Down: true}, units.MM(1), gasket.Point{X: units.Picometres(math.MinInt64)}), units.ErrOutOfRange, "hole 1, X"},
		{"giant screw", settings(Handwheel{PerTurn: units.MM(1001), Division: units.MM(1)}, units.MM(1)), units.ErrOutOfRange, "up to 1 m"},
		{"giant overrun", settings(wheel, units.MM(1001)), units.ErrOutOfRange, "overrun"},
		{"far away", settings(Handwheel{PerTurn: units.Micron(1), Division: units.Micron(1)}, units.MM(1), mm(1e5, 0)), units.ErrOutOfRange, "a million turns"},
	} {
		if !errors.Is(test.err, test.want) || !strings.Contains(fmt.Sprint(test.err), test.text) {
			t.Errorf("%s: error %v, want %v with %q", test.name, test.err, test.want, test.text)
		}
	}
}

// A million turns of the screw are the most, and are accepted; so are a metre a turn and a
// metre of overrun.
func TestMostTurns(t *testing.T) {
	fine := Handwheel{PerTurn: units.Micron(1), Division: units.Micron(1)}
	coarse := Handwheel{PerTurn: units.MM(1000), Division: units.MM(1000)}
	coarser := Handwheel{PerTurn: units.MM(1001), Division: units.MM(1001)}
	for _, test := range []struct {
		wheel       Handwheel
		at, overrun float64
		want        bool
	}{
		{fine, 1000, 1, true}, {fine, 1000.001, 1, false}, {coarse, 1000, 1, true}, {coarser, 1000, 1, false},
		{coarse, 1000, 1000, true}, {coarse, 1000, 1000.001, false},
	} {
		p := gasket.Pattern{{At: gasket.Point{X: units.MM(test.at)}}}
		if _, err := (Table{X: test.wheel, Y: test.wheel, Overrun: units.MM(test.overrun)}).Set(p, gasket.Datum{}); (err == nil) != test.want {
			t.Errorf("%+v: %v", test, err)
		}
	}
}
