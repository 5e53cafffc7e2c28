package steam_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

// The boiler's gauge shows 4 bar.
func ExampleAtGauge() {
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f °C at %.2f bar absolute\n", s.Temperature.Celsius(), s.Pressure.In(units.Bar))
	fmt.Println(s.Refs)
	// Output:
	// 151.9 °C at 5.01 bar absolute
	// IAPWS R7-97(2012), Industrial Formulation 1997, 2012 revision, equation 31
}

// Table 36 of the release has 372.755919 K at 0.1 MPa.
func ExampleAtPressure() {
	s, err := steam.AtPressure(0.1 * units.Megapascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.6f K\n", s.Temperature.Kelvin())
	// Output: 372.755919 K
}

// Table 35 of the release has 2.63889776 MPa at 500 K.
func ExampleAtTemperature() {
	s, err := steam.AtTemperature(units.Kelvin(500))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.8f MPa, %.1f bar above the air\n", s.Pressure.In(units.Megapascal), s.Gauge().In(units.Bar))
	// Output: 2.63889776 MPa, 25.4 bar above the air
}

func TestTemperature(t *testing.T) {
	f := check.Open(t, "units/steam/temperature.csv")
	for r := range f.Rows() {
		p := units.Pressure(r.Float("pressure"))
		if r.Text("unit") == "psi" {
			p *= units.PSI
		} else {
			p *= units.Megapascal
		}
		got, err := steam.AtPressure(p)
		if err != nil {
			t.Fatal(err)
		}
		v := got.Temperature.Kelvin()
		if r.Text("scale") == "F" {
			v = got.Temperature.Fahrenheit()
		}
		r.Within("temperature", v, r.Float("tolerance"))
	}
	got, err := steam.AtGauge(4 * units.Bar)
	if err != nil || math.Abs(got.Temperature.Celsius()-152.0) > 0.5 { // recalled from steam tables
		t.Errorf("4 bar above the air: %v, %v", got, err)
	}
}

func TestPressure(t *testing.T) {
	f := check.Open(t, "units/steam/pressure.csv")
	for r := range f.Rows() {
		got, err := steam.AtTemperature(units.Kelvin(r.Float("temperature_k")))
		if err != nil {
			t.Fatal(err)
		}
		r.Within("pressure_mpa", got.Pressure.In(units.Megapascal), r.Float("tolerance"))
		if got.Refs.First().Kind != source.Published {
			t.Errorf("%s: %v", r.ID, got.Refs)
		}
	}
}

// Each equation turns the other back, to a few parts in 1e11 of the temperature.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := units.Kelvin(rapid.Float64Range(273.16, 647.09).Draw(t, "T"))
		s, err := steam.AtTemperature(at)
		if err != nil {
			t.Fatal(err)
		}
		back, err := steam.AtPressure(s.Pressure)
		if err != nil || math.Abs(float64(back.Temperature-at)) > 1e-8*float64(at) {
			t.Fatalf("%v came back as %v, %v", at, back.Temperature, err)
		}
	})
}

func TestRefuses(t *testing.T) {
	nan := math.NaN()
	_, low := steam.AtGauge(-1)
	_, high := steam.AtGauge(201 * units.Bar)
	_, none := steam.AtGauge(units.Pressure(nan))
	_, vacuum := steam.AtPressure(600)
	_, beyond := steam.AtPressure(22.07 * units.Megapascal)
	_, endless := steam.AtPressure(units.Pressure(math.Inf(1)))
	_, frozen := steam.AtTemperature(units.Celsius(-1))
	_, hot := steam.AtTemperature(units.Celsius(374))
	_, nowhere := steam.AtTemperature(units.Temperature(nan))
	for _, test := range []struct {
		name string
		err  error
		kind error
		want string
	}{
		{"below the air", low, units.ErrOutOfRange, "0 to 200 bar above that of the air"},
		{"above 200 bar", high, units.ErrOutOfRange, "0 to 200 bar above that of the air"},
		{"no gauge", none, units.ErrNotFinite, "pressure of the steam"},
		{"near vacuum", vacuum, units.ErrOutOfRange, "611.213 Pa to 22.064 MPa"},
		{"beyond critical", beyond, units.ErrOutOfRange, "611.213 Pa to 22.064 MPa"},
		{"endless", endless, units.ErrNotFinite, "pressure of the steam"},
		{"frozen", frozen, units.ErrOutOfRange, "0 to 373.946"},
		{"no water left", hot, units.ErrOutOfRange, "0 to 373.946"},
		{"no temperature", nowhere, units.ErrNotFinite, "temperature of the steam"},
	} {
		var bad *units.ArgumentError
		if !errors.As(test.err, &bad) || !errors.Is(test.err, test.kind) || !strings.Contains(test.err.Error(), test.want) {
			t.Errorf("%s: %v, want %v with %q", test.name, test.err, test.kind, test.want)
		}
	}
}

func TestZeroReadsBack(t *testing.T) {
	text, err := json.Marshal(steam.Saturated{})
	var back steam.Saturated
	if err != nil || json.Unmarshal(text, &back) != nil || back.Temperature != 0 || back.Pressure != 0 {
		t.Errorf("%s came back as %+v, %v", text, back, err)
	}
}

func BenchmarkAtGauge(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := steam.AtGauge(4 * units.Bar); err != nil {
			b.Fatal(err)
		}
	}
}
