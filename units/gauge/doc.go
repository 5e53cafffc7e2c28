// Package gauge names the sizes that drills, wire, sheet and screws come in,
// and chooses among those that somebody owns.
//
// A [Size] is a name, the exact diameter (or thickness) behind it, and where
// that comes from. A [Set] holds sizes in order and finds the one that is
// nearest to a diameter, at least or at most as large, or called by a name.
// [Metric], [Number], [Letter] and [Fraction] are the standard sets of drills;
// [ParseSet] reads the set in a person's drawer:
//
//	1-6x0.1 mm, #1-#60, 1/16-1/2x1/64 in, 6.8 mm
//
// A [System] is a series of gauge numbers for wire, sheet or screws. The same
// number means another size in each of them, so a bare "16 gauge" is an error
// that lists what it might mean.
//
// # Sources
//
// Number and letter drills, the Standard Wire Gauge and the sheet steel gauge
// are those of the GNU units definitions file, release 2.22, compared in the
// tests with a drill maker's list, a public-domain chart of 2007 and a
// reference table of BS 3737:1964. The American Wire Gauge is worked out from
// its formula. The Birmingham gauge comes from comparison tables of wire gauges,
// compared with a building text that prints it after Holtzapffel. Metric drills follow the size rule of
// BS 328, fractions and screw numbers are arithmetic.
//
// The package does not say how large a hole a drill cuts, nor to what tolerance
// a drill is ground. Twist drills to ISO 235 sizes that only a few makers list
// (0.01 mm steps) are not in Metric; a set read by ParseSet may have them.
package gauge
