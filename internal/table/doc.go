// Package table reads the CSV tables that the packages of this module embed:
// on first use, and strictly, with file and line in every complaint.
//
// A table opens with comment lines that say what it is:
//
//	# title: Tapping drills for ISO metric coarse threads
//	# edition: ISO 2306:1972
//	# unit: mm
//	# held: digits as printed, read in a reprint
//	# errata: none known
//	# source iso2306 | published | Tapping drills, ISO 2306 | 1972 | as reprinted in a handbook
//
// then the names of the columns and one row a line. The columns source (a key
// declared by a source line) and locator (the place in that work) end every
// row. A blank cell means that the source does not say; it never means zero.
// Further comment lines, "# note: ...", are free.
//
// The package gives text and places and knows no quantity: [As] hands the text of
// a cell to the function that reads it.
package table
