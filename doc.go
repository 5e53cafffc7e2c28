// Package valvechest is the root of a library of reference-checked workshop
// numbers for the builder of a small slide-valve steam engine. It holds no code;
// this page tells which package and function uses which standard or handbook.
//
//	standard or handbook                        package            function
//	Bevan, The Theory of Machines, ch. 5        eccentric          Gear.Events
//	Tennant and Kinealy, The Slide Valve        eccentric          Gear.Events, Gear.WithLead
//	ISO 68-1, 261, 262 metric threads           thread             Parse, Thread.Minor
//	ISO 965-1 limits of metric threads          thread             Thread.Limits
//	ASME B1.1 Unified threads                   thread             Thread.Limits
//	BS 84 Whitworth, BS 93 BA                   thread             Thread.Limits
//	ISO 273, BS 4186 clearance holes            thread             Thread.ClearanceHole
//	ISO 898-1, FED-STD-H28 strength             thread             Thread.BoltStrength, Joint.Engagement
//	ISO 4032, BS 1083, ASME B18.2.2 hexagons    thread             Thread.Hexagon
//	ISO 286-1 and -2 limits and fits            fits               Class.At, Fit.At
//	ANSI B4.1 inch fits, B4.2 preferred fits    fits               InchFit.At, PreferredFits
//	Lame's thick cylinders                      fits, gasket/cover Press.Solve, WallFor
//	Kienzle cutting force                       speeds/cutting     TurningLoad, DrillingLoad
//	training manuals and handbooks, speeds      speeds             Recommend
//	rim speeds of cast iron                     speeds/holding     CheckRim
//	ASME Y14.5 fixed and floating fasteners     gasket             ToleranceFor
//	ASME VIII-1 App. 2 gasket factors           gasket/joint, seal Gasket, FactorFor
//	O-ring and groove tables                    gasket/seal        RingOf, GrooveFor
//	number, letter and wire gauges              units/gauge        Number, Letter, Parse
//	NIST SP 811 conversions                     units              ParseLength, ParsePressure, ...
//
// Every lookup returns a source.Ref beside its value; testdata/sources.csv lists
// the works. examples/enginebook does the whole job on one engine.
package valvechest
