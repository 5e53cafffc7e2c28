// Package dividing says how to turn the crank of a dividing head or rotary table
// to space n teeth, holes or flats: whole turns and spaces on a circle of the
// plates that are there, and what to do when n cannot be had.
//
// It covers plain indexing and indexing by angle. Left out are differential and
// compound indexing, which want change gears or two index pins and for which no
// worked example could be read to check them by, and the coordinates of holes,
// which package gasket has. Numbers out of range are a [*units.ArgumentError],
// text that cannot be read a [*units.ParseError], a number that the plates do not
// give [ErrNotDivisible]. Sources and checks: testdata/speeds/dividing/README.md.
package dividing
