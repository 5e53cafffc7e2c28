// Package units holds the quantities of the workshop: an exact length, and
// angle, pressure, force, torque, power, energy, mass, density, speed,
// rotational speed, temperature, area, volume and volume flow. Each one reads
// what people write on drawings and prints what reads back to the same value,
// so that command-line flags, JSON and TOML work without glue.
//
// # Lengths are exact
//
// [Length] counts whole picometres in 64 bits. An inch is exactly 25.4 mm, so
// 1/512 in, 0.00000001 in and 0.000000001 mm are all whole numbers of
// picometres, and a dimension that goes from inches to millimetres and back is
// the dimension it was. No bare number is a length: a plain 25 does not
// compile as one.
//
// # Everything else is a float64 in SI
//
// The other quantities are named float64 types that hold the SI value; multiply
// by a unit to make one and read it with In:
//
//	p := 6 * units.Bar
//	fmt.Printf("%.0f psi\n", p.In(units.PSI)) // 87 psi
//
// The quotient of a pressure and a pressure is still of type Pressure to Go, and
// Println takes it for so many pascals: In gives the plain number.
//
// A [Temperature] is a point on a scale and a [TemperatureDifference] the
// distance between two; they are different types because 20 degrees Celsius is
// 68 on one scale of Fahrenheit and 36 on the other.
//
// # Reading and printing
//
// A number without a unit is an error that names the units. String never drops
// a digit and never picks another unit because a number is large or small;
// rounding is a call of its own, with a step and a direction ([Length.Round],
// [RoundInward]). Parsing what String printed gives the value back, bit for bit.
//
// # Sources
//
// The inch, pound and standard gravity are exact by definition (international
// yard and pound agreement of 1959; NIST Special Publication 811, 2008 edition,
// appendix B.8). Every other factor is worked out from those three. The tests
// compare them with printed figures of SP 811 and, in continuous integration,
// with GNU units.
//
// The package does no dimensional analysis: it will not stop a program from
// multiplying a force by a temperature.
package units
