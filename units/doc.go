// Package units holds the quantities of the workshop. Each one reads what people
// write on drawings and prints what reads back to the same value, so that flags,
// JSON and TOML work without glue. A [Length] is a whole number of picometres, so
// inches and millimetres never drift. The others are float64 in SI units, made by
// a factor, 6 * units.Bar, and read as a plain number by p.In(units.PSI).
//
// Text that cannot be read, such as a number without a unit, is a [*ParseError],
// any other bad argument an [*ArgumentError]; both say what is accepted. String
// never drops a digit; rounding is a call of its own. Sources, checks and gaps
// are in testdata/units/README.md.
package units
