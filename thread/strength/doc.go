// Package strength works out what a thread holds and what it takes to turn it: the
// loads of a bolt, the engagement at which a stud breaks before a thread strips,
// the torque of a nut and of a tap.
//
// [BoltFor] goes by property class and [BoltOf] by material; [Joint.Solve]
// calculates how deep a stud must go, [StudLengthFor] says it by rule of thumb,
// and [TappedHole.FullThread] judges the thread in a hole. [Tightening.Solve] is
// the one place of the module for T = K F d: every [NutFactor] has its source, and
// every pull both ends. [Tapping.Torque] shows what a larger hole saves,
// [BrokenTap] what is tried when it was too late.
//
// The strength is that of a still, cold, straight pull: fatigue, heat, gaskets and
// bending are left out. It is not for the joints of boilers and pressure vessels,
// lifting gear or vehicles, whose codes come first. Sources, checks and gaps:
// testdata/thread/strength/README.md. A bad argument is a [*units.ArgumentError],
// text that cannot be read a [*units.ParseError].
package strength
