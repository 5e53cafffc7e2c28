// Package setting has the geometry that a bench uses all day: setting over for
// a taper, the sine bar, rollers in a vee or beside a taper, balls in a taper
// bore, chords.
//
// Every formula is plain geometry and exact; what limits the answer is how well
// the machine can be set. It is not a drawing program, and hole patterns are in
// package gasket. Lengths that are not above zero, angles out of range and sizes
// that cannot be are a [*units.ArgumentError]. Checks and gaps:
// testdata/speeds/setting/README.md.
package setting
