package units_test

import (
	"math"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// The exact definitions that every unit follows from: NIST SP 811, appendix B.8. The
// pound-force is a pound under standard gravity, a horsepower 550 ft lbf/s, a metric
// horsepower 75 m kgf/s, a Btu (International Table) 1055.05585262 J.
const (
	inch, foot   = 0.0254, 12 * 0.0254      // m
	pound        = 0.45359237               // kg
	gravity      = 9.80665                  // m/s2
	poundForce   = pound * gravity          // N
	minute       = 60                       // s
	usGallon     = 231 * inch * inch * inch // m3
	turn         = 2 * math.Pi              // rad
	partsOf      = 1e-6
	perDegreeF   = 9.0 / 5
	britishUnit  = 1055.05585262 // J
	imperialUnit = 0.00454609    // m3
)

// Each unit is its definition, under its constant and in each of its spellings, and is
// counted from zero. Of some 80 constants and spellings none can be another's.
func TestDefinitions(t *testing.T) {
	kind := map[string]kind{}
	for _, k := range kinds {
		kind[k.name] = k
	}
	for _, test := range []struct {
		kind, spellings string
		constant        float64
		want            float64
	}{
		{"angle", "rad", float64(units.Radian), 1},
		{"angle", "deg;°;degree;degrees", float64(units.Degree), turn / 360},
		{"angle", "arcmin;′;'", float64(units.ArcMinute), turn / 21600},
		{"angle", "arcsec;″;\"", float64(units.ArcSecond), turn / 1296000},
		{"pressure", "Pa", float64(units.Pascal), 1},
		{"pressure", "kPa", float64(units.Kilopascal), 1000},
		{"pressure", "MPa;N/mm2;N/mm²", float64(units.Megapascal), 1000000},
		{"pressure", "GPa", float64(units.Gigapascal), 1000000000},
		{"pressure", "bar", float64(units.Bar), 100000},
		{"pressure", "psi;lbf/in2;lbf/in²", float64(units.PSI), poundForce / (inch * inch)},
		{"pressure", "atm", float64(units.Atmosphere), 101325},
		{"force", "N", float64(units.Newton), 1},
		{"force", "kN", float64(units.Kilonewton), 1000},
		{"force", "lbf", float64(units.PoundForce), poundForce},
		{"force", "kgf", float64(units.KilogramForce), gravity},
		{"torque", "N·m;Nm;N m;N*m", float64(units.NewtonMetre), 1},
		{"torque", "N·mm;Nmm", float64(units.NewtonMillimetre), 0.001},
		{"torque", "lbf·ft;lbfft;ftlbf;ft·lbf;lbf ft", float64(units.PoundForceFoot), poundForce * foot},
		{"torque", "lbf·in;lbfin;inlbf;in lbf", float64(units.PoundForceInch), poundForce * inch},
		{"power", "W", float64(units.Watt), 1},
		{"power", "kW", float64(units.Kilowatt), 1000},
		{"power", "hp", float64(units.Horsepower), 550 * poundForce * foot},
		{"power", "PS", float64(units.MetricHorsepower), 75 * gravity},
		{"energy", "J", float64(units.Joule), 1},
		{"energy", "kJ", float64(units.Kilojoule), 1000},
		{"energy", "ft·lbf;ftlbf;lbfft", float64(units.FootPoundForce), poundForce * foot},
		{"energy", "Wh", float64(units.WattHour), minute * minute},
		{"energy", "Btu;BTU", float64(units.BTU), britishUnit},
		{"mass", "kg", float64(units.Kilogram), 1},
		{"mass", "g", float64(units.Gram), 0.001},
		{"mass", "lb", float64(units.Pound), pound},
		{"mass", "oz", float64(units.Ounce), pound / 16},
		{"density", "kg/m3;kg/m³", float64(units.KilogramPerCubicMetre), 1},
		{"density", "g/cm3;g/cm³", float64(units.GramPerCubicCentimetre), 1000},
		{"density", "lb/in3;lb/in³", float64(units.PoundPerCubicInch), pound / (inch * inch * inch)},
		{"density", "lb/ft3;lb/ft³", float64(units.PoundPerCubicFoot), pound / (foot * foot * foot)},
		{"speed", "m/s", float64(units.MetrePerSecond), 1},
		{"speed", "m/min", float64(units.MetrePerMinute), 1.0 / minute},
		{"speed", "mm/min", float64(units.MillimetrePerMinute), 0.001 / minute},
		{"speed", "ft/s", float64(units.FootPerSecond), foot},
		{"speed", "ft/min", float64(units.FootPerMinute), foot / minute},
		{"speed", "in/min", float64(units.InchPerMinute), inch / minute},
		{"rotational speed", "rad/s", float64(units.RadianPerSecond), 1},
		{"rotational speed", "rev/min;rpm", float64(units.RevPerMinute), turn / minute},
		{"rotational speed", "rev/s", float64(units.RevPerSecond), turn},
		{"temperature difference", "K;°C;C;degC", float64(units.KelvinDifference), 1},
		{"temperature difference", "°F;F;degF", float64(units.FahrenheitDifference), 1 / perDegreeF},
		{"area", "m2;m²", float64(units.SquareMetre), 1},
		{"area", "mm2;mm²", float64(units.SquareMillimetre), 0.001 * 0.001},
		{"area", "cm2;cm²", float64(units.SquareCentimetre), 0.01 * 0.01},
		{"area", "in2;in²", float64(units.SquareInch), inch * inch},
		{"volume", "m3;m³", float64(units.CubicMetre), 1},
		{"volume", "mm3;mm³", float64(units.CubicMillimetre), 0.001 * 0.001 * 0.001},
		{"volume", "cm3;cm³", float64(units.CubicCentimetre), 0.01 * 0.01 * 0.01},
		{"volume", "L;l", float64(units.Litre), 0.1 * 0.1 * 0.1},
		{"volume", "in3;in³", float64(units.CubicInch), inch * inch * inch},
		{"volume", "ft3;ft³", float64(units.CubicFoot), foot * foot * foot},
		{"volume", "imp.gal;impgal;imp.gal", float64(units.ImperialGallon), imperialUnit},
		{"volume", "US.gal;USgal", float64(units.USGallon), usGallon},
		{"volume flow", "m3/s;m³/s", float64(units.CubicMetrePerSecond), 1},
		{"volume flow", "L/min;l/min", float64(units.LitrePerMinute), 0.001 / minute},
		{"volume flow", "cm3/min;cm³/min", float64(units.CubicCentimetrePerMinute), partsOf / minute},
		{"volume flow", "in3/min;in³/min", float64(units.CubicInchPerMinute), inch * inch * inch / minute},
		{"volume flow", "ft3/min;ft³/min", float64(units.CubicFootPerMinute), foot * foot * foot / minute},
		{"linear expansion", "1/K;/K", float64(units.PerKelvin), 1},
		{"linear expansion", "ppm/K;ppm/°C;ppm/degC;um/m K;µm/m K", float64(units.MillionthPerKelvin), partsOf},
		{"linear expansion", "ppm/°F;ppm/degF", float64(units.MillionthPerKelvin * units.PerDegreeFahrenheit), partsOf * perDegreeF},
		{"linear expansion", "1/°F;/°F;1/degF;/degF", float64(units.PerDegreeFahrenheit), perDegreeF},
	} {
		near := func(got, want float64) bool { return math.Abs(got-want) <= 1e-15*math.Abs(want) }
		if !near(test.constant, test.want) {
			t.Errorf("%s: %s is %v, want %v", test.kind, test.spellings, test.constant, test.want)
		}
		for spelling := range strings.SplitSeq(test.spellings, ";") {
			for _, number := range []string{"1", "0", "-2", "3e5", "0.00000000000000000001", "12345678901234567890"} {
				n := map[string]float64{"1": 1, "-2": -2, "3e5": 3e5, "0.00000000000000000001": 1e-20, "12345678901234567890": 12345678901234567890}[number]
				got, err := kind[test.kind].parse(number + " " + spelling)
				if want := n * test.want; err != nil || math.Abs(got-want) > 1e-15*math.Abs(want) {
					t.Errorf("%s: %s %s is %v, %v; want %v", test.kind, number, spelling, got, err, want)
				}
			}
		}
	}
	// A temperature is counted from where its scale has zero: 273.15 K and 459.67 degrees
	// F are exact (NIST SP 811, B.8, temperature).
	for text, want := range map[string]float64{
		"0 °C": 273.15, "0 C": 273.15, "-273.15 degC": 0, "100 °C": 373.15, "0 K": 0, "1 K": 1, "-459.67 °F": 0, "32 F": 273.15, "212 degF": 373.15,
		"0.000000000000000000 °F": 459.67 * 5 / 9, "300.00000000000000000 K": 300,
	} {
		got, err := units.ParseTemperature(text)
		if err != nil || math.Abs(got.Kelvin()-want) > 1e-12 {
			t.Errorf("%s is %v K, %v; want %v", text, got.Kelvin(), err, want)
		}
	}
	for _, test := range [][2]float64{
		{float64(units.Celsius(0)), 273.15}, {float64(units.Fahrenheit(0)), 459.67 * 5 / 9}, {float64(units.Kelvin(7)), 7},
		{units.Temperature(273.15).Celsius(), 0}, {units.Temperature(300).Celsius(), 26.85}, {units.Temperature(300).Kelvin(), 300},
		{units.Temperature(0).Fahrenheit(), -459.67}, {units.Temperature(373.15).Fahrenheit(), 212},
		{float64(units.Temperature(300).Sub(280)), 20}, {float64(units.Temperature(300).Add(-20)), 280},
	} {
		if math.Abs(test[0]-test[1]) > 1e-12 {
			t.Errorf("%v, want %v", test[0], test[1])
		}
	}
	for name, got := range map[string]float64{
		"angle": (50 * units.ArcMinute).Degrees() * 6 / 5, "radians": units.Angle(1).Radians(), "length": units.Inch(1).In(units.Thousandths) / 1000,
		"metres": units.MM(1000).Metres(), "microns": units.Micron(1).Micron(), "thou": units.Thou(1).Thou(), "inches": units.Thou(1000).Inch(),
		"millimetres": units.Micron(1000).MM(),
	} {
		if math.Abs(got-1) > 1e-15 {
			t.Errorf("%s: %v, want 1", name, got)
		}
	}
}
