// Package gauge names the sizes that drills, wire, sheet and screws come in,
// and chooses among those that somebody owns.
//
// A [Size] is a name and the exact diameter or thickness behind it. A [Set]
// holds sizes in order and finds the one that is nearest to a diameter, at least
// or at most as large, or called by a name. [Metric], [Number], [Letter] and
// [Fraction] are the standard sets of drills; [ParseSet] reads the set in a
// person's drawer:
//
//	1-6x0.1 mm, #1-#60, 1/16-1/2x1/64 in, 6.8 mm
//
// A [System] is a series of gauge numbers for wire, sheet or screws. The same
// number means another size in each of them, so a bare "16 gauge" is an error
// that lists what it might mean.
//
// Text that cannot be read is a [*units.ParseError], any other bad argument an
// [*units.ArgumentError]. The package does not say how large a hole a drill
// cuts. Sources and checks are in testdata/units/gauge/README.md.
package gauge
