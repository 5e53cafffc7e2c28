package units_test

import (
	"bytes"
	"encoding/gob"
	"fmt"

	"github.com/valvechest/valvechest/units"
)

// A drawing in millimetres and a rule in inches.
func ExampleMM() {
	bore := units.MM(19.05)
	fmt.Println(bore, "=", bore.Text(units.Inches, 4))
	// Output: 19.05 mm = 0.7500 in
}

func ExampleInch() {
	fmt.Println(units.Inch(0.25))
	// Output: 6.35 mm
}

func ExampleThou() {
	fmt.Println(units.Thou(1.5)) // shim
	// Output: 0.0381 mm
}

func ExampleMicron() {
	fmt.Println(units.Micron(21)) // what a hole H7 of 20 mm may be larger
	// Output: 0.021 mm
}

func ExampleInchFraction() {
	fmt.Println(units.InchFraction(7, 32))
	// Output: 5.55625 mm
}

// The smallest step that a length has.
func ExamplePicometres() {
	fmt.Println(units.Picometres(25_400_000_000) == units.Inch(1), units.Picometres(1))
	// Output: true 0.000000001 mm
}

func ExampleMustLength() {
	fmt.Println(units.MustLength("1 3/8 in"))
	// Output: 34.925 mm
}

func ExampleLength_MM() {
	fmt.Println(units.InchFraction(3, 16).MM())
	// Output: 4.7625
}

func ExampleLength_Inch() {
	fmt.Println(units.MM(12.7).Inch())
	// Output: 0.5
}

func ExampleLength_Thou() {
	fmt.Printf("%.2f thou\n", units.MM(0.05).Thou())
	// Output: 1.97 thou
}

func ExampleLength_Micron() {
	fmt.Println(units.Thou(1).Micron())
	// Output: 25.4
}

func ExampleLength_Metres() {
	fmt.Println(units.MM(450).Metres())
	// Output: 0.45
}

// Inches and millimetres never drift: an inch counts the same picometres whichever way it
// was written.
func ExampleLength_Picometres() {
	fmt.Println(units.Inch(1.0/512).Picometres(), units.MustLength("0.001953125 in").Picometres())
	// Output: 49609375 49609375
}

// A stack of two washers and a gasket.
func ExampleLength_Add() {
	fmt.Println(units.InchFraction(1, 16).Add(units.InchFraction(1, 16)).Add(units.MM(0.25)))
	// Output: 3.425 mm
}

// The clearance of a piston in its bore.
func ExampleLength_Sub() {
	bore, piston := units.MM(20), units.Inch(0.785)
	fmt.Println(bore.Sub(piston))
	// Output: 0.061 mm
}

func ExampleLength_Neg() {
	fmt.Println(units.Thou(2).Neg())
	// Output: -0.0508 mm
}

func ExampleLength_Abs() {
	fmt.Println(units.MM(6).Sub(units.InchFraction(1, 4)).Abs())
	// Output: 0.35 mm
}

// Which of two spanners is the larger.
func ExampleLength_Cmp() {
	fmt.Println(units.MM(8).Cmp(units.InchFraction(5, 16)))
	// Output: 1
}

// A negative lap is clearance.
func ExampleLength_Sign() {
	fmt.Println(units.MM(-0.1).Sign(), units.MM(0).Sign())
	// Output: -1 0
}

func ExampleLength_IsZero() {
	fmt.Println(units.MM(0).IsZero(), units.Picometres(1).IsZero())
	// Output: true false
}

// Half of the valve's travel.
func ExampleLength_Scale() {
	fmt.Println(units.InchFraction(5, 16).Scale(0.5))
	// Output: 3.96875 mm
}

// How many cranks a connecting rod is long.
func ExampleLength_Ratio() {
	fmt.Println(units.MM(60).Ratio(units.MM(10)))
	// Output: 6
}

func ExampleLength_In() {
	fmt.Println(units.MM(1).In(units.Micrometres))
	// Output: 1000
}

// 7.5 thou is what a micrometer of a thousandth shows as 0.191 mm.
func ExampleLength_Decimal() {
	fmt.Println(units.Thou(7.5).Decimal(units.Millimetres, 3))
	// Output: 0.191
}

// A tip on limits that are turned into inches (September 2005, after ANSI/IEEE 268):
// 11.3 and 10.7 mm to the nearest thousandth.
func ExampleLength_Decimal_tip() {
	fmt.Println(units.MM(11.3).Decimal(units.Inches, 3), units.MM(10.7).Decimal(units.Inches, 3))
	// Output: 0.445 0.421
}

func ExampleLength_Text() {
	fmt.Println(units.MM(6).Text(units.Inches, 4))
	// Output: 0.2362 in
}

// Lengths go through gob, and through JSON, as text.
func ExampleLength_GobEncode() {
	var file bytes.Buffer
	var back units.Length
	err := gob.NewEncoder(&file).Encode(units.InchFraction(1, 64))
	if err == nil {
		err = gob.NewDecoder(&file).Decode(&back)
	}
	fmt.Println(back, err)
	// Output: 0.396875 mm <nil>
}

// A length that is not one is refused, and what was there stays.
func ExampleLength_GobDecode() {
	l := units.MM(3)
	fmt.Println(l.GobDecode([]byte("three")), l)
	// Output: units: length "three": no number before the unit; accepted: a number or an inch fraction and one of mm, cm, m, um (or µm, micron), in (or ", inch), thou, ft, such as "6.35 mm", "1 3/8 in" or "5 thou" 3 mm
}

func ExampleLengthUnits() {
	fmt.Println(units.LengthUnits())
	// Output: [mm in thou um m]
}

func ExampleLengthUnit_Length() {
	fmt.Println(units.Thousandths.Length())
	// Output: 0.0254 mm
}

func ExampleParseLengthUnit() {
	unit, err := units.ParseLengthUnit("thou")
	fmt.Println(unit.Length(), err)
	_, err = units.ParseLengthUnit("mil")
	fmt.Println(err)
	// Output:
	// 0.0254 mm <nil>
	// units: unit of length "mil": unknown unit; accepted: mm, in, thou, um, m
}

// A column of a table that is headed "mm".
func ExampleLengthUnit_Parse() {
	fmt.Println(units.Millimetres.Parse("6.35"))
	// Output: 6.35 mm <nil>
}

func ExampleRoundModes() {
	fmt.Println(units.RoundModes())
	// Output: [nearest up down]
}

func ExampleParseRoundMode() {
	mode, err := units.ParseRoundMode("down")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(units.MM(5.027).Round(units.MM(0.01), mode))
	// Output: 5.02 mm <nil>
}

// 6.3 mm on a rule of sixty-fourths: the fraction, and what is left.
func ExampleFraction_Length() {
	f, err := units.MM(6.3).NearestFraction(64)
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := f.Length()
	fmt.Println(l, f.Rest, err)
	// Output: 6.35 mm -0.05 mm <nil>
}

// The angle of a vernier protractor.
func ExampleParseAngle() {
	fmt.Println(units.ParseAngle(`26°33'54"`))
	// Output: 26.565 deg <nil>
}

func ExampleAngle_Degrees() {
	fmt.Printf("%.4f\n", (30*units.Degree + 15*units.ArcMinute).Degrees())
	// Output: 30.2500
}

func ExampleAngle_Radians() {
	fmt.Printf("%.6f\n", (60 * units.Degree).Radians())
	// Output: 1.047198
}

// An American sheet prints expansions per degree Fahrenheit.
func ExampleParseExpansivity() {
	brass, err := units.ParseExpansivity("11.4 ppm/°F")
	fmt.Printf("%.1f millionths per kelvin %v\n", brass.In(units.MillionthPerKelvin), err)
	// Output: 20.5 millionths per kelvin <nil>
}

// A gauge of 60 psi on an engine drawn in bar.
func ExampleParsePressure() {
	p, err := units.ParsePressure("60 psi")
	fmt.Printf("%.2f bar %v\n", p.In(units.Bar), err)
	// Output: 4.14 bar <nil>
}

func ExampleParseForce() {
	f, err := units.ParseForce("25 lbf")
	fmt.Printf("%.1f N %v\n", f.In(units.Newton), err)
	// Output: 111.2 N <nil>
}

// A torque wrench in inch pounds, a table in newton metres.
func ExampleParseTorque() {
	t, err := units.ParseTorque("9 lbf·in")
	fmt.Printf("%.2f N·m %v\n", t.In(units.NewtonMetre), err)
	// Output: 1.02 N·m <nil>
}

func ExampleParsePower() {
	p, err := units.ParsePower("0.25 hp")
	fmt.Printf("%.0f W %v\n", p.In(units.Watt), err)
	// Output: 186 W <nil>
}

func ExampleParseEnergy() {
	e, err := units.ParseEnergy("970 Btu") // latent heat of a pound of steam at 212 °F, about
	fmt.Printf("%.0f kJ %v\n", e.In(units.Kilojoule), err)
	// Output: 1023 kJ <nil>
}

func ExampleParseMass() {
	flywheel, err := units.ParseMass("4.5 lb")
	fmt.Printf("%.2f kg %v\n", flywheel.In(units.Kilogram), err)
	// Output: 2.04 kg <nil>
}

func ExampleParseDensity() {
	iron, err := units.ParseDensity("0.260 lb/in3")
	fmt.Printf("%.0f kg/m3 %v\n", iron.In(units.KilogramPerCubicMetre), err)
	// Output: 7197 kg/m3 <nil>
}

func ExampleParseSpeed() {
	cut, err := units.ParseSpeed("100 ft/min")
	fmt.Printf("%.1f m/min %v\n", cut.In(units.MetrePerMinute), err)
	// Output: 30.5 m/min <nil>
}

func ExampleParseRotationalSpeed() {
	n, err := units.ParseRotationalSpeed("600 rev/min")
	fmt.Printf("%.0f turns a second %v\n", n.In(units.RevPerSecond), err)
	// Output: 10 turns a second <nil>
}

func ExampleParseTemperatureDifference() {
	d, err := units.ParseTemperatureDifference("90 °F")
	fmt.Printf("%.0f K %v\n", d.In(units.KelvinDifference), err)
	// Output: 50 K <nil>
}

func ExampleParseArea() {
	a, err := units.ParseArea("0.442 in2") // piston of 3/4 in
	fmt.Printf("%.0f mm2 %v\n", a.In(units.SquareMillimetre), err)
	// Output: 285 mm2 <nil>
}

func ExampleParseVolume() {
	v, err := units.ParseVolume("0.5 imp.gal") // boiler feed tank
	fmt.Printf("%.2f litres %v\n", v.In(units.Litre), err)
	// Output: 2.27 litres <nil>
}

func ExampleParseVolumeFlow() {
	q, err := units.ParseVolumeFlow("2 ft3/min") // of a workshop compressor
	fmt.Printf("%.1f litres a minute %v\n", q.In(units.LitrePerMinute), err)
	// Output: 56.6 litres a minute <nil>
}

// An oven that is marked in the other scale.
func ExampleParseTemperature() {
	t, err := units.ParseTemperature("300 °F")
	fmt.Printf("%.0f °C %v\n", t.Celsius(), err)
	// Output: 149 °C <nil>
}

func ExampleCelsius() {
	fmt.Printf("%.0f °F\n", units.Celsius(180).Fahrenheit())
	// Output: 356 °F
}

func ExampleFahrenheit() {
	fmt.Printf("%.1f °C\n", units.Fahrenheit(212).Celsius())
	// Output: 100.0 °C
}

func ExampleKelvin() {
	fmt.Println(units.Kelvin(293.15))
	// Output: 20 °C
}

func ExampleTemperature_Celsius() {
	fmt.Printf("%.0f\n", units.Fahrenheit(68).Celsius())
	// Output: 20
}

func ExampleTemperature_Fahrenheit() {
	fmt.Printf("%.0f\n", units.Celsius(20).Fahrenheit())
	// Output: 68
}

func ExampleTemperature_Kelvin() {
	fmt.Println(units.Celsius(0).Kelvin())
	// Output: 273.15
}

// How much hotter the cylinder runs than the bench it was bored on.
func ExampleTemperature_Sub() {
	warming := units.Celsius(140).Sub(units.Celsius(20))
	fmt.Printf("%.0f K\n", warming.In(units.KelvinDifference))
	// Output: 120 K
}

func ExampleTemperature_Add() {
	fmt.Println(units.Celsius(20).Add(100 * units.KelvinDifference))
	// Output: 120 °C
}
