// Package fits sizes both parts of a joint to slide, run, locate or grip. [Fit] and
// [Class] are ISO 286, [InchFit] ANSI B4.1; [Choose] and [Reaming] start from a clearance.
//
//	fit, err := fits.ParseSizedFit("10H7/g6")
//	r, err := fit.Limits() // both parts, clearance at both ends, kind of fit
//
// Clearance is hole less shaft on the diameter, below zero interference. A bad
// argument is a [*units.ArgumentError], unreadable text a [*units.ParseError].
// Joints under heat and load: fits/assembly. Sources: testdata/fits/README.md.
package fits
