// Package diagnosis tells from a few readings on the built engine which part of
// its valve gear is wrong, by how much and how surely, beside what the drawing
// says. A [Case] is the drawing, its tolerances and the readings:
//
//	Case.Diagnose    the faults by probability, the first of them the verdict
//
// It is for an engine that is turned by hand: a protractor on the shaft, a feeler
// gauge or a little low-pressure air to find when a port cracks open or shuts, a
// rule or a dial on the valve's rod. All readings are taken turning the way in
// which the engine is to run, so that lost motion lies on one side.
//
// It would rather not say than say what is wrong: [Suspect.Sure] is for odds that
// leave no other part, and readings that no fault explains are to be measured
// again. Faults of one part and of two are weighed, not of three.
//
// A bad argument is an [*units.ArgumentError] that says what is accepted, text
// that cannot be read a [*units.ParseError]. Method, checks and gaps are in
// testdata/eccentric/diagnosis/README.md.
package diagnosis
