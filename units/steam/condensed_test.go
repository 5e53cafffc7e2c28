package steam_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/steam"
)

// Half a kilogram of cold iron under steam of 4 bar: what runs down its walls.
func ExampleSaturated_Condensed() {
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	latent, err := s.LatentHeat(1)
	fmt.Printf("%.0f kJ/kg %v\n", latent.In(units.Kilojoule), err)
	water, err := s.Condensed(0.5, units.Celsius(20), units.Celsius(130))
	fmt.Printf("%.1f kJ, %v %v\n", water.Heat.In(units.Kilojoule), water, err)
	// Output:
	// 2108 kJ/kg <nil>
	// 24.6 kJ, 11.7 g (11.0 to 14.2 g) <nil>
}

func TestEnthalpy(t *testing.T) {
	f := check.Open(t, "units/steam/enthalpy.csv")
	for r := range f.Rows() {
		region := int(r.Float("region"))
		r.Compare("enthalpy_kj_kg", steam.Property(region, "h", r.Float("pressure_mpa"), r.Float("temperature_k")))
		if s, ok := stateOf(t, r); ok {
			r.Compare("enthalpy_kj_kg", s.Enthalpy.In(units.Kilojoule))
		}
	}
}

// Older tables than the formulation, a book's own worked example: to 1 kJ/kg.
func TestLatentHeat(t *testing.T) {
	f := check.Open(t, "units/steam/latent.csv")
	for r := range f.Rows() {
		s, err := steam.AtPressure(units.Pressure(r.Float("pressure_bar")) * units.Bar)
		if err != nil {
			t.Fatal(err)
		}
		latent, err := s.LatentHeat(1)
		if err != nil {
			t.Fatal(err)
		}
		r.Within("latent_kj_kg", latent.In(units.Kilojoule), 1) // skeleton tables before the formulation of 1967
	}
}

// The latent heat is what Clapeyron's equation makes of the other equations of the
// formulation: r = T (v2 - v1) dp/dT, with the volume of an ideal gas, which dilute
// steam is near, and that of water left out.
func TestLatentHeatByClapeyron(t *testing.T) {
	for _, degrees := range []float64{5, 20, 40} {
		at := func(d float64) steam.Saturated {
			s, err := steam.AtTemperature(units.Celsius(degrees + d))
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		s := at(0)
		slope := float64(at(0.01).Pressure-at(-0.01).Pressure) / 0.02
		want := s.Temperature.Kelvin() * 461.526 * s.Temperature.Kelvin() / float64(s.Pressure) * slope
		got, err := s.LatentHeat(1)
		if err != nil || math.Abs(float64(got)/want-1) > 0.004 {
			t.Errorf("%v degrees: %v, Clapeyron has %v; %v", degrees, got, want, err)
		}
	}
}

// More iron, or a greater rise, makes more water in proportion, and the ends of the
// range lie on both sides.
func TestCondensedInProportion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := steam.AtGauge(units.Pressure(rapid.Float64Range(0.2, 100).Draw(t, "bar")) * units.Bar)
		if err != nil {
			t.Fatal(err)
		}
		iron := units.Mass(rapid.Float64Range(0.01, 50).Draw(t, "iron"))
		one, err1 := s.Condensed(iron, units.Celsius(20), units.Celsius(60))
		two, err2 := s.Condensed(2*iron, units.Celsius(20), units.Celsius(100))
		if err1 != nil || err2 != nil || math.Abs(float64(two.Water/one.Water)-4) > 1e-9 ||
			!(one.Min < one.Water && one.Water < one.Max) {
			t.Fatalf("%v, %v, %v, %v", one, two, err1, err2)
		}
	})
}

func TestCondensedRefuses(t *testing.T) {
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		t.Fatal(err)
	}
	hot, err := steam.AtTemperature(units.Celsius(360))
	if err != nil {
		t.Fatal(err)
	}
	twenty, nan := units.Celsius(20), math.NaN()
	for name, call := range map[string]func() error{
		"no iron":              func() error { _, err := s.Condensed(0, twenty, units.Celsius(100)); return err },
		"iron not a number":    func() error { _, err := s.Condensed(units.Mass(nan), twenty, units.Celsius(100)); return err },
		"hotter than steam":    func() error { _, err := s.Condensed(1, twenty, units.Celsius(153)); return err },
		"colder when warmed":   func() error { _, err := s.Condensed(1, twenty, units.Celsius(10)); return err },
		"frozen":               func() error { _, err := s.Condensed(1, units.Celsius(-1), units.Celsius(10)); return err },
		"no number of degrees": func() error { _, err := s.Condensed(1, twenty, units.Kelvin(nan)); return err },
		"no steam":             func() error { _, err := s.LatentHeat(0); return err },
		"near the critical":    func() error { _, err := hot.LatentHeat(1); return err },
		"state of nothing":     func() error { _, err := steam.Saturated{}.Condensed(1, twenty, units.Celsius(100)); return err },
	} {
		var argument *units.ArgumentError
		if err := call(); !errors.As(err, &argument) || argument.Accepted == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
