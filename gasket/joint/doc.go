// Package joint works out what a bolted joint carries: the force of the pressure,
// the load that seats and holds a gasket, the load, stress and preload of each
// stud, how hard the gasket is pressed, how far apart the studs may stand and in
// which order they are tightened.
//
//	EndForce         the pressure on a cover
//	Gasket.Loads     what a ring gasket inside the studs asks of them
//	Studs.Load       what each stud carries, and whether the cover stays shut
//	StudLoad.Press   whether the studs seat the gasket, and what cures it
//	StudLoad.Grip    whether the thread that they are screwed into holds them
//	SpannerPull      how hard to pull for a torque
//	SpacingOf        the widest gap, by the rules of thumb
//	Order            the order of tightening
//
// It is for the covers of a small engine and no design code: a boiler, and
// anything else that the law calls a pressure vessel, goes by the code of the
// place and its licensed inspector. [Precautions] belongs wherever somebody is
// told to undo a joint.
//
// The stress area of a stud and the torque for its preload are in thread/strength,
// the factors m and y of a gasket in gasket/seal. A bad argument is an
// [*units.ArgumentError] that says what is accepted. Sources, checks and gaps are
// in testdata/gasket/joint/README.md.
package joint
