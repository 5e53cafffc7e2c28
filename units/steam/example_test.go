package steam_test

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/steam"
)

// Example 11.3 of Rayner Joel, p. 330, has 2013.6 kJ/kg at 10 bar absolute, by older tables.
func ExampleSaturated_LatentHeat_raynerJoel() {
	s, err := steam.AtPressure(10 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	heat, err := s.LatentHeat(1 * units.Kilogram)
	fmt.Printf("%.1f kJ %v\n", heat.In(units.Kilojoule), err)
	// Output: 2014.4 kJ <nil>
}

func ExampleSaturated_Gauge() {
	s, err := steam.AtTemperature(units.Celsius(150))
	fmt.Printf("%.2f bar above the air %v\n", s.Gauge().In(units.Bar), err)
	// Output: 3.75 bar above the air <nil>
}

// Table 5 of IAPWS R7-97 has 115.331273 kJ/kg at 300 K and 3 MPa.
func ExampleWaterAt() {
	w, err := steam.WaterAt(3*units.Megapascal, units.Kelvin(300))
	fmt.Printf("%.6f kJ/kg %v\n", w.Enthalpy.In(units.Kilojoule), err)
	// Output: 115.331273 kJ/kg <nil>
}

// Table 15 of IAPWS R7-97 has 3335.68375 kJ/kg at 700 K and 0.0035 MPa.
func ExampleSteamAt() {
	s, err := steam.SteamAt(0.0035*units.Megapascal, units.Kelvin(700))
	fmt.Printf("%.5f kJ/kg %v\n", s.Enthalpy.In(units.Kilojoule), err)
	// Output: 3335.68375 kJ/kg <nil>
}

// The water of a boiler at 4 bar by the gauge: a litre has grown since it was filled.
func ExampleSaturated_Water() {
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	hot, err := s.Water()
	fmt.Printf("%.3f litres a kilogram %v\n", hot.Volume.In(units.Litre), err)
	// Output: 1.093 litres a kilogram <nil>
}

// Steam that carries a tenth of its weight as water.
func ExampleSaturated_Wet() {
	s, err := steam.AtGauge(4 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	wet, err := s.Wet(0.9)
	fmt.Printf("%.0f kJ/kg, %.3f m3/kg %v\n", wet.Enthalpy.In(units.Kilojoule), wet.Volume.In(units.CubicMetre), err)
	// Output: 2537 kJ/kg, 0.337 m3/kg <nil>
}

// Dry steam behind a regulator that takes it from 4 to 2 bar comes out superheated.
func ExampleState_Throttled() {
	s, err := steam.AtPressure(4 * units.Bar)
	if err != nil {
		fmt.Println(err)
		return
	}
	dry, err := s.Steam()
	if err != nil {
		fmt.Println(err)
		return
	}
	after, err := dry.Throttled(2 * units.Bar)
	fmt.Printf("%.1f °C, dry %.0f %v\n", after.Temperature.Celsius(), after.Dryness, err)
	// Output: 135.1 °C, dry 1 <nil>
}
