package units

import "math"

// The factors below are the definitions of NIST SP 811, appendix B.8: inch
// 0.0254 m, pound 0.45359237 kg, standard gravity 9.80665 m/s2, pound-force
// their product 4.4482216152605 N, horsepower 550 ft lbf/s, Btu (International
// Table) 1055.05585262 J, gallons 4.54609 L and 231 in3.

// A Pressure, or a stress, is held in pascals. Whether it is above the
// atmosphere or above nothing is for its name to say.
type Pressure float64

// Units of pressure.
const (
	Pascal     Pressure = 1
	Kilopascal Pressure = 1e3
	Megapascal Pressure = 1e6
	Gigapascal Pressure = 1e9
	Bar        Pressure = 1e5
	PSI        Pressure = 4.4482216152605 / (0.0254 * 0.0254)
	Atmosphere Pressure = 101325
)

var pressure = quantity{name: "pressure", units: []unitDef{
	{"bar", float64(Bar), 0},
	{"Pa", float64(Pascal), 0},
	{"kPa", float64(Kilopascal), 0},
	{"MPa N/mm2 N/mm²", float64(Megapascal), 0},
	{"GPa", float64(Gigapascal), 0},
	{"psi lbf/in2 lbf/in²", float64(PSI), 0},
	{"atm", float64(Atmosphere), 0},
}}

// ParsePressure reads a pressure with its unit, one of bar, Pa, kPa, MPa, GPa,
// psi, atm; anything else is a [*ParseError].
func ParsePressure(s string) (Pressure, error) {
	v, err := pressure.parse(s)
	return Pressure(v), err
}

// String returns the pressure in bar, exactly.
func (v Pressure) String() string { return pressure.text(float64(v)) }

// In returns the pressure in a unit, as a plain number.
func (v Pressure) In(unit Pressure) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Pressure) MarshalText() ([]byte, error) { return pressure.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Pressure) UnmarshalText(text []byte) error { return unmarshal(v, ParsePressure, text) }

// A Force is held in newtons.
type Force float64

// Units of force.
const (
	Newton        Force = 1
	Kilonewton    Force = 1e3
	PoundForce    Force = 4.4482216152605
	KilogramForce Force = 9.80665
)

var force = quantity{name: "force", units: []unitDef{
	{"N", float64(Newton), 0},
	{"kN", float64(Kilonewton), 0},
	{"lbf", float64(PoundForce), 0},
	{"kgf", float64(KilogramForce), 0},
}}

// ParseForce reads a force with its unit, one of N, kN, lbf, kgf; anything else
// is a [*ParseError].
func ParseForce(s string) (Force, error) {
	v, err := force.parse(s)
	return Force(v), err
}

// String returns the force in N, exactly.
func (v Force) String() string { return force.text(float64(v)) }

// In returns the force in a unit, as a plain number.
func (v Force) In(unit Force) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Force) MarshalText() ([]byte, error) { return force.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Force) UnmarshalText(text []byte) error { return unmarshal(v, ParseForce, text) }

// A Torque is held in newton metres.
type Torque float64

// Units of torque.
const (
	NewtonMetre      Torque = 1
	NewtonMillimetre Torque = 1e-3
	PoundForceFoot   Torque = 4.4482216152605 * 0.3048
	PoundForceInch   Torque = 4.4482216152605 * 0.0254
)

var torque = quantity{name: "torque", units: []unitDef{
	{"N·m Nm", float64(NewtonMetre), 0},
	{"N·mm Nmm", float64(NewtonMillimetre), 0},
	{"lbf·ft lbfft ftlbf", float64(PoundForceFoot), 0},
	{"lbf·in lbfin inlbf", float64(PoundForceInch), 0},
}}

// ParseTorque reads a torque with its unit, one of N·m, N·mm, lbf·ft, lbf·in;
// anything else is a [*ParseError].
func ParseTorque(s string) (Torque, error) {
	v, err := torque.parse(s)
	return Torque(v), err
}

// String returns the torque in N·m, exactly.
func (v Torque) String() string { return torque.text(float64(v)) }

// In returns the torque in a unit, as a plain number.
func (v Torque) In(unit Torque) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Torque) MarshalText() ([]byte, error) { return torque.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Torque) UnmarshalText(text []byte) error { return unmarshal(v, ParseTorque, text) }

// A Power is held in watts.
type Power float64

// Units of power.
const (
	Watt             Power = 1
	Kilowatt         Power = 1e3
	Horsepower       Power = 550 * 4.4482216152605 * 0.3048
	MetricHorsepower Power = 75 * 9.80665
)

var power = quantity{name: "power", units: []unitDef{
	{"W", float64(Watt), 0},
	{"kW", float64(Kilowatt), 0},
	{"hp", float64(Horsepower), 0},
	{"PS", float64(MetricHorsepower), 0},
}}

// ParsePower reads a power with its unit, one of W, kW, hp, PS; anything else
// is a [*ParseError].
func ParsePower(s string) (Power, error) {
	v, err := power.parse(s)
	return Power(v), err
}

// String returns the power in W, exactly.
func (v Power) String() string { return power.text(float64(v)) }

// In returns the power in a unit, as a plain number.
func (v Power) In(unit Power) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Power) MarshalText() ([]byte, error) { return power.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Power) UnmarshalText(text []byte) error { return unmarshal(v, ParsePower, text) }

// An Energy is held in joules.
type Energy float64

// Units of energy.
const (
	Joule          Energy = 1
	Kilojoule      Energy = 1e3
	FootPoundForce Energy = 4.4482216152605 * 0.3048
	WattHour       Energy = 3600
	BTU            Energy = 1055.05585262
)

var energy = quantity{name: "energy", units: []unitDef{
	{"J", float64(Joule), 0},
	{"kJ", float64(Kilojoule), 0},
	{"ft·lbf ftlbf lbfft", float64(FootPoundForce), 0},
	{"Wh", float64(WattHour), 0},
	{"Btu BTU", float64(BTU), 0},
}}

// ParseEnergy reads an energy with its unit, one of J, kJ, ft·lbf, Wh, Btu;
// anything else is a [*ParseError].
func ParseEnergy(s string) (Energy, error) {
	v, err := energy.parse(s)
	return Energy(v), err
}

// String returns the energy in J, exactly.
func (v Energy) String() string { return energy.text(float64(v)) }

// In returns the energy in a unit, as a plain number.
func (v Energy) In(unit Energy) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Energy) MarshalText() ([]byte, error) { return energy.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Energy) UnmarshalText(text []byte) error { return unmarshal(v, ParseEnergy, text) }

// A Mass is held in kilograms.
type Mass float64

// Units of mass.
const (
	Kilogram Mass = 1
	Gram     Mass = 1e-3
	Pound    Mass = 0.45359237
	Ounce    Mass = 0.45359237 / 16
)

var mass = quantity{name: "mass", units: []unitDef{
	{"kg", float64(Kilogram), 0},
	{"g", float64(Gram), 0},
	{"lb", float64(Pound), 0},
	{"oz", float64(Ounce), 0},
}}

// ParseMass reads a mass with its unit, one of kg, g, lb, oz; anything else is
// a [*ParseError].
func ParseMass(s string) (Mass, error) {
	v, err := mass.parse(s)
	return Mass(v), err
}

// String returns the mass in kg, exactly.
func (v Mass) String() string { return mass.text(float64(v)) }

// In returns the mass in a unit, as a plain number.
func (v Mass) In(unit Mass) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Mass) MarshalText() ([]byte, error) { return mass.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Mass) UnmarshalText(text []byte) error { return unmarshal(v, ParseMass, text) }

// A Density is held in kilograms per cubic metre.
type Density float64

// Units of density.
const (
	KilogramPerCubicMetre  Density = 1
	GramPerCubicCentimetre Density = 1e3
	PoundPerCubicInch      Density = 0.45359237 / (0.0254 * 0.0254 * 0.0254)
	PoundPerCubicFoot      Density = 0.45359237 / (0.3048 * 0.3048 * 0.3048)
)

var density = quantity{name: "density", units: []unitDef{
	{"kg/m3 kg/m³", float64(KilogramPerCubicMetre), 0},
	{"g/cm3 g/cm³", float64(GramPerCubicCentimetre), 0},
	{"lb/in3 lb/in³", float64(PoundPerCubicInch), 0},
	{"lb/ft3 lb/ft³", float64(PoundPerCubicFoot), 0},
}}

// ParseDensity reads a density with its unit, one of kg/m3, g/cm3, lb/in3,
// lb/ft3; anything else is a [*ParseError].
func ParseDensity(s string) (Density, error) {
	v, err := density.parse(s)
	return Density(v), err
}

// String returns the density in kg/m3, exactly.
func (v Density) String() string { return density.text(float64(v)) }

// In returns the density in a unit, as a plain number.
func (v Density) In(unit Density) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Density) MarshalText() ([]byte, error) { return density.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Density) UnmarshalText(text []byte) error { return unmarshal(v, ParseDensity, text) }

// A Speed, of a cutting edge, a rim or a slide, is held in metres per second.
type Speed float64

// Units of speed.
const (
	MetrePerSecond      Speed = 1
	MetrePerMinute      Speed = 1.0 / 60
	MillimetrePerMinute Speed = 1e-3 / 60
	FootPerSecond       Speed = 0.3048
	FootPerMinute       Speed = 0.3048 / 60
	InchPerMinute       Speed = 0.0254 / 60
)

var speed = quantity{name: "speed", units: []unitDef{
	{"m/min", float64(MetrePerMinute), 0},
	{"m/s", float64(MetrePerSecond), 0},
	{"mm/min", float64(MillimetrePerMinute), 0},
	{"ft/min", float64(FootPerMinute), 0},
	{"ft/s", float64(FootPerSecond), 0},
	{"in/min", float64(InchPerMinute), 0},
}}

// ParseSpeed reads a speed with its unit, one of m/min, m/s, mm/min, ft/min,
// ft/s, in/min; anything else is a [*ParseError].
func ParseSpeed(s string) (Speed, error) {
	v, err := speed.parse(s)
	return Speed(v), err
}

// String returns the speed in m/min, exactly.
func (v Speed) String() string { return speed.text(float64(v)) }

// In returns the speed in a unit, as a plain number.
func (v Speed) In(unit Speed) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Speed) MarshalText() ([]byte, error) { return speed.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Speed) UnmarshalText(text []byte) error { return unmarshal(v, ParseSpeed, text) }

// A RotationalSpeed is held in radians per second.
type RotationalSpeed float64

// Units of rotational speed.
const (
	RadianPerSecond RotationalSpeed = 1
	RevPerMinute    RotationalSpeed = 2 * math.Pi / 60
	RevPerSecond    RotationalSpeed = 2 * math.Pi
)

var rotationalSpeed = quantity{name: "rotational speed", units: []unitDef{
	{"rev/min rpm", float64(RevPerMinute), 0},
	{"rev/s", float64(RevPerSecond), 0},
	{"rad/s", float64(RadianPerSecond), 0},
}}

// ParseRotationalSpeed reads a rotational speed with its unit, one of rev/min,
// rev/s, rad/s; anything else is a [*ParseError].
func ParseRotationalSpeed(s string) (RotationalSpeed, error) {
	v, err := rotationalSpeed.parse(s)
	return RotationalSpeed(v), err
}

// String returns the rotational speed in rev/min, exactly.
func (v RotationalSpeed) String() string { return rotationalSpeed.text(float64(v)) }

// In returns the rotational speed in a unit, as a plain number.
func (v RotationalSpeed) In(unit RotationalSpeed) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v RotationalSpeed) MarshalText() ([]byte, error) { return rotationalSpeed.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *RotationalSpeed) UnmarshalText(text []byte) error {
	return unmarshal(v, ParseRotationalSpeed, text)
}

// A TemperatureDifference is the distance between two temperatures, held in
// kelvins.
type TemperatureDifference float64

// Units of temperature difference.
const (
	KelvinDifference     TemperatureDifference = 1
	FahrenheitDifference TemperatureDifference = 5.0 / 9
)

var temperatureDifference = quantity{name: "temperature difference", units: []unitDef{
	{"K °C C degC", float64(KelvinDifference), 0},
	{"°F F degF", float64(FahrenheitDifference), 0},
}}

// ParseTemperatureDifference reads a temperature difference with its unit, one
// of K, °F; anything else is a [*ParseError].
func ParseTemperatureDifference(s string) (TemperatureDifference, error) {
	v, err := temperatureDifference.parse(s)
	return TemperatureDifference(v), err
}

// String returns the temperature difference in K, exactly.
func (v TemperatureDifference) String() string { return temperatureDifference.text(float64(v)) }

// In returns the temperature difference in a unit, as a plain number.
func (v TemperatureDifference) In(unit TemperatureDifference) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v TemperatureDifference) MarshalText() ([]byte, error) {
	return temperatureDifference.marshal(float64(v))
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *TemperatureDifference) UnmarshalText(text []byte) error {
	return unmarshal(v, ParseTemperatureDifference, text)
}

// An Area is held in square metres.
type Area float64

// Units of area.
const (
	SquareMetre      Area = 1
	SquareMillimetre Area = 1e-6
	SquareCentimetre Area = 1e-4
	SquareInch       Area = 0.0254 * 0.0254
)

var area = quantity{name: "area", units: []unitDef{
	{"mm2 mm²", float64(SquareMillimetre), 0},
	{"cm2 cm²", float64(SquareCentimetre), 0},
	{"m2 m²", float64(SquareMetre), 0},
	{"in2 in²", float64(SquareInch), 0},
}}

// ParseArea reads an area with its unit, one of mm2, cm2, m2, in2; anything
// else is a [*ParseError].
func ParseArea(s string) (Area, error) {
	v, err := area.parse(s)
	return Area(v), err
}

// String returns the area in mm2, exactly.
func (v Area) String() string { return area.text(float64(v)) }

// In returns the area in a unit, as a plain number.
func (v Area) In(unit Area) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Area) MarshalText() ([]byte, error) { return area.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Area) UnmarshalText(text []byte) error { return unmarshal(v, ParseArea, text) }

// A Volume is held in cubic metres.
type Volume float64

// Units of volume.
const (
	CubicMetre      Volume = 1
	CubicMillimetre Volume = 1e-9
	CubicCentimetre Volume = 1e-6
	Litre           Volume = 1e-3
	CubicInch       Volume = 0.0254 * 0.0254 * 0.0254
	CubicFoot       Volume = 0.3048 * 0.3048 * 0.3048
	ImperialGallon  Volume = 4.54609e-3
	USGallon        Volume = 231 * 0.0254 * 0.0254 * 0.0254
)

var volume = quantity{name: "volume", units: []unitDef{
	{"cm3 cm³", float64(CubicCentimetre), 0},
	{"mm3 mm³", float64(CubicMillimetre), 0},
	{"m3 m³", float64(CubicMetre), 0},
	{"L l", float64(Litre), 0},
	{"in3 in³", float64(CubicInch), 0},
	{"ft3 ft³", float64(CubicFoot), 0},
	{"imp.gal impgal", float64(ImperialGallon), 0},
	{"US.gal USgal", float64(USGallon), 0},
}}

// ParseVolume reads a volume with its unit, one of cm3, mm3, m3, L, in3, ft3,
// imp.gal, US.gal; anything else is a [*ParseError].
func ParseVolume(s string) (Volume, error) {
	v, err := volume.parse(s)
	return Volume(v), err
}

// String returns the volume in cm3, exactly.
func (v Volume) String() string { return volume.text(float64(v)) }

// In returns the volume in a unit, as a plain number.
func (v Volume) In(unit Volume) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v Volume) MarshalText() ([]byte, error) { return volume.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *Volume) UnmarshalText(text []byte) error { return unmarshal(v, ParseVolume, text) }

// A VolumeFlow is held in cubic metres per second.
type VolumeFlow float64

// Units of volume flow.
const (
	CubicMetrePerSecond      VolumeFlow = 1
	LitrePerMinute           VolumeFlow = 1e-3 / 60
	CubicCentimetrePerMinute VolumeFlow = 1e-6 / 60
	CubicInchPerMinute       VolumeFlow = 0.0254 * 0.0254 * 0.0254 / 60
	CubicFootPerMinute       VolumeFlow = 0.3048 * 0.3048 * 0.3048 / 60
)

var volumeFlow = quantity{name: "volume flow", units: []unitDef{
	{"L/min l/min", float64(LitrePerMinute), 0},
	{"m3/s m³/s", float64(CubicMetrePerSecond), 0},
	{"cm3/min cm³/min", float64(CubicCentimetrePerMinute), 0},
	{"in3/min in³/min", float64(CubicInchPerMinute), 0},
	{"ft3/min ft³/min", float64(CubicFootPerMinute), 0},
}}

// ParseVolumeFlow reads a volume flow with its unit, one of L/min, m3/s,
// cm3/min, in3/min, ft3/min; anything else is a [*ParseError].
func ParseVolumeFlow(s string) (VolumeFlow, error) {
	v, err := volumeFlow.parse(s)
	return VolumeFlow(v), err
}

// String returns the volume flow in L/min, exactly.
func (v VolumeFlow) String() string { return volumeFlow.text(float64(v)) }

// In returns the volume flow in a unit, as a plain number.
func (v VolumeFlow) In(unit VolumeFlow) float64 { return float64(v / unit) }

// MarshalText implements [encoding.TextMarshaler]; only finite values have text.
func (v VolumeFlow) MarshalText() ([]byte, error) { return volumeFlow.marshal(float64(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *VolumeFlow) UnmarshalText(text []byte) error { return unmarshal(v, ParseVolumeFlow, text) }
