package units_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/valvechest/valvechest/units"
	"pgregory.net/rapid"
)

// 6.7e-6/degF is 12.06e-6/K: grey iron, which an engineering handbook prints as 6.7 and 12.1.
func TestParseExpansivity(t *testing.T) {
	for _, test := range []struct {
		text string
		want float64 // 1/K
	}{
		{"11.7 ppm/K", 11.7e-6},
		{"11.7 ppm/degC", 11.7e-6},
		{"11.7 um/m K", 11.7e-6},
		{"6.7 ppm/°F", 12.06e-6},
		{"0.0000065 1/degF", 11.7e-6},
		{"2.36e-5 1/K", 23.6e-6},
	} {
		got, err := units.ParseExpansivity(test.text)
		if err != nil || math.Abs(float64(got)-test.want) > 1e-15 {
			t.Errorf("%q = %v, %v; want %g 1/K", test.text, float64(got), err, test.want)
		}
	}
	for text, want := range map[string]error{
		"11.7": units.ErrUnknownUnit, "11.7 mm/K": units.ErrUnknownUnit, "": units.ErrSyntax, "NaN ppm/K": units.ErrNotFinite,
	} {
		if _, err := units.ParseExpansivity(text); !errors.Is(err, want) {
			t.Errorf("%q: error %v, want %v", text, err, want)
		}
	}
}

func TestExpansivityReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := units.Expansivity(rapid.Float64Range(-1e-3, 1e-3).Draw(t, "expansion"))
		text, err := want.MarshalText()
		var got units.Expansivity
		if err != nil || got.UnmarshalText(text) != nil || got != want {
			t.Fatalf("%g came back as %g from %q (%v)", float64(want), float64(got), text, err)
		}
	})
	if text, err := units.Expansivity(math.NaN()).MarshalText(); !errors.Is(err, units.ErrNotFinite) {
		t.Errorf("NaN has text %q", text)
	}
}

func ExampleExpansivity() {
	fmt.Println(11.7 * units.MillionthPerKelvin)
	// Output: 11.7 ppm/K
}
