package units_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestParseLength(t *testing.T) {
	// One inch is 25.4 mm exactly: NIST SP 811, appendix B.8. The rest follows.
	for _, test := range []struct {
		text string
		pm   int64
	}{
		{"6.35 mm", 6_350_000_000}, {"6.35mm", 6_350_000_000}, {" 6.35  mm ", 6_350_000_000}, {"+6.35 mm", 6_350_000_000},
		{"1/4 in", 6_350_000_000}, {"0.250in", 6_350_000_000}, {".25 in", 6_350_000_000}, {"1/4\"", 6_350_000_000}, {"¼ in", 6_350_000_000},
		{"1 3/8 in", 34_925_000_000}, {"1-3/8 in", 34_925_000_000}, {"1 3/8\"", 34_925_000_000}, {"1⅜ in", 34_925_000_000}, {"11/8 in", 34_925_000_000},
		{"-1 3/8 inches", -34_925_000_000}, {"- 1/2 inch", -12_700_000_000},
		{"5 thou", 127_000_000}, {"0.1 thou", 2_540_000},
		{"12 um", 12_000_000}, {"12 µm", 12_000_000}, {"12 μm", 12_000_000}, {"12 microns", 12_000_000},
		{"2.5 cm", 25_000_000_000}, {"1 m", 1_000_000_000_000}, {"2 ft", 609_600_000_000},
		{"0.00000001 in", 254}, {"0.000000001 mm", 1}, {"1/512 in", 49_609_375},
		{"1\u00a03/8 in", 34_925_000_000}, {"1\u20093\u20448\u202fin", 34_925_000_000}, {"1 3/8”", 34_925_000_000}, {"1-3/8″", 34_925_000_000}, {"\u22125 mm", -5_000_000_000}, {"5\u00a0mm", 5_000_000_000}, {"5. in", 127_000_000_000}, {".5 in", 12_700_000_000}, {"3/8in", 9_525_000_000}, {"1  3/8 in", 34_925_000_000},
		{"1/3 in", 8_466_666_667}, {"0.0000000004 in", 10}, {"0 mm", 0}, {"1000 m", 1_000_000_000_000_000},
	} {
		got, err := units.ParseLength(test.text)
		if err != nil || got != units.Picometres(test.pm) {
			t.Errorf("%q = %v, %v; want %d pm", test.text, got, err, test.pm)
		}
	}
	for _, test := range []struct {
		text    string
		err     error
		problem string
	}{
		{"", units.ErrSyntax, "empty"}, {"  ", units.ErrSyntax, "empty"}, {"-", units.ErrSyntax, "no number"},
		{"25", units.ErrUnknownUnit, "without a unit"}, {"1 3/8", units.ErrUnknownUnit, "without a unit"},
		{"mm", units.ErrSyntax, "no number"}, {"--1 mm", units.ErrSyntax, "not a"},
		{"6,35 mm", units.ErrSyntax, "comma"}, {"1/4 mm", units.ErrSyntax, "inches only"},
		{"3 mil", units.ErrUnknownUnit, "some"}, {"3 furlongs", units.ErrUnknownUnit, `"furlongs"`}, {"3 MM", units.ErrUnknownUnit, `"MM"`},
		{"1/0 in", units.ErrSyntax, "not a fraction"}, {"1 2 3/8 in", units.ErrSyntax, "not a fraction"}, {"3/8/2 in", units.ErrSyntax, "not a fraction"},
		{"1.5/8 in", units.ErrSyntax, "not a fraction"}, {"1½½ in", units.ErrSyntax, "after the fraction"}, {"1..2 mm", units.ErrSyntax, "not a decimal"},
		{"1e3 mm", units.ErrSyntax, "an exponent"}, {"1E-3 in", units.ErrSyntax, "an exponent"}, {"1 em", units.ErrUnknownUnit, `"em"`}, {"NaN mm", units.ErrSyntax, "no number"}, {"-inf mm", units.ErrSyntax, "no number"},
		{"1 - 3/8 in", units.ErrSyntax, "not a fraction"}, {"1 -3/8 in", units.ErrSyntax, "not a fraction"}, {"1--3/8 in", units.ErrSyntax, "not a fraction"}, {"-3/-8 in", units.ErrSyntax, "not a fraction"}, {"1e in", units.ErrUnknownUnit, `"e in"`},
		{"3/8'' ", units.ErrUnknownUnit, "\"''\""}, {"٣ mm", units.ErrSyntax, "no number"}, {"1000.1 m", units.ErrOutOfRange, "1 km"},
		{"999999999999999 m", units.ErrOutOfRange, "1 km"}, {"9999999999999999 mm", units.ErrSyntax, "15 digits"}, {"0.0000000000000001 mm", units.ErrSyntax, "15 digits"},
		{"0.0000000001 mm", units.ErrOutOfRange, "picometre"},
	} {
		got, err := units.ParseLength(test.text)
		var bad *units.ParseError
		if !errors.As(err, &bad) || !errors.Is(err, test.err) || !strings.Contains(bad.Problem, test.problem) {
			t.Errorf("%q = %v, %v; want problem %q", test.text, got, err, test.problem)
		} else if !strings.HasPrefix(err.Error(), "units: length") || !strings.Contains(err.Error(), "mm, cm, m, um") {
			t.Errorf("%q: %v does not name the units", test.text, err)
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{"6.35 mm", "1 3/8 in", "1-3/8\"", "1½ in", "-5 thou", "12 µm", "1/0 in", "9999999 m", "25", "1,5 mm"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if n, err := units.Inches.Parse(s); err == nil && n != must(units.ParseLength(s+" in")) {
			t.Fatalf("%q inches are %v", s, n)
		}
		l, err := units.ParseLength(s)
		if err != nil {
			if l != (units.Length{}) {
				t.Fatalf("%q: %v beside error %v", s, l, err)
			}
			return
		}
		if back, err := units.ParseLength(l.String()); err != nil || back != l {
			t.Fatalf("%q = %v, reads back as %v, %v", s, l, back, err)
		}
	})
}

func ExampleParseLength() {
	for _, text := range []string{"1 3/8 in", "6,35 mm", "25"} {
		l, err := units.ParseLength(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(l)
	}
	// Output:
	// 34.925 mm
	// units: length "6,35 mm": a comma in the number: write a point for the decimal, and nothing between thousands; accepted: a number or an inch fraction and one of mm, cm, m, um (or µm, micron), in (or ", inch), thou, ft, such as "6.35 mm", "1 3/8 in" or "5 thou"
	// units: length "25": a number without a unit; accepted: a number or an inch fraction and one of mm, cm, m, um (or µm, micron), in (or ", inch), thou, ft, such as "6.35 mm", "1 3/8 in" or "5 thou"
}
