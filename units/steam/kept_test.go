package steam_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

// Water on the line of saturation and dry steam on it are the ends of wet steam, which
// has no heat capacity and no speed of sound.
func TestLineIsWet(t *testing.T) {
	ends := 0
	for i := range 40 {
		p := units.Pressure(0.5+float64(i)) * units.Bar
		s, err := steam.AtPressure(p)
		if err != nil {
			t.Fatal(err)
		}
		water, err1 := s.Water()
		dry, err2 := s.Steam()
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		mpa, at := p.In(units.Megapascal), s.Temperature.Kelvin()
		for x, of := range []steam.State{water, dry} {
			if float64(of.Enthalpy)/1000 != steam.Property(x+1, "h", mpa, at) {
				continue // the unit has rounded it
			}
			ends++
			after, err := of.Throttled(p)
			if err != nil || after.Dryness != float64(x) || after.HeatCapacity != 0 || after.Sound != 0 || after.Temperature != s.Temperature {
				t.Errorf("%v, dry %d: %v, %v", p, x, after, err)
			}
		}
	}
	if ends < 20 {
		t.Errorf("only %d ends of the line", ends)
	}
}

// The balance of heat with the specific heats as they are printed: iron 0.447 and cast
// iron 0.420 kJ/(kg K) (Carvill, 3.4.4, p. 110), and 0.130 of that of water, 4.1868
// kJ/(kg K) (Applied Science for Metal Workers, section 107).
func TestCondensedByTheHeat(t *testing.T) {
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		t.Fatal(err)
	}
	latent, err1 := s.LatentHeat(1)
	two, err2 := s.LatentHeat(2)
	got, err3 := s.Condensed(2.5, units.Celsius(15), units.Celsius(140))
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	const warmed = 2.5 * 125 // kg K
	r := float64(latent) / 1000
	for name, pair := range map[string][2]float64{
		"latent heat": {float64(two), 2 * float64(latent)},
		"heat":        {float64(got.Heat), 447 * warmed},
		"water":       {float64(got.Water), 0.447 * warmed / r},
		"least":       {float64(got.Min), 0.420 * warmed / r},
		"most":        {float64(got.Max), 0.130 * 4.1868 * warmed / r},
	} {
		if math.Abs(pair[0]/pair[1]-1) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, pair[0], pair[1])
		}
	}
}

// States of every kind and what cannot be one, which are kept: figures to six digits,
// the equations that each is from, and what is accepted. Beside it stand the tests of
// the release's values and of what stays; this one tells of a change in what is told.
func TestStatesAreKept(t *testing.T) {
	var text strings.Builder
	refs := func(of source.Refs) (all string) {
		for r := range of.All() {
			all += "; " + r.Locator
		}
		return all
	}
	told := func(name string, s steam.State, err error) {
		if err != nil {
			fmt.Fprintf(&text, "%s: %v\n", name, err)
			return
		}
		fmt.Fprintf(&text, "%s: %.6g bar, %.6g C, dry %.6g, %.6g m3, u %.6g kJ, h %.6g kJ, s %.6g, cp %.6g, %.6g m/s%s\n", name,
			s.Pressure.In(units.Bar), s.Temperature.Celsius(), s.Dryness, float64(s.Volume), float64(s.Energy)/1000,
			float64(s.Enthalpy)/1000, s.Entropy, s.HeatCapacity, float64(s.Sound), refs(s.Refs))
	}
	for _, bar := range []float64{0.01, 1, 10, 40} {
		p := units.Pressure(bar) * units.Bar
		s, err := steam.AtPressure(p)
		if err != nil {
			t.Fatal(err)
		}
		water, err := s.Water()
		told("water", water, err)
		dry, err := s.Steam()
		told("steam", dry, err)
		wet, err := s.Wet(0.25)
		told("wet", wet, err)
		hot, err := steam.SteamAt(p, units.Celsius(300))
		told("hot", hot, err)
		cold, err := steam.WaterAt(p, units.Celsius(5))
		told("cold", cold, err)
		after, err := water.Throttled(p / 2)
		told("water throttled", after, err)
		after, err = cold.Throttled(p / 2)
		told("cold throttled", after, err)
		after, err = hot.Throttled(p / 2)
		told("hot throttled", after, err)
		after, err = dry.Expanded(p / 2)
		told("steam expanded", after, err)
		after, err = hot.Expanded(p / 2)
		told("hot expanded", after, err)
		if data, err := json.Marshal(wet); err != nil || strings.Contains(string(data), "HeatCapacity") || strings.Contains(string(data), "Sound") {
			t.Errorf("%s, %v", data, err)
		}
		if got := hot.String(); !strings.Contains(got, "temperature 300") || !strings.Contains(got, "dryness 1, ") {
			t.Error(got)
		}
	}
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil || s.Pressure != 4*units.Bar+units.Atmosphere || s.Gauge() != s.Pressure-units.Atmosphere || !strings.Contains(s.String(), "pressure 5.01325 bar") {
		t.Errorf("4 bar above the air: %v, %v", s, err)
	}
	fmt.Fprintf(&text, "by the gauge: %.6g bar, %.6g C%s\n", s.Pressure.In(units.Bar), s.Temperature.Celsius(), refs(s.Refs))
	c, err := s.Condensed(0.5, units.Celsius(20), units.Celsius(130))
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(&text, "condensed: %v%s\n", c, refs(c.Refs))
	s, err = steam.AtTemperature(units.Celsius(150))
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(&text, "by the temperature: %.6g bar, %.6g C%s\n", s.Pressure.In(units.Bar), s.Temperature.Celsius(), refs(s.Refs))
	check.Kept(t, "units/steam/kept/states.txt", text.String())
}
