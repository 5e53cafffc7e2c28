// Package units holds the quantities of the workshop, read as people write them
// and printed so that they read back. A [Length] is a whole number of picometres,
// so inches and millimetres never drift; the others are float64 in SI, made by a
// factor, 6 * units.Bar, and read by p.In(units.PSI). Text that cannot be read is
// a [*ParseError], another bad argument an [*ArgumentError]; rounding is a call of
// its own. Sources, checks and gaps: testdata/units/README.md.
package units
