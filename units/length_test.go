package units_test

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
)

func TestLengthText(t *testing.T) {
	for _, test := range []struct {
		got, want string
	}{
		{units.MM(6.35).String(), "6.35 mm"}, {units.MM(-0.5).String(), "-0.5 mm"}, {units.Length{}.String(), "0 mm"},
		{units.Picometres(math.MinInt64).String(), "-9223372036.854775808 mm"},
		{units.Picometres(1).String(), "0.000000001 mm"}, {units.MM(20).String(), "20 mm"}, {units.MM(1e6).String(), "1000000 mm"},
		{units.Inch(0.0075).Text(units.Millimetres, 3), "0.191 mm"}, // 0.1905 exactly: a half goes away from zero
		{units.Inch(-0.0075).Text(units.Millimetres, 3), "-0.191 mm"},
		{units.Inch(0.0025).Text(units.Millimetres, 3), "0.064 mm"}, // 0.0635
		{units.MM(10).Text(units.Inches, 4), "0.3937 in"}, {units.MM(0.1).Text(units.Thousandths, 1), "3.9 thou"},
		{units.MM(0.0127).Text(units.Micrometres, 0), "13 um"}, {units.MM(1500).Text(units.Metres, 2), "1.50 m"},
		{units.MM(-0.0001).Text(units.Millimetres, 3), "0.000 mm"}, {units.MM(2.5).Decimal(units.Millimetres, 0), "3"},
	} {
		if test.got != test.want {
			t.Errorf("got %q, want %q", test.got, test.want)
		}
	}
}

// Decimal agrees with rational arithmetic at every unit and number of places.
func TestDecimalIsExact(t *testing.T) {
	pm := map[units.LengthUnit]int64{units.Millimetres: 1e9, units.Inches: 254e8, units.Thousandths: 254e5, units.Micrometres: 1e6, units.Metres: 1e12}
	rapid.Check(t, func(t *rapid.T) {
		l := units.Picometres(rapid.Int64Range(-1e15, 1e15).Draw(t, "pm"))
		unit := units.LengthUnit(rapid.IntRange(0, 4).Draw(t, "unit"))
		places := rapid.IntRange(0, 12).Draw(t, "places")
		want := big.NewRat(l.Picometres(), pm[unit]).FloatString(places) // rounds halves away from zero
		if strings.Trim(want, "-0.") == "" {
			want = strings.TrimPrefix(want, "-")
		}
		if got := l.Decimal(unit, places); got != want {
			t.Fatalf("%d pm in %v to %d places = %s, want %s", l.Picometres(), unit, places, got, want)
		}
	})
}

func TestLengthUnitLength(t *testing.T) {
	for unit, want := range map[units.LengthUnit]units.Length{units.Millimetres: units.MM(1), units.Inches: units.Inch(1), units.Thousandths: units.Thou(1), units.Micrometres: units.Micron(1), units.Metres: units.MM(1000), -1: {}, 5: {}} {
		if got := unit.Length(); got != want {
			t.Errorf("%v is %v, want %v", unit, got, want)
		}
	}
}

func TestLengthUnitOf(t *testing.T) {
	for _, test := range []struct {
		unit units.LengthUnit
		v    float64
		want units.Length
		err  error
	}{
		{units.Millimetres, 1.5, units.MM(1.5), nil},
		{units.Inches, -0.25, units.Inch(-0.25), nil},
		{units.Thousandths, 7.5, units.Thou(7.5), nil},
		{units.Micrometres, 0.1, units.Micron(0.1), nil},
		{units.Metres, 1000, units.MM(1e6), nil},
		{units.Metres, math.Copysign(0, -1), units.Length{}, nil},
		{units.Millimetres, math.NaN(), units.Length{}, units.ErrNotFinite},
		{units.Inches, math.Inf(-1), units.Length{}, units.ErrNotFinite},
		{units.Millimetres, 1e7, units.Length{}, units.ErrOutOfRange},
		{units.Inches, 4e7, units.Length{}, units.ErrOutOfRange},
		{units.LengthUnit(9), 1, units.Length{}, units.ErrUnknown},
		{-1, 1, units.Length{}, units.ErrUnknown},
	} {
		got, err := test.unit.Of(test.v)
		var bad *units.ArgumentError
		if got != test.want || !errors.Is(err, test.err) || err != nil && (!errors.As(err, &bad) || bad.Accepted == "") {
			t.Errorf("%g %v is %v, %v; want %v, %v", test.v, test.unit, got, err, test.want, test.err)
		}
	}
}

// A calculation that may leave the lengths that a workshop has asks with Of.
func ExampleLengthUnit_Of() {
	l, err := units.Inches.Of(3.0 / 8)
	fmt.Println(l, err)
	_, err = units.Metres.Of(1e6)
	fmt.Println(err)
	// Output:
	// 9.525 mm <nil>
	// units: length 1e+06 m: out of range; accepted: from -1 km to 1 km
}

func TestLengthRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 100 {
			l := units.Picometres(rapid.Int64Range(-1e15, 1e15).Draw(t, "pm"))
			if back, err := units.ParseLength(l.String()); err != nil || back != l {
				t.Fatalf("%v reads back as %v, %v", l, back, err)
			}
			// Through float64 millimetres and metres the count survives too.
			if back := units.MM(l.MM()); back != l {
				t.Fatalf("%v through MM is %v", l, back)
			}
		}
		l := units.Picometres(rapid.Int64Range(-1e12, 1e12).Draw(t, "pm"))
		f, err := l.NearestFraction(64)
		if err != nil {
			t.Fatal(err)
		}
		exact, err := f.Length()
		plain := units.Fraction{Num: f.Num, Den: f.Den}
		if back, errBack := units.ParseLength(plain.String()); err != nil || errBack != nil || back != exact {
			t.Fatalf("%v reads back as %v, want %v, %v", plain, back, exact, errors.Join(err, errBack))
		}
		inch, rest, off := cutRest(f.String())
		length, errInch := units.ParseLength(inch)
		over, errRest := units.ParseLength(rest)
		if errInch != nil || errRest != nil || length.Add(over.Scale(off)) != l {
			t.Fatalf("%v in print is %q: %v and %v", l, f, length, over)
		}
		if f.Rest.Abs().Cmp(units.InchFraction(1, 128)) > 0 {
			t.Fatalf("%v leaves %v", f, f.Rest)
		}
	})
	// A decimal inch of eight places goes to millimetres and back.
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-1e9, 1e9).Draw(t, "hundred-millionths of an inch")
		l := units.Picometres(254 * n)
		if back, err := units.ParseLength(l.Text(units.Inches, 8)); err != nil || back != l {
			t.Fatalf("%v in inches reads back as %v, %v", l, back, err)
		}
	})
}

// cutRest parts a printed fraction from what it leaves over, and says which way.
func cutRest(text string) (inch, rest string, off float64) {
	if inch, rest, ok := strings.Cut(text, " less "); ok {
		return inch, rest, -1
	}
	if inch, rest, ok := strings.Cut(text, " and "); ok {
		return inch, rest, +1
	}
	return text, "0 mm", 0
}

// Questions of the bench on mixed units; 25.4 is exact, the rest is arithmetic.
func TestMixedUnits(t *testing.T) {
	for _, test := range []struct {
		name                 string
		got, want, tolerance float64
	}{
		{"UN-01, 77.25 mm in inches", units.MM(77.25).Inch(), 3.0413, 0.00005},
		{"UN-01, 0.03937 for 1/25.4 over 100 mm, in micrometres", units.Inch(100 * 0.03937).Sub(units.MM(100)).Micron(), -0.2, 0.05},
		{"UN-01, 77.25 mm by 0.03937, in inches", 77.25 * 0.03937, 3.0413, 0.00005},
		{"UN-01, 0.040 in for 1 mm over 25 mm", 25 * (1 - units.Inch(0.04).MM()), -0.4, 0.0005},
		{"UN-02, 1/32 in drawn, 1 mm built", units.MM(1).Ratio(units.InchFraction(1, 32)), 1.2598, 0.0005},
		{"UN-02, the same in volume", math.Pow(units.MM(1).Ratio(units.InchFraction(1, 32)), 3), 1.9996, 0.0005},
		{"UN-02, 1 mm to 1/16 in", units.InchFraction(1, 16).MM(), 1.5875, 0},
		{"UN-02, 1 mm to 1/32 in", units.InchFraction(1, 32).MM(), 0.79375, 0},
		{"UN-03, 1.125 in less 28.5 mm, in thou", units.Inch(1.125).Sub(units.MM(28.5)).Thou(), 3.0, 0.05},
		{"UN-03, 25/32 in", units.InchFraction(25, 32).MM(), 19.844, 0.0005},
		{"UN-03, 1.200 in", units.Inch(1.2).MM(), 30.48, 0},
		{"16 mm shaft in a 5/8 in bore, in thou", units.MM(16).Sub(units.InchFraction(5, 8)).Thou(), 4.92, 0.005},
	} {
		if math.Abs(test.got-test.want) > test.tolerance {
			t.Errorf("%s = %v, want %v", test.name, test.got, test.want)
		}
	}
}

// Sums, differences and what goes by the sign, against whole numbers without a bound; and
// a length times n against n of them.
func TestArithmeticOfWholeNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Int64Range(-1<<61, 1<<61).Draw(t, "x"), rapid.Int64Range(-1<<61, 1<<61).Draw(t, "y")
		a, b := units.Picometres(x), units.Picometres(y)
		p, q := big.NewInt(x), big.NewInt(y)
		for name, pair := range map[string][2]string{
			"sum":        {fmt.Sprint(a.Add(b).Picometres()), new(big.Int).Add(p, q).String()},
			"difference": {fmt.Sprint(a.Sub(b).Picometres()), new(big.Int).Sub(p, q).String()},
			"negative":   {fmt.Sprint(a.Neg().Picometres()), new(big.Int).Neg(p).String()},
			"absolute":   {fmt.Sprint(a.Abs().Picometres()), new(big.Int).Abs(p).String()},
			"sign":       {fmt.Sprint(a.Sign()), fmt.Sprint(p.Sign())},
			"order":      {fmt.Sprint(a.Cmp(b)), fmt.Sprint(p.Cmp(q))},
		} {
			if pair[0] != pair[1] {
				t.Fatalf("%s of %v and %v: %s, want %s", name, a, b, pair[0], pair[1])
			}
		}
		// Both factors are whole numbers that a float64 holds.
		short, n := rapid.Int64Range(-1e9, 1e9).Draw(t, "short"), rapid.Int64Range(-4e6, 4e6).Draw(t, "n")
		if got := units.Picometres(short).Scale(float64(n)).Picometres(); got != short*n {
			t.Fatalf("%d times %d: %d", n, short, got)
		}
		// Thou, micrometres, millimetres and inches are so many picometres.
		for pm, of := range map[int64]func(float64) units.Length{
			25_400_000: units.Thou, 1_000_000: units.Micron, 1_000_000_000: units.MM, 25_400_000_000: units.Inch,
		} {
			if k := n / 1000; of(float64(k)).Picometres() != k*pm {
				t.Fatalf("%d of %d pm: %v", k, pm, of(float64(k)))
			}
		}
	})
}

func TestArithmetic(t *testing.T) {
	a, b := units.MM(2), units.Inch(1)
	if a.Add(b) != units.MM(27.4) || b.Sub(a) != units.MM(23.4) || a.Neg().Abs() != a || a.Cmp(b) != -1 || b.Cmp(a) != 1 || a.Cmp(a) != 0 ||
		a.Scale(2.5) != units.MM(5) || b.Scale(1.0/3) != units.Picometres(8_466_666_667) || a.Neg().Sign() != -1 || !(units.Length{}).IsZero() || b.Metres() != 0.0254 {
		t.Error("arithmetic of lengths is off")
	}
	for name, f := range map[string]func(){
		"MM(NaN)":           func() { units.MM(math.NaN()) },
		"Inch(Inf)":         func() { units.Inch(math.Inf(1)) },
		"MM(2 km)":          func() { units.MM(2e6) },
		"InchFraction(1,0)": func() { units.InchFraction(1, 0) },
		"sum":               func() { units.Picometres(math.MaxInt64).Add(units.Picometres(1)) },
		"difference":        func() { units.Picometres(math.MinInt64 + 1).Sub(units.Picometres(2)) },
		"negative sum":      func() { units.Picometres(math.MinInt64).Add(units.Picometres(math.MinInt64)) },
		"negation":          func() { units.Picometres(math.MinInt64).Neg() },
		"product":           func() { units.MM(1).Scale(1e300) },
		"product with NaN":  func() { units.MM(1).Scale(math.NaN()) },
		"places":            func() { units.MM(1).Decimal(units.Millimetres, 13) },
		"MustLength":        func() { units.MustLength("25") },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s did not panic", name)
				}
			}()
			f()
		}()
	}
}
