package figure_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/figure"
)

func parse(t testing.TB, text string) figure.Figure {
	t.Helper()
	f, err := figure.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestRounding(t *testing.T) {
	for text, want := range map[string]units.Length{
		"28.5 mm": units.MM(0.05), "30 mm": units.MM(0.05), "30.47mm": units.MM(0.005), "1.125 in": units.Inch(0.0005), "1.200in": units.Inch(0.0005),
		"25/32 in": {}, "1 1/8 in": {}, "1½ in": {}, " 12.70 mm ": units.MM(0.005), "5 thou": units.Thou(0.5), "-0.5 thou": units.Thou(0.05), "1.2 in": units.MM(0.05),
	} {
		if got := parse(t, text).Rounding; got != want {
			t.Errorf("%q is rounded by %v, want %v", text, got, want)
		}
	}
	for _, text := range []string{"", "28.5", "one inch", "28,5 mm"} {
		var bad *units.ParseError
		if f, err := figure.Parse(text); !errors.As(err, &bad) || f != (figure.Figure{}) {
			t.Errorf("%q is %v, %v", text, f, err)
		}
	}
}

// UN-03: a length of 28.5 mm in a book that calls it 1.125 in too, of 30 mm on a
// drawing and of 30.47 mm or 1.200 in as cast. The inch is 25.4 mm exactly; the
// rest is arithmetic.
func TestOneLength(t *testing.T) {
	for _, test := range []struct {
		name, a, b string
		agree      bool
		by, half   float64 // mm
		says       string
	}{
		{"UN-03, book", "1.125 in", "28.5 mm", false, -0.075, -0.0375, "the second is 0.075 mm (3.0 thou) smaller"},
		{"UN-03, drawing", "1.125 in", "30 mm", false, 1.425, 0.7125, "either end, 0.713 mm (28.1 thou)"},
		{"UN-03, casting", "30.47 mm", "1.200 in", true, 0, 0, ""},
		{"UN-03, casting to drawing", "30 mm", "1.200 in", false, 0.48, 0.24, "30 mm (1.1811 in) and 1.200 in (30.480 mm)"},
		{"fraction and decimal", "25/32 in", "19.84 mm", true, 0, 0, ""},
		{"fraction and a tenth", "25/32 in", "19.8 mm", true, 0, 0, ""},
		{"fraction and another tenth", "25/32 in", "19.9 mm", false, 0.05625, 0.028125, "larger"},
	} {
		t.Run(test.name, func(t *testing.T) {
			a, b := parse(t, test.a), parse(t, test.b)
			found, said := figure.Differences(a, b), figure.Check(a, b)
			if a.Agrees(b) != test.agree || b.Agrees(a) != test.agree || len(found) != len(said) || test.agree != (len(found) == 0) {
				t.Fatalf("%v and %v: %v, %v", a, b, found, said)
			}
			if test.agree {
				return
			}
			if found[0].By != units.MM(test.by) || found[0].Half != units.MM(test.half) {
				t.Errorf("%v: by %v, half %v", found[0], found[0].By, found[0].Half)
			}
			if said[0].Code != figure.Disagree || !strings.Contains(said[0].Text, test.says) {
				t.Errorf("%v", said)
			}
		})
	}
}

// A figure agrees with itself and with what it is rounded to, whichever comes first.
func TestAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := units.Picometres(rapid.Int64Range(-1e14, 1e14).Draw(t, "pm"))
		places := rapid.IntRange(1, 6).Draw(t, "places")
		exact, err := figure.Parse(l.String())
		rounded, errRounded := figure.Parse(l.Text(units.Millimetres, places))
		if err != nil || errRounded != nil || !exact.Agrees(exact) || !exact.Agrees(rounded) || !rounded.Agrees(exact) {
			t.Fatalf("%v and %v do not agree (%v, %v)", exact, rounded, err, errRounded)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"28.5 mm", "1 1/8 in", "1½\"", "-.5 thou", "0.000000000000001 m", "25"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := figure.Parse(text)
		l, errLength := units.ParseLength(text)
		if (err == nil) != (errLength == nil) || got.Length != l || got.Rounding.Sign() < 0 || got.Rounding.Cmp(units.MM(0.05)) > 0 {
			t.Fatalf("%q is %v, rounded by %v, %v; the length is %v, %v", text, got, got.Rounding, err, l, errLength)
		}
	})
}

// An invented cylinder whose length has two figures in one place and a third in
// another.
func ExampleCheck() {
	var figures []figure.Figure
	for _, text := range []string{"24.5 mm", "31/32 in", "25 mm"} {
		f, err := figure.Parse(text)
		if err != nil {
			fmt.Println(err)
			return
		}
		figures = append(figures, f)
	}
	for _, d := range figure.Differences(figures...) {
		fmt.Println(d)
	}
	fmt.Println(figure.Check(figures[:2]...)[0].Text)
	// Output:
	// 24.5 mm (0.9646 in) and 31/32 in (24.606 mm): 0.106 mm, 4.2 thou
	// 24.5 mm (0.9646 in) and 25 mm (0.9843 in): 0.500 mm, 19.7 thou
	// 31/32 in (24.606 mm) and 25 mm (0.9843 in): 0.394 mm, 15.5 thou
	// 24.5 mm (0.9646 in) and 31/32 in (24.606 mm) are not one length: the second is 0.106 mm (4.2 thou) larger. What is laid out from the middle moves by half of that against either end, 0.053 mm (2.1 thou).
}
