package units_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
)

func TestRound(t *testing.T) {
	for _, test := range []struct {
		l, step units.Length
		mode    units.RoundMode
		want    units.Length
	}{
		{units.MM(4.917), units.MM(0.1), units.Nearest, units.MM(4.9)}, {units.MM(4.917), units.MM(0.1), units.Up, units.MM(5)}, {units.MM(4.917), units.MM(0.1), units.Down, units.MM(4.9)},
		{units.MM(4.95), units.MM(0.1), units.Nearest, units.MM(5)}, {units.MM(-4.95), units.MM(0.1), units.Nearest, units.MM(-5)},
		{units.MM(-4.917), units.MM(0.1), units.Up, units.MM(-4.9)}, {units.MM(-4.917), units.MM(0.1), units.Down, units.MM(-5)},
		{units.MM(5), units.MM(0.1), units.Up, units.MM(5)}, {units.MM(5), units.MM(0.1), units.Down, units.MM(5)},
		{units.MM(10), units.InchFraction(1, 64), units.Nearest, units.InchFraction(25, 64)}, {units.Inch(0.0213), units.Thou(1), units.Up, units.Thou(22)},
	} {
		if got, err := test.l.Round(test.step, test.mode); err != nil || got != test.want {
			t.Errorf("%v to %v, %v = %v, %v; want %v", test.l, test.step, test.mode, got, err, test.want)
		}
	}
	for _, step := range []units.Length{{}, units.MM(-0.1)} {
		if _, err := units.MM(1).Round(step, units.Nearest); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("step %v: %v", step, err)
		}
	}
	if _, err := units.MM(1).Round(units.MM(1), units.RoundMode(7)); !errors.Is(err, units.ErrUnknown) {
		t.Errorf("unknown mode: %v", err)
	}
	for _, l := range []units.Length{units.Picometres(math.MaxInt64), units.Picometres(math.MinInt64)} {
		if _, err := l.Round(units.MM(1), units.Up); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%d pm: %v", l.Picometres(), err)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		l := units.Picometres(rapid.Int64Range(-1e15, 1e15).Draw(t, "pm"))
		step := units.Picometres(rapid.Int64Range(1, 1e12).Draw(t, "step"))
		up, errUp := l.Round(step, units.Up)
		down, errDown := l.Round(step, units.Down)
		nearest, errNearest := l.Round(step, units.Nearest)
		if err := errors.Join(errUp, errDown, errNearest); err != nil {
			t.Fatal(err)
		}
		if up.Picometres()%step.Picometres() != 0 || up.Cmp(l) < 0 || up.Sub(l).Cmp(step) >= 0 ||
			down.Cmp(l) > 0 || l.Sub(down).Cmp(step) >= 0 || down.Picometres()%step.Picometres() != 0 {
			t.Fatalf("%v by %v: down %v, up %v", l, step, down, up)
		}
		if off := nearest.Sub(l).Abs(); off.Cmp(up.Sub(l)) > 0 || off.Cmp(l.Sub(down)) > 0 || nearest != up && nearest != down {
			t.Fatalf("%v by %v: nearest %v of %v and %v", l, step, nearest, down, up)
		}
	})
}

func TestRoundInward(t *testing.T) {
	lo, hi, err := units.RoundInward(units.MM(9.995), units.MM(10.018), units.MM(0.01))
	if err != nil || lo != units.MM(10) || hi != units.MM(10.01) {
		t.Errorf("%v to %v, %v", lo, hi, err)
	}
	for _, test := range [][3]units.Length{
		{units.MM(10.003), units.MM(10.004), units.MM(0.01)}, // no step between
		{units.MM(10.1), units.MM(10), units.MM(0.01)},       // wrong way round
		{units.MM(10), units.MM(10.1), {}},
	} {
		if _, _, err := units.RoundInward(test[0], test[1], test[2]); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "accepted: ") {
			t.Errorf("%v: %v", test, err)
		}
	}
}

func TestNearestFraction(t *testing.T) {
	for _, test := range []struct {
		l    units.Length
		den  int
		want string
		rest units.Length
	}{
		{units.MM(10), 64, "25/64 in and 0.078125 mm", units.MM(0.078125)}, {units.MM(34.925), 64, "1 3/8 in", units.Length{}},
		{units.MM(-0.4), 64, "-1/64 in less 0.003125 mm", units.MM(-0.003125)}, {units.MM(50.8), 64, "2 in", units.Length{}}, {units.MM(0.1), 64, "0 in and 0.1 mm", units.MM(0.1)},
		{units.MM(10), 1, "0 in and 10 mm", units.MM(10)}, {units.MM(28.5), 64, "1 1/8 in less 0.075 mm", units.MM(-0.075)},
	} {
		f, err := test.l.NearestFraction(test.den)
		if err != nil || f.String() != test.want || f.Rest != test.rest {
			t.Errorf("%v = %v and %v, %v; want %v and %v", test.l, f, f.Rest, err, test.want, test.rest)
		}
	}
	for _, den := range []int{0, -64, 3, 10, 1024} {
		if _, err := units.MM(1).NearestFraction(den); !errors.Is(err, units.ErrOutOfRange) {
			t.Errorf("%d: %v", den, err)
		}
	}
	if got := (units.Fraction{}).String(); got != "0 in" {
		t.Errorf("zero fraction %q", got)
	}
}

// A fraction that somebody has filled in may be none.
func TestFractionLength(t *testing.T) {
	for _, test := range []struct {
		f    units.Fraction
		want units.Length
		text string
		err  error
	}{
		{units.Fraction{}, units.Length{}, "0 in", nil},
		{units.Fraction{Num: 2, Den: 1}, units.MM(50.8), "2 in", nil},
		{units.Fraction{Num: 11, Den: 8}, units.MM(34.925), "1 3/8 in", nil},
		{units.Fraction{Num: -1, Den: 64, Rest: units.MM(1)}, units.MM(-0.396875), "-1/64 in and 1 mm", nil},
		{units.Fraction{Num: 3}, units.Length{}, "3/0 in", units.ErrOutOfRange},
		{units.Fraction{Num: 3, Den: -8}, units.Length{}, "3/-8 in", units.ErrOutOfRange},
		{units.Fraction{Den: -1}, units.Length{}, "0/-1 in", units.ErrOutOfRange},
		{units.Fraction{Num: 1 << 30, Den: 1}, units.Length{}, "1073741824 in", units.ErrOutOfRange},
		{units.Fraction{Num: math.MinInt, Den: 1}, units.Length{}, fmt.Sprint(math.MinInt, " in"), units.ErrOutOfRange},
	} {
		got, err := test.f.Length()
		var bad *units.ArgumentError
		if got != test.want || !errors.Is(err, test.err) || err != nil && !errors.As(err, &bad) || test.f.String() != test.text {
			t.Errorf("%q is %v, %v; want %q, %v, %v", test.f, got, err, test.text, test.want, test.err)
		}
	}
}

// A dial that reads 0.02 mm sets a shaft of 12.487 mm at or above, or at or below
// what is wanted.
func ExampleLength_Round() {
	for _, mode := range units.RoundModes() {
		l, err := units.MM(12.487).Round(units.MM(0.02), mode)
		fmt.Println(mode, l, err)
	}
	// Output:
	// nearest 12.48 mm <nil>
	// up 12.5 mm <nil>
	// down 12.48 mm <nil>
}

// The limits of a shaft 12 f7 as a micrometer that reads 0.01 mm holds them; a
// dial of 0.05 mm cannot.
func ExampleRoundInward() {
	for _, step := range []units.Length{units.MM(0.01), units.MM(0.05)} {
		min, max, err := units.RoundInward(units.MM(11.966), units.MM(11.984), step)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(min, "to", max)
	}
	// Output:
	// 11.97 mm to 11.98 mm
	// units: rounding step 0.05 mm: no multiple of it lies from 11.966 mm to 11.984 mm; accepted: a finer step
}

func ExampleLength_NearestFraction() {
	f, err := units.MM(10).NearestFraction(64)
	fmt.Println(f, err)
	// Output: 25/64 in and 0.078125 mm <nil>
}
