package indicator

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/steam"
)

// What the index of the demonstration engine is that of, on air and on steam.
func ExampleRunning_Expansion() {
	for _, r := range []Running{demo(), onSteam()} {
		e, err := r.Expansion()
		fmt.Println(e.Index, e.Of, err)
	}
	// Output:
	// 1.2 between air at one temperature, 1, and air in a motor, 1.25 <nil>
	// 1.135 dry saturated steam <nil>
}

// Zeuner's rule and the two other indices of steam against the formulation: the
// entropy stays, and the index is that between the two states.
func TestIndexByTheFormulation(t *testing.T) {
	index := func(from steam.State, to units.Pressure) float64 {
		after, err := from.Expanded(to)
		if err != nil {
			t.Fatal(err)
		}
		return math.Log(float64(from.Pressure/after.Pressure)) / math.Log(float64(after.Volume/from.Volume))
	}
	for _, bar := range []units.Pressure{2, 3, 5, 10} {
		s, err := steam.AtPressure(bar * units.Bar)
		if err != nil {
			t.Fatal(err)
		}
		for _, dryness := range []float64{0.7, 0.8, 0.9, 1} {
			wet, err1 := s.Wet(dryness)
			rule, err2 := WetSteam(dryness)
			if err := errors.Join(err1, err2); err != nil {
				t.Fatal(err)
			}
			near(t, fmt.Sprintf("%v bar, %v dry", float64(bar), dryness), rule.Index, index(wet, bar/3*units.Bar), 0.01)
		}
		hot, err := steam.SteamAt(bar*units.Bar, s.Temperature+150)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("%v bar, superheated", float64(bar)), 1.3, index(hot, bar/2*units.Bar), 0.015)
	}
}

func TestExpansions(t *testing.T) {
	last := Expansion{}
	for _, e := range append(Air.Expansions(), Steam.Expansions()...) {
		if e.Medium == last.Medium && e.Index <= last.Index || e.Of == "" || e.Refs.IsZero() {
			t.Errorf("%v after %v", e, last)
		}
		last = e
		r := onSteam()
		r.Medium, r.Index = e.Medium, e.Index
		got, err := r.Expansion()
		if err != nil || got.Of != e.Of || len(got.Findings) != 0 {
			t.Errorf("%v of %v: %v, %v", e.Index, e.Medium, got, err)
		}
	}
	for _, test := range []struct {
		medium   Medium
		index    float64
		of       string
		findings int
	}{
		{Steam, 1.125, "90 % dry", 0},
		{Steam, 1.05, "between steam as the old books have it", 0},
		{Steam, 1.2, "between dry saturated steam, 1.135, and superheated steam, 1.3", 0},
		{Steam, 1.35, "more than superheated", 1},
		{Air, 1.35, "between air in a motor", 0},
	} {
		r := onSteam()
		r.Medium, r.Index = test.medium, test.index
		e, err := r.Expansion()
		if err != nil || !strings.Contains(e.Of, test.of) || len(e.Findings) != test.findings || e.Index != test.index && test.medium == Air {
			t.Errorf("%v of %v: %v, %v", test.index, test.medium, e, err)
		}
	}
	for _, dryness := range []float64{0.5, 1.1, math.NaN()} {
		var argument *units.ArgumentError
		if _, err := WetSteam(dryness); !errors.As(err, &argument) {
			t.Errorf("%v dry: %v", dryness, err)
		}
	}
	if Medium(0).Expansions() != nil {
		t.Error("what is no medium expands")
	}
	if _, err := (Running{}).Expansion(); err == nil {
		t.Error("an engine of nothing expands")
	}
}
