// Package spread tells what tolerances do to a valve gear: between which limits
// its events fall, and how often something comes of them that Gear.Check would
// remark. A [Study] is a gear with the tolerances of its dimensions; a dimension
// without one is exact.
//
//	Study.Random   percentiles of the events, chances of the findings, in engines drawn at random
//
// It is for single engines and small batches made to a drawing: the dimensions
// vary independently of each other, and what wears or runs out is not in it. A
// tolerance that could leave the range in which there is a gear at all is refused,
// so that no engine is left out of an answer in silence.
//
// A bad argument is an [*units.ArgumentError] that says what is accepted, text
// that cannot be read a [*units.ParseError]. Method, checks and gaps are in
// testdata/eccentric/spread/README.md.
package spread
