// Package cover works out how thin a cover or a cylinder wall may be: stress and
// deflection of flat round and rectangular covers and whether the material stands
// them, hoop stress of cylinders, what a cover that was cut too thin still does,
// and the practice of test pressures.
//
//	Round.Under, Rectangular.Under   stress and deflection of a flat cover
//	Plate.Check                      whether its material stands that
//	Round.Solve, HeadRules           how thick it must be
//	Wall.Hoop, Wall.Lame, Wall.Solve the same of a cylinder wall
//	CutThin                          a cover that was machined too thin
//	TestPractices                    test pressures, with TestPrecautions
//
// It is for the covers and cylinders of a small engine. Boilers, receivers and
// anything else that the law calls a pressure vessel go by the code of the place
// and its licensed inspector. Castings are made thicker than these formulas ask,
// for porosity, for the core that shifted and for the chuck.
//
// A bolted cover is neither quite supported nor quite clamped at its rim: both are
// given, and the truth lies between. A bad argument is an [*units.ArgumentError]
// that says what is accepted. Sources, checks and gaps are in
// testdata/gasket/cover/README.md.
package cover
