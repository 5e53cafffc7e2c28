package cli_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/units"
)

func TestParseLengths(t *testing.T) {
	for text, want := range map[string][]units.Length{
		"0 12 30 20 thou":           {{}, units.Thou(12), units.Thou(30), units.Thou(20)},
		"0.00, 0.35, -0.95 mm":      {{}, units.MM(0.35), units.MM(-0.95)},
		"0.1mm 4thou; 1/64 in":      {units.MM(0.1), units.Thou(4), units.InchFraction(1, 64)},
		"1 2 3mm":                   {units.MM(1), units.MM(2), units.MM(3)},
		"  +0.5 \t -0.25 um 2\"   ": {units.Micron(0.5), units.Micron(-0.25), units.Inch(2)},
	} {
		if got, err := cli.ParseLengths(text); err != nil || !slices.Equal(got, want) {
			t.Errorf("%q: %v (%v), want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"":               "empty",
		"0 12 30":        "without a unit behind them",
		"thou":           "without a number before it",
		"1 mm 2":         "without a unit behind them",
		"0,35 0,95 mm":   "without a space behind it",
		"0;1 mm":         "without a space behind it",
		"1 2 furlongs":   "furlongs",
		"1..2 3 mm":      "1..2",
		"1 mm - 2 mm":    "-",
		"1000000 2000 m": "",
	} {
		if got, err := cli.ParseLengths(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v; want %q", text, got, err, want)
		}
	}
}

func FuzzParseLengths(f *testing.F) {
	f.Add("0 12 30 20 thou")
	f.Add("0.1mm, 4thou; 1/64 in")
	f.Fuzz(func(t *testing.T, text string) {
		list, err := cli.ParseLengths(text)
		if (err == nil) != (len(list) > 0) {
			t.Fatal(list, err)
		}
		var again []string
		for _, l := range list {
			again = append(again, l.String())
		}
		if err != nil {
			return
		}
		if back, err := cli.ParseLengths(strings.Join(again, " ")); err != nil || !slices.Equal(back, list) {
			t.Errorf("%q: %v reads back as %v (%v)", text, list, back, err)
		}
	})
}
