// Package fits says what size to make both parts of a joint, so that it slides,
// runs, presses, shrinks or glues as it is meant to, cold and hot.
//
//	nominal, fit, err := fits.ParseSizedFit("10H7/g6")
//	r, err := fit.At(nominal) // both parts, clearance at both ends, kind of fit
//	shaft, err := r.Shaft.RoundInward(units.MM(0.01))
//
// [Class] and [Fit] are the system of ISO 286, [InchFit] that of ANSI B4.1;
// [Choose] and [Reaming] go from a wanted clearance to a fit or a reamer. [Press],
// [Shrink], [Running], [RingGap], [Bond] and [GrubScrew] are joints: fill in the
// struct and Solve it. Results carry a []Finding that says what is wrong before
// metal is cut or an oven is lit. [Stack] adds up a chain of limits, [Measured]
// looks at two parts that are made already, [Rules] has the rules of thumb.
//
// Every clearance is hole less shaft on the diameter, and below zero it is
// interference. Results come at both ends: least and most, hot and cold.
//
// # Exact
//
// Limits are exact lengths: JS7 at 10 mm is plus and minus 7.5 um, and rounding
// is a call that says how much of the tolerance it costs. Outside a table is an
// error that names its ends; nothing is extrapolated.
//
// # Sources
//
// ISO 286-1:1988 and 2010, whose tables are the same, as reprinted in textbooks
// (Narayana, Machine Drawing), national editions (GB/T 1800, JIS B 0401, BS 4500)
// and handbooks; ANSI B4.1-1967 as reprinted in Machinery's Handbook; ANSI B4.2
// for the list of preferred fits. Every row of tables/ says where it was read;
// 55 tolerances over 1000 mm, two deviations (j8 up to 3 mm, x over 355 up to
// 400 mm) and 58 of the 293 inch rows, LC1 to LC5 among them, are from memory and
// say so. Deviations of shafts a to g up to 180 mm, and of m to zc over 180 mm,
// were read as those of the hole and turned round by the rule of the standard.
// Of v and y to zc, and of most of x, one work was read over 225 mm; the second
// evidence there is the formula of the standard. Formulas are those of
// textbooks, named at each function.
//
// The formulas of ISO 286 do not give its tables back: 58 grades and 159
// deviations differ after rounding. The tables count.
//
// # Checks
//
// The tests compare every tolerance and deviation with the sources and with the
// formulas, every hole of the published tables with the rule that this package
// makes it by, 1546 published pairs of limits from ten reprints with the
// limits it gives, and the identities of the standard on every cell; textbook
// examples of shrunk and pressed tubes; and cases that builders had in the
// workshop. Misprints that were found stay out by a test of their own.
//
// # Left out
//
// Fits of threads and of rolling bearings, geometrical tolerances, gauge makers'
// tolerances, ISO 286 above 3150 mm, plastic press fits (DIN 7190 part two) and
// inch fits over about 5 in. The joints are for shop use by people who check
// their work: whatever runs under pressure or fast falls under the rules of the
// place and, where they ask for it, under licensed practice.
package fits
