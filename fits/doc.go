// Package fits says what size to make both parts of a joint so that they slide,
// run, locate or grip as they are meant to, and what two parts that are made
// already do to each other.
//
//	nominal, fit, err := fits.ParseSizedFit("10H7/g6")
//	r, err := fit.LimitsFor(nominal) // both parts, clearance at both ends, kind of fit
//	shaft, err := r.Shaft.RoundInward(units.MM(0.01))
//
// [Fit] and [Class] are ISO 286, [InchFit] ANSI B4.1; [Choose], [ChooseInch] and
// [Reaming] start from a wanted clearance. Clearance is hole less shaft on the
// diameter; below zero it is interference. Limits are exact; nothing is
// extrapolated. A bad argument is a [*units.ArgumentError], text that cannot be
// read a [*units.ParseError]. Heat, pressing, glue and screws: fits/assembly.
// Sources, checks and gaps: testdata/fits/README.md.
package fits
