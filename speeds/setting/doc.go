// Package setting has the geometry that a bench uses all day: setting over for
// a taper, the sine bar, rollers in a vee or beside a taper, balls in a taper
// bore, chords.
//
// Every formula is plain geometry and exact; what limits the answer is how well
// the machine can be set. It is not a drawing program, and hole patterns are in
// package gasket.
//
// Checked against US Navy and Army training manuals, a book on tapers of 1902
// (one line of whose table is misprinted and kept in testdata/errata.csv), two
// tables of chords (one misprint), a sine bar maker's note and examination
// questions in metrology, one of which has the wrong key. For rollers beside a
// taper no printed example was found: they are checked against positions found
// by iteration.
package setting
