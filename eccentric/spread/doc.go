// Package spread tells what tolerances do to a valve gear: between which limits
// its events fall, and how often something comes of them that Gear.Check would
// remark. A [Study] is a gear with the tolerances of its dimensions; a dimension
// without one is exact.
//
//	Study.Random          percentiles of the events, chances of the findings, in engines drawn at random
//	Study.Worst           limits beyond which no engine lies, and what makes them
//	Study.WorstAt         the same of valve and ports at one crank angle
//	Study.Sensitivities   what a step of each size does
//	Study.Shares          what each dimension has of the variance of each event
//	Study.Hold            which size to hold first
//	Study.Widest          the widest tolerances that keep what is wanted
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
