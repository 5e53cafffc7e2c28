package units_test

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

// What is said of texts that cannot be read, and what is made of those that can: kept,
// so that no complaint names the wrong trouble.
func TestComplaintsKept(t *testing.T) {
	var all strings.Builder
	line := func(text string, v any, err error) {
		said := fmt.Sprint(v)
		if err != nil {
			said = strings.ReplaceAll(err.Error(), strings.Repeat("9", 60), "9...")
		}
		fmt.Fprintf(&all, "%.60q: %s\n", text, said)
	}
	for _, k := range kinds {
		unit := k.units[len(k.units)-1]
		for _, text := range []string{"", "1", "1 x", "1,5 " + unit, "1e400 " + unit} {
			v, err := k.parse(text)
			line(text, v, err)
		}
	}
	nines := strings.Repeat("9", 63)
	for _, text := range []string{
		" ", "+", "-", ".", "-. bar", "+. bar", "bar", "+ 3 bar", "-3bar", "+3 bar", "3. bar", ".5bar", "3e bar", "3e5bar", "3E+5 bar", "3e-5 bar", "3e+ bar", "3..5 bar",
		"1 000 bar", "1 9 bar", "1/2 bar", "1 / 2 bar", "1: bar", "NaN bar", "+inf bar", "Infinity bar", "nothing bar", "1e308 GPa", "1e-320 Pa", "1e-330 Pa",
		"0e-999 Pa", nines + " Pa", nines + "9 Pa", nines + "99 Pa", "1 barbar", "1 " + strings.Repeat("b", 20), "1 " + strings.Repeat("b", 21), "1 b\a",
		"1 N / mm2", "1 N/mm2", "0.0000000000000000000 bar", "-0 bar", "00012 bar", "123456789012345678 Pa", "0.1234567890123456789 Pa",
	} {
		v, err := units.ParsePressure(text)
		line(text, v, err)
	}
	for _, text := range []string{
		"26°30'", "26°30'15\"", "26° 30' 15\"", "-26°30'", "+26°59'59\"", "26°60'", "26°30'60\"", "26°30'15", "26°30", "26°30'15.5\"", "26.5°30'", "65535°0'", "65536°0'",
		"26°", "26° ", "°30'", "26 deg 30'", "30'", "15\"", "-0°0'1\"", "--1°0'", "+-1°0'", "26°'", "1°2'3\"4", "26°x",
	} {
		v, err := units.ParseAngle(text)
		line(text, v, err)
	}
	for _, text := range []string{"-273.15 °C", "-273.16 °C", "-0.001 K", "-459.68 °F", "20 °", "20 R", "1e5 °C"} {
		v, err := units.ParseTemperature(text)
		line(text, v, err)
	}
	for _, text := range []string{
		"", "-", "+", "mm", "25", "1 3/8", "1e3 mm", "1e9 mm", "1e0 mm", "1e: mm", "1e/ mm", "1E-3 in", "1e mm", "1e+ in", "1 em", "3 mil", "3 mils", "3 furlongs", "3 " + strings.Repeat("f", 21), "6,35 mm",
		"1,000 mm", "1/4 mm", "½ mm", "1½ in", "½1 in", "1 ½ in", "1-½ in", "¾ in", "⅛ in", "⅝ in", "⅞ in", "1⅜\"", "½½ in", "1/0 in", "0/5 in", "1/1000000 in", "1/999999 in",
		"999999 1/2 in", "1000000 1/2 in", "1 2 3/8 in", "3/8/2 in", "1.5/8 in", "1 -3/8 in", "1- 3/8 in", "1 - 3/8 in", "-1-3/8 in", " - 1/2 in", "1/ 2 in", "1 /2 in", "/2 in", "1/ in",
		"123456789012345 um", "1234567890123456 um", "0.123456789012345 mm", "0.1234567890123456 mm", "999999.123456789012 mm", "1. mm", ". mm", "1.2.3 mm",
		"1000 m", "1000.000000000001 m", "1000.0000000000001 m", "1000000.0000000004 mm", "1000000.0000000005 mm", "-1000.1 m", "0.0000000005 mm", "0.00000000049 mm", "0.0000000000 mm",
		"3 cm", "3 m", "3 um", "3 micron", "3 microns", "3 µm", "3 μm", "3 in", "3\"", "3″", "3”", "3 inch", "3 inches", "3 thou", "3 ft", "3 Ft", "3 mm2",
		"\u22123\u00a0mm", "3\u20448 in", "3\u2009mm", "3\u202emm",
	} {
		v, err := units.ParseLength(text)
		line(text, v, err)
	}
	unit, errUnit := units.ParseLengthUnit("mil")
	mode, errMode := units.ParseRoundMode("sideways")
	if unit != 0 || mode != 0 {
		t.Errorf("%v, %v beside an error", unit, mode)
	}
	_, errOf := units.LengthUnit(7).Of(1)
	_, errFar := units.Inches.Of(1e9)
	_, errNaN := units.Metres.Of(math.NaN())
	_, errText := units.LengthUnit(5).MarshalText()
	_, errModeText := units.RoundMode(-1).MarshalText()
	_, errHuge := units.Angle(math.MaxFloat64).MarshalText()
	_, errInf := units.Pressure(math.Inf(-1)).MarshalText()
	_, errParse := units.Thousandths.Parse("x")
	for i, err := range []error{errUnit, errMode, errOf, errFar, errNaN, errText, errModeText, errHuge, errInf, errParse,
		&units.ParseError{Package: "thread", What: "thread", Text: strings.Repeat("x", 80), Err: units.ErrUnknown, Near: []string{"a", "b"}},
		&units.ParseError{What: "thread", Text: strings.Repeat("x", 81), Problem: "p", Near: []string{"a, c", "b"}, Accepted: "d"},
		&units.ParseError{What: "thread", Text: "x", Problem: "p\n\u202e", Accepted: "d"},
		&units.ParseError{What: "thread", Text: "x", Problem: "p", Near: []string{"a"}, Accepted: "d"},
		&units.ArgumentError{Package: "fits", Field: "bore", Value: "3 mm", Problem: "tight", Accepted: "more", Err: units.ErrOutOfRange},
		&units.ArgumentError{Package: "fits", Field: "bore\x00", Err: units.ErrMissing},
	} {
		line(strconv.Itoa(i), nil, err)
	}
	check.Kept(t, "units/kept/complaints.txt", all.String())
}

// A length in text is the number times the unit, halves of a picometre away from zero,
// in rational arithmetic; with up to 15 digits on either side.
func TestParseLengthIsExact(t *testing.T) {
	pm := map[string]int64{"mm": 1e9, "cm": 1e10, "m": 1e12, "um": 1e6, "in": 254e8, "thou": 254e5, "ft": 3048e8}
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]string{"mm", "cm", "m", "um", "in", "thou", "ft"}).Draw(t, "unit")
		digits := func(name string, most int) string {
			return rapid.StringOfN(rapid.RuneFrom([]rune("0123456789")), 0, most, -1).Draw(t, name)
		}
		number := digits("before", rapid.IntRange(1, 15).Draw(t, "places before")) + "." + digits("after", rapid.IntRange(1, 15).Draw(t, "places"))
		if number == "." {
			return
		}
		want, _ := new(big.Rat).SetString("0" + number + "0")
		want.Mul(want, big.NewRat(pm[unit], 1))
		rounded, _ := new(big.Int).SetString(want.FloatString(0), 10) // halves away from zero
		got, err := units.ParseLength(number + " " + unit)
		refused := rounded.Cmp(big.NewInt(1e15)) > 0 || rounded.Sign() == 0 && want.Sign() != 0
		if refused != (err != nil) || err == nil && got.Picometres() != rounded.Int64() {
			t.Fatalf("%s %s is %v, %v; want %v pm", number, unit, got, err, rounded)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		whole, num, den := rapid.Int64Range(0, 40000).Draw(t, "whole"), rapid.Int64Range(0, 999999).Draw(t, "num"), rapid.Int64Range(1, 999999).Draw(t, "den")
		want := new(big.Rat).Mul(new(big.Rat).Add(big.NewRat(whole, 1), big.NewRat(num, den)), big.NewRat(254e8, 1))
		rounded, _ := new(big.Int).SetString(want.FloatString(0), 10)
		text := fmt.Sprintf("%d%s%d/%d in", whole, rapid.SampledFrom([]string{" ", "-", "  "}).Draw(t, "between"), num, den)
		got, err := units.ParseLength(text)
		if rounded.Cmp(big.NewInt(1e15)) > 0 {
			if err == nil {
				t.Fatalf("%s is %v", text, got)
			}
			return
		}
		if err != nil || got.Picometres() != rounded.Int64() {
			t.Fatalf("%s is %v, %v; want %v pm", text, got, err, rounded)
		}
	})
}

// The text of a value has no digit more than the shortest that reads back, but for one
// where that is a tie, and an exponent only where it is not read more easily without.
func TestTextIsShort(t *testing.T) {
	significant := func(number string) int {
		mantissa, _, _ := strings.Cut(number, "e")
		digits := strings.TrimLeft(strings.ReplaceAll(strings.TrimLeft(mantissa, "-"), ".", ""), "0")
		if !strings.Contains(mantissa, ".") {
			digits = strings.TrimRight(digits, "0")
		}
		return len(digits)
	}
	rapid.Check(t, func(t *rapid.T) {
		v := math.Ldexp(rapid.Float64Range(0.5, 1).Draw(t, "mantissa"), rapid.IntRange(-60, 60).Draw(t, "power"))
		number, _, _ := strings.Cut(units.Force(v).String(), " ")
		shortest := strconv.FormatFloat(v, 'e', -1, 64)
		if significant(number) > significant(shortest)+1 {
			t.Fatalf("%v prints as %s", v, number)
		}
		if e := strings.Contains(number, "e"); e == (v >= 1e-6 && v < 1e15) {
			t.Fatalf("%v prints as %s", v, number)
		}
	})
	for v, want := range map[units.Force]string{
		1e-6: "0.000001 N", 9.99e-7: "9.99e-07 N", 1e15: "1e+15 N", 999999999999999: "999999999999999 N", -2e-6: "-0.000002 N",
		0.1: "0.1 N", 1.0 / 3: "0.3333333333333333 N",
	} {
		if got := v.String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// Where a length ends: literals and Of up to 1 km, sums, products and rounding where 64
// bits do.
func TestLengthEdges(t *testing.T) {
	panics := func(f func()) (problem string) {
		defer func() {
			if p := recover(); p != nil {
				problem = fmt.Sprint(p)
			}
		}()
		f()
		return ""
	}
	most, least := units.Picometres(math.MaxInt64), units.Picometres(math.MinInt64)
	one := units.Picometres(1)
	half := units.Picometres(math.MaxInt64 / 2)
	for name, test := range map[string]struct {
		f    func()
		want string
	}{
		"1 km":       {func() { units.MM(1e6); units.MM(-1e6); units.Inch(39370.0787); units.Micron(1e9); units.Thou(3.937e7) }, ""},
		"more":       {func() { units.MM(1e6 + 1e-9) }, "units: MM(1.000000000000001e+06): out of range; accepted: from -1 km to 1 km"},
		"less":       {func() { units.Thou(-4e7) }, "units: Thou(-4e+07): out of range; accepted: from -1 km to 1 km"},
		"none":       {func() { units.Inch(math.NaN()) }, "units: Inch(NaN): not a finite number; accepted: from -1 km to 1 km"},
		"inf":        {func() { units.Micron(math.Inf(1)) }, "units: Micron(+Inf): not a finite number; accepted: from -1 km to 1 km"},
		"1/1":        {func() { units.InchFraction(-7, 1) }, ""},
		"1/0":        {func() { units.InchFraction(3, 0) }, "units: InchFraction(3, 0): the lower number must be positive"},
		"far":        {func() { units.InchFraction(1<<30, 1) }, "units: InchFraction(1.073741824e+09): out of range; accepted: from -1 km to 1 km"},
		"sum":        {func() { most.Sub(one).Add(one); least.Add(one).Sub(one); most.Add(least) }, ""},
		"over":       {func() { most.Add(one) }, "units: sum of lengths beyond 9,000 km"},
		"under":      {func() { least.Sub(one) }, "units: sum of lengths beyond 9,000 km"},
		"minus":      {func() { least.Neg() }, "units: length beyond 9,000 km"},
		"minus less": {func() { least.Add(one).Neg(); least.Add(one).Abs() }, ""},
		"product":    {func() { units.Picometres(1 << 62).Scale(1.99) }, ""},
		"too much":   {func() { units.Picometres(1 << 62).Scale(2) }, "units: length 4611686018.427387904 mm times 2 is not a length"},
		"too little": {func() { units.Picometres(1 << 62).Scale(-2) }, "units: length 4611686018.427387904 mm times -2 is not a length"},
		"places":     {func() { units.MM(1).Decimal(units.Millimetres, 0); units.MM(1).Decimal(units.Millimetres, 12) }, ""},
		"13 places":  {func() { units.MM(1).Decimal(units.Millimetres, 13) }, "units: 13 decimal places; accepted: 0 to 12"},
		"-1 places":  {func() { units.MM(1).Decimal(units.Millimetres, -1) }, "units: -1 decimal places; accepted: 0 to 12"},
	} {
		if got := panics(test.f); got != test.want {
			t.Errorf("%s: %q, want %q", name, got, test.want)
		}
	}
	said := func(err error) string {
		if err == nil {
			return ""
		}
		return err.Error()
	}
	round := func(l, step units.Length) string { _, err := l.Round(step, units.Nearest); return said(err) }
	fraction := func(den int) string { _, err := units.MM(1).NearestFraction(den); return said(err) }
	of := func(unit units.LengthUnit, v float64) string { _, err := unit.Of(v); return said(err) }
	inward := func(a, b, step float64) string {
		_, _, err := units.RoundInward(units.MM(a), units.MM(b), units.MM(step))
		return said(err)
	}
	const beyond = "; accepted: lengths and steps up to 4,600 km"
	for name, test := range map[string][2]string{
		"the most":          {round(half, one), ""},
		"the least":         {round(half.Neg(), one), ""},
		"the longest step":  {round(one, half), ""},
		"beyond":            {round(half.Add(one), one), "units: length to round 4611686018.427387904 mm: out of range" + beyond},
		"below":             {round(half.Add(one).Neg(), one), "units: length to round -4611686018.427387904 mm: out of range" + beyond},
		"the very least":    {round(least, one), "units: length to round -9223372036.854775808 mm: out of range" + beyond},
		"a longer step":     {round(one, half.Add(one)), "units: length to round 0.000000001 mm: out of range" + beyond},
		"no step":           {round(one, units.Length{}), "units: rounding step 0 mm: out of range; accepted: a length above zero"},
		"1/1":               {fraction(1), ""},
		"1/512":             {fraction(512), ""},
		"1/0":               {fraction(0), "units: lower number of the fraction 0: out of range; accepted: 1, 2, 4, 8, 16, 32, 64, 128, 256, 512"},
		"1/513":             {fraction(513), "units: lower number of the fraction 513: out of range; accepted: 1, 2, 4, 8, 16, 32, 64, 128, 256, 512"},
		"1/1024":            {fraction(1024), "units: lower number of the fraction 1024: out of range; accepted: 1, 2, 4, 8, 16, 32, 64, 128, 256, 512"},
		"1/3":               {fraction(3), "units: lower number of the fraction 3: out of range; accepted: 1, 2, 4, 8, 16, 32, 64, 128, 256, 512"},
		"1 km":              {of(units.Metres, 1000), ""},
		"-1 km":             {of(units.Metres, -1000), ""},
		"more":              {of(units.Micrometres, 1e9+0.001), "units: length 1.000000000001e+09 um: out of range; accepted: from -1 km to 1 km"},
		"limits alike":      {inward(1, 1, 0.5), ""},
		"limits crossed":    {inward(1.1, 1, 0.5), "units: least size 1.1 mm: above the greatest, 1 mm; accepted: at most the greatest"},
		"a step too coarse": {inward(1.1, 1.4, 0.5), "units: rounding step 0.5 mm: no multiple of it lies from 1.1 mm to 1.4 mm; accepted: a finer step"},
		"a step of nothing": {inward(1.1, 1.4, 0), "units: rounding step 0 mm: out of range; accepted: a length above zero"},
	} {
		if test[0] != test[1] {
			t.Errorf("%s: %q, want %q", name, test[0], test[1])
		}
	}
}

// A fraction is the nearest of its lower number in lowest terms, halves away from zero,
// and prints with its whole inches apart.
func TestFractionsByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		den := 1 << rapid.IntRange(0, 9).Draw(t, "den")
		l := units.Picometres(rapid.Int64Range(-1e13, 1e13).Draw(t, "pm"))
		f, err := l.NearestFraction(den)
		if err != nil {
			t.Fatal(err)
		}
		exact, err := f.Length()
		if err != nil || exact.Add(f.Rest) != l || 2*f.Rest.Abs().Picometres() > 254e8/int64(den) || den%f.Den != 0 || f.Den > 1 && f.Num%2 == 0 {
			t.Fatalf("%v in 1/%d: %v, %v", l, den, f, err)
		}
		want, n := "", f.Num
		if n < 0 {
			want, n = "-", -n
		}
		switch {
		case n%f.Den == 0:
			want += strconv.Itoa(n / f.Den)
		case n < f.Den:
			want += fmt.Sprintf("%d/%d", n, f.Den)
		default:
			want += fmt.Sprintf("%d %d/%d", n/f.Den, n%f.Den, f.Den)
		}
		if want += " in"; f.Rest.Sign() < 0 {
			want += " less " + f.Rest.Abs().String()
		} else if f.Rest.Sign() > 0 {
			want += " and " + f.Rest.String()
		}
		if f.String() != want {
			t.Fatalf("%d/%d and %v: %q, want %q", f.Num, f.Den, f.Rest, f, want)
		}
	})
	for l, want := range map[units.Length]string{
		units.InchFraction(1, 128): "1/64 in less 0.1984375 mm", units.InchFraction(-1, 128): "-1/64 in and 0.1984375 mm",
		units.InchFraction(3, 128): "1/32 in less 0.1984375 mm",
	} {
		if f, err := l.NearestFraction(64); err != nil || f.String() != want {
			t.Errorf("%v: %v, %v; want %s", l, f, err, want)
		}
	}
}
