package steam

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("steam")

// Saturated is a state of steam over its own water.
type Saturated struct {
	Pressure    units.Pressure // absolute
	Temperature units.Temperature
	Refs        source.Refs
}

// Gauge returns the pressure above that of the air, taken as 101,325 Pa.
func (s Saturated) Gauge() units.Pressure { return s.Pressure - units.Atmosphere }

// Where region 4 of the formulation begins and ends: IAPWS R7-97(2012), section 8;
// the line of saturation is given as far as materials and joints are judged by it.
const (
	coldest      = units.Temperature(273.15)
	critical     = units.Temperature(647.096)
	leastPressed = units.Pressure(611.213)
	mostPressed  = 22.064 * units.Megapascal
	mostGauge    = 200 * units.Bar
)

var equation30 = source.Ref{
	Kind: source.Published, Title: "IAPWS R7-97(2012), Industrial Formulation 1997", Edition: "2012 revision", Locator: "equation 30",
}

var equation31 = source.Ref{
	Kind: source.Published, Title: "IAPWS R7-97(2012), Industrial Formulation 1997", Edition: "2012 revision", Locator: "equation 31",
}

// AtPressure returns saturated steam of an absolute pressure, from 611.213 Pa to
// 22.064 MPa, with its temperature.
//
//	T = (n10 + D - sqrt((n10 + D)^2 - 4 * (n9 + n10 * D))) / 2
//	D = 2 * G / (-F - sqrt(F^2 - 4 * E * G))
//	E = b^2 + n3 * b + n6
//	F = n1 * b^2 + n4 * b + n7
//	G = n2 * b^2 + n5 * b + n8
//
//	T  the temperature in K
//	b  the fourth root of the pressure in MPa
//	n  coefficients of table 34
//
// Source: IAPWS R7-97(2012), equation 31.
func AtPressure(absolute units.Pressure) (Saturated, error) {
	if err := fault.Finite(fail, "pressure of the steam", absolute); err != nil {
		return Saturated{}, err
	}
	if absolute < leastPressed || absolute > mostPressed {
		return Saturated{}, fail.OutOfRange("pressure of the steam", absolute, "611.213 Pa to 22.064 MPa, absolute")
	}
	return Saturated{absolute, temperature(absolute), source.Shared(&equation31)}, nil
}

// AtGauge returns saturated steam of a pressure above that of the air, which is
// taken as 101,325 Pa, from 0 to 200 bar. See [AtPressure] and its example.
func AtGauge(above units.Pressure) (Saturated, error) {
	if err := fault.Finite(fail, "pressure of the steam", above); err != nil {
		return Saturated{}, err
	}
	if above < 0 || above > mostGauge {
		return Saturated{}, fail.OutOfRange("pressure of the steam", above, "0 to 200 bar above that of the air")
	}
	return AtPressure(above + units.Atmosphere)
}

// AtTemperature returns saturated steam of a temperature, from 0 degrees C to the
// critical point at 647.096 K, with its pressure.
//
//	p = (2 * C / (-B + sqrt(B^2 - 4 * A * C)))^4
//	A = t^2 + n1 * t + n2
//	B = n3 * t^2 + n4 * t + n5
//	C = n6 * t^2 + n7 * t + n8
//	t = T + n9 / (T - n10)
//
//	p  the absolute pressure in MPa
//	T  the temperature in K
//	n  coefficients of table 34
//
// Source: IAPWS R7-97(2012), equation 30.
func AtTemperature(t units.Temperature) (Saturated, error) {
	if err := fault.Finite(fail, "temperature of the steam", t); err != nil {
		return Saturated{}, err
	}
	if t < coldest || t > critical {
		return Saturated{}, fail.OutOfRange("temperature of the steam", t, "0 to 373.946 °C, where water and steam can stand together")
	}
	return Saturated{pressure(t), t, source.Shared(&equation30)}, nil
}

// Validate returns an error unless the pressure is from 0.01 to 40 bar, for which
// there are properties, and the temperature that of saturated steam of the pressure.
func (s Saturated) Validate() error {
	if err := pressed("pressure of the steam", s.Pressure); err != nil {
		return err
	}
	want := temperature(s.Pressure)
	if !(math.Abs(float64(s.Temperature-want)) <= 1e-6*float64(want)) {
		return fail.Wrong("temperature of the steam", s.Temperature, "is not that of saturated steam of the pressure", want.String())
	}
	return nil
}

// The coefficients of table 34.
const (
	n1  = 0.11670521452767e4
	n2  = -0.72421316703206e6
	n3  = -0.17073846940092e2
	n4  = 0.12020824702470e5
	n5  = -0.32325550322333e7
	n6  = 0.14915108613530e2
	n7  = -0.48232657361591e4
	n8  = 0.40511340542057e6
	n9  = -0.23855557567849
	n10 = 0.65017534844798e3
)

func temperature(p units.Pressure) units.Temperature {
	b := math.Sqrt(math.Sqrt(p.In(units.Megapascal))) // eq. 29a
	e := b*b + n3*b + n6
	f := n1*b*b + n4*b + n7
	g := n2*b*b + n5*b + n8
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return units.Kelvin((n10 + d - math.Sqrt((n10+d)*(n10+d)-4*(n9+n10*d))) / 2) // eq. 31
}

func pressure(at units.Temperature) units.Pressure {
	t := at.Kelvin() + n9/(at.Kelvin()-n10) // eq. 29b
	a := t*t + n1*t + n2
	b := n3*t*t + n4*t + n5
	c := n6*t*t + n7*t + n8
	root := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	return units.Pressure(root*root*root*root) * units.Megapascal // eq. 30
}
